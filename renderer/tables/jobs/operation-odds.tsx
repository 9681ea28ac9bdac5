import type { ReactNode } from 'react';
import { ChanceField } from '../fields';
import { Block } from '../hours';
import { Follows, Line, Told } from '../panel';
import { keyOf, type Path, usePlace } from '../store';
import type { CareProps } from './care-props';
import { goodText } from './care-words';

/** How often a run stops its machine, and how often it only loses its own pallet. */
export function OperationOdds({ operation, at }: CareProps): ReactNode {
  const path: Path = ['route', at, 'odds'];
  return (
    <Block title="Odds">
      <Line>
        Stops its machine{' '}
        <ChanceField path={[...path, 'block']} label="Block odds, percent" value={operation.odds.block} size={5} /> % of
        runs, until somebody comes
      </Line>
      <Line>
        Loses its pallet{' '}
        <ChanceField path={[...path, 'loss']} label="Loss odds, percent" value={operation.odds.loss} size={5} /> % of
        runs, and the machine goes on
      </Line>
      <Follows>{goodText(operation)}</Follows>
      <Told of={keyOf(usePlace(), path)} />
    </Block>
  );
}
