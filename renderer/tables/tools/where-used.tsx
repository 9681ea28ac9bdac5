import { Fragment, type ReactNode } from 'react';
import type { Tool } from '../../../core/shop';
import { Block } from '../hours';
import { Follows } from '../panel';
import { counted } from '../screen';
import { useShop } from '../store';
import css from './tools.module.css';
import { usesOf } from './uses';

/** Which operations call for a tool and which magazines hold it; both are entered where they belong. */
export function WhereUsed({ tool }: { tool: Tool }): ReactNode {
  const { operations, machines } = usesOf(useShop(), tool.id);
  return (
    <Block title="Where used">
      <Follows>
        {operations.length === 0 ? (
          'No operation calls for it; jobs name their tools in their route.'
        ) : (
          <Listed say="Called for by" names={operations.map((use) => `${use.operation} (${use.minutes} min)`)} />
        )}
      </Follows>
      <Follows>
        {machines.length === 0 ? (
          'No machine holds it; magazines stand with the machines.'
        ) : (
          <Listed say="Held by" names={machines.map((each) => `${each.machine} (${counted(each.tools, 'tool')})`)} />
        )}
      </Follows>
    </Block>
  );
}

/** Names none of which is broken across two lines. */
function Listed({ say, names }: { say: string; names: readonly string[] }): ReactNode {
  return (
    <>
      {say}
      {names.map((name, at) => (
        <Fragment key={name}>
          {' '}
          <span className={css.whole}>
            {name}
            {at === names.length - 1 ? '.' : ','}
          </span>
        </Fragment>
      ))}
    </>
  );
}
