import type { ReactNode } from 'react';
import type { Tool } from '../../../core/shop';
import { Block } from '../hours';
import { Follows } from '../panel';
import { counted } from '../screen';
import { useShop } from '../store';
import { usesOf } from './uses';

/** Which operations call for a tool and which magazines hold it; both are entered where they belong. */
export function WhereUsed({ tool }: { tool: Tool }): ReactNode {
  const { operations, machines } = usesOf(useShop(), tool.id);
  const called = operations.map(({ operation, minutes }) => `${operation} (${minutes}\u00a0min)`).join(', ');
  const held = machines
    .map((each) => `${each.machine} (${counted(each.tools, 'tool').replace(' ', '\u00a0')})`)
    .join(', ');
  return (
    <Block title="Where used">
      <Follows>
        {operations.length === 0
          ? 'No operation calls for it; jobs name their tools in their route.'
          : `Called for by ${called}.`}
      </Follows>
      <Follows>
        {machines.length === 0 ? 'No machine holds it; magazines stand with the machines.' : `Held by ${held}.`}
      </Follows>
    </Block>
  );
}
