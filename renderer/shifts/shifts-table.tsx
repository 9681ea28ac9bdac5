import { Fragment, type ReactNode, useState } from 'react';
import type { PlanView } from '../../core/contract';
import { hours, share, USES } from './columns';
import styles from './shifts-screen.module.css';
import { cutOf, type ShiftSum, type ShiftTimes, shiftTitle, total } from './sum-shifts';
import { TimeBar, UsePatterns, UseSign } from './time-bar';

/** Shifts with their machines; each line adds up to its window. */
export function ShiftsTable({ sums, view }: { readonly sums: readonly ShiftSum[]; readonly view: PlanView }) {
  const [closed, setClosed] = useState<ReadonlySet<string>>(new Set());
  const toggle = (shift: string): void =>
    setClosed((before) => {
      const after = new Set(before);
      if (!after.delete(shift)) after.add(shift);
      return after;
    });
  const names = new Map(view.shop.machines.map((machine) => [machine.id, machine.name]));
  return (
    <>
      <UsePatterns />
      <table className={styles.table}>
        <caption>Machine hours by shift. Every line adds up to its window.</caption>
        <thead>
          <tr>
            <th scope="col">Shift, machine</th>
            <th scope="col" className={styles.number}>
              Window, h
            </th>
            {USES.map((use) => (
              <th key={use.key} scope="col" className={styles.number}>
                <UseSign use={use.key} />
                {use.label}, h
              </th>
            ))}
            <th scope="col" className={styles.number}>
              Cut, share of window
            </th>
            <th scope="col" className={styles.barHead}>
              Use of the window
            </th>
          </tr>
        </thead>
        <tbody>
          {sums.map((sum) => {
            const open = !closed.has(sum.shift);
            return (
              <Fragment key={sum.shift}>
                <Line times={sum.times} strong>
                  <button type="button" aria-expanded={open} onClick={() => toggle(sum.shift)}>
                    <svg width="10" height="10" viewBox="0 0 10 10" aria-hidden="true">
                      <path d={open ? 'M1 3l4 4 4-4' : 'M3 1l4 4-4 4'} />
                    </svg>
                    {shiftTitle(sum.shift)}
                  </button>
                </Line>
                {open &&
                  sum.machines.map(({ machine, times }) => (
                    <Line key={machine} times={times}>
                      <span className={styles.machine}>
                        {machine} <span>{names.get(machine) === machine ? '' : names.get(machine)}</span>
                      </span>
                    </Line>
                  ))}
              </Fragment>
            );
          })}
        </tbody>
        <tfoot>
          <Line times={total(sums.map((sum) => sum.times))} strong>
            All shifts
          </Line>
        </tfoot>
      </table>
      <dl className={styles.notes}>
        <div>
          <dt>Window</dt>
          <dd>
            the hours of the shift inside the plan, once per machine; benches, where all work is by hand, are left out
          </dd>
        </div>
        {USES.map((use) => (
          <div key={use.key}>
            <dt>{use.label}</dt>
            <dd>{use.explain}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}

function Line(props: { readonly times: ShiftTimes; readonly strong?: boolean; readonly children: ReactNode }) {
  const { times } = props;
  return (
    <tr data-strong={props.strong === true}>
      <th scope="row">{props.children}</th>
      <td>{hours(times.window)}</td>
      {USES.map(({ key }) => (
        <td key={key} data-zero={times[key] === 0}>
          {hours(times[key])}
        </td>
      ))}
      <td>{share(cutOf(times), times.window)}</td>
      <td className={styles.barCell}>
        <TimeBar times={times} />
      </td>
    </tr>
  );
}
