import type { ReactNode } from 'react';
import type { PlanComparison } from '../../core/contract';
import { lengthText } from '../../core/time';
import css from './change-lists.module.css';
import { lateChangeText, lateText, placeText, standsText } from './words';

/** Everything that differs, kind by kind, each opened where it is wanted. */
export function ChangeLists({ comparison }: { readonly comparison: PlanComparison }): ReactNode {
  const { late, dry, moved, appeared, gone, jobs, nights } = comparison;
  return (
    <div className={css.lists}>
      <List title="Jobs later or sooner" count={late.length} head={['Job', 'Before', 'After', '']}>
        {late.map((change) => (
          <Line key={change.job} head={change.job}>
            <td>{jobs.added.includes(change.job) ? 'new' : lateText(change.before)}</td>
            <td>{lateText(change.after)}</td>
            <td>{jobs.added.includes(change.job) ? '' : lateChangeText(change)}</td>
          </Line>
        ))}
      </List>
      <List title="Machines whose night changes" count={dry.length} head={['Machine', 'Before', 'After', 'Cut']}>
        {dry.map(({ machine, before, after, minutes }) => (
          <Line key={machine} head={machine}>
            <td>{standsText(nights, 'before', before)}</td>
            <td>{standsText(nights, 'after', after)}</td>
            <td>{minutes === 0 ? 'as long' : `${lengthText(Math.abs(minutes))} ${minutes > 0 ? 'more' : 'less'}`}</td>
          </Line>
        ))}
      </List>
      <List title="Runs moved" count={moved.length} head={['Run', 'Before', 'After']}>
        {moved.map(({ run, from, to }) => (
          <Line key={run} head={run}>
            <td>{placeText(from)}</td>
            <td>{placeText(to)}</td>
          </Line>
        ))}
      </List>
      <List title="Runs only in the plan after" count={appeared.length} head={['Run']}>
        {appeared.map((run) => (
          <Line key={run} head={run} />
        ))}
      </List>
      <List title="Runs only in the plan before" count={gone.length} head={['Run']}>
        {gone.map((run) => (
          <Line key={run} head={run} />
        ))}
      </List>
    </div>
  );
}

interface ListProps {
  readonly title: string;
  readonly count: number;
  readonly head: readonly string[];
  readonly children: ReactNode;
}

function List({ title, count, head, children }: ListProps): ReactNode {
  if (count === 0) return null;
  return (
    <details>
      <summary>
        {title} <span>{count}</span>
      </summary>
      <table>
        <thead>
          <tr>
            {head.map((say) => (
              <th key={say} scope="col">
                {say}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </details>
  );
}

function Line({ head, children }: { readonly head: string; readonly children?: ReactNode }): ReactNode {
  return (
    <tr>
      <th scope="row">{head}</th>
      {children}
    </tr>
  );
}
