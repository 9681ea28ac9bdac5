import type { ReactNode } from 'react';
import type { Tool } from '../../../core/shop';
import { Button } from '../../look';
import { AmountField, ChoiceField, MinutesField } from '../fields';
import { Block } from '../hours';
import { Follows, Line } from '../panel';
import { keyOf, putting, usePlace, useShopStore } from '../store';
import { wheelText } from './tool-words';
import css from './tools.module.css';

const BY = [
  { value: 'machine', say: 'by the machine, in its cycle' },
  { value: 'hand', say: 'by hand' },
] as const;

const USUAL: NonNullable<Tool['dressing']> = { every: 60, minutes: 5, by: 'machine', usesMm: 0.02, leftMm: 20 };

/** How often a wheel is dressed, by whom, and how much of it that uses. */
export function Dressing({ dressing }: { dressing: Tool['dressing'] }): ReactNode {
  const store = useShopStore();
  const place = usePlace();
  if (dressing === null) {
    return (
      <Block title="Dressing">
        <p className={css.none}>Never dressed.</p>
        <Button
          rank="quiet"
          data-at={keyOf(place, ['dressing'])}
          onClick={() => void store.edit(place, putting(['dressing'], USUAL))}
        >
          Add dressing
        </Button>
      </Block>
    );
  }
  const left = wheelText(dressing);
  return (
    <Block title="Dressing">
      <Line>
        Every <MinutesField path={['dressing', 'every']} label="Dressed every" value={dressing.every} size={5} some />{' '}
        min of grinding, for{' '}
        <MinutesField path={['dressing', 'minutes']} label="Dressing takes" value={dressing.minutes} size={4} /> min,
        <span className={css.by}>
          <ChoiceField path={['dressing', 'by']} label="Dressed by" value={dressing.by} choices={BY} />
        </span>
      </Line>
      <Line>
        Each uses{' '}
        <AmountField path={['dressing', 'usesMm']} label="Radius a dressing uses" value={dressing.usesMm} size={5} /> mm
        of the radius, of which{' '}
        <AmountField path={['dressing', 'leftMm']} label="Radius left" value={dressing.leftMm} size={5} /> mm are left
      </Line>
      {left !== null && <Follows>{left}</Follows>}
      <Button
        rank="quiet"
        onClick={() => void store.edit(place, { ...putting(['dressing'], null), undo: 'Took the dressing out.' })}
      >
        Take dressing out
      </Button>
    </Block>
  );
}
