import type { PlanView } from '../../core/contract';
import { type Interval, momentText } from '../../core/time';
import styles from './run-sheet.module.css';

/** What runs where tonight, by machine, to be printed and hung up; black and white. */
export function RunSheet({ view, stretch }: { readonly view: PlanView; readonly stretch: Interval }) {
  const { plan, shop } = view;
  const jobs = new Map(shop.jobs.map((job) => [job.id, job]));
  const machines = shop.machines
    .map((machine) => ({
      machine,
      runs: plan.runs.filter((run) => run.machine === machine.id && run.end > stretch.start && run.start < stretch.end),
    }))
    .filter(({ runs }) => runs.length > 0);
  return (
    <div className={styles.sheet}>
      <h2>
        {shop.name}: run sheet for {momentText(plan.clock, stretch.start)} to {momentText(plan.clock, stretch.end)}
      </h2>
      {machines.map(({ machine, runs }) => (
        <section key={machine.id}>
          <h3>
            {machine.id} {machine.name}
          </h3>
          <table>
            <thead>
              <tr>
                <th>From</th>
                <th>To</th>
                <th>Pallet</th>
                <th>Job, operation</th>
                <th>Program, revision</th>
                <th className={styles.blank}>What happened</th>
              </tr>
            </thead>
            <tbody>
              {runs.map((run) => {
                const [job = '', id = ''] = run.run.split('/');
                const operation = jobs.get(job)?.route.find((each) => each.id === id);
                return (
                  <tr key={run.run}>
                    <td>{momentText(plan.clock, run.start)}</td>
                    <td>{momentText(plan.clock, run.end)}</td>
                    <td>{run.pallet ?? 'none'}</td>
                    <td>
                      {run.run} {operation?.name}
                    </td>
                    <td>
                      {operation === undefined || operation.program === ''
                        ? ''
                        : `${operation.program}, rev. ${operation.revision}`}
                    </td>
                    <td />
                  </tr>
                );
              })}
            </tbody>
          </table>
        </section>
      ))}
    </div>
  );
}
