import { Button } from '../look';
import styles from '../look/lists.module.css';
import type { PlanIndex, Selection } from '../timeline';

/** What the plan could not do as asked: runs without room, and locks that could not hold. */
export function UnplacedList(props: { readonly index: PlanIndex; onSelect(selection: Selection): void }) {
  const { left, conflicts } = props.index.view.plan;
  return (
    <>
      {conflicts.length > 0 && (
        <section aria-label="Locks that cannot hold">
          <h3 className={styles.heading}>Locks that cannot hold</h3>
          <ul className={styles.list}>
            {conflicts.map((conflict) => (
              <li key={`${conflict.run} ${conflict.say}`}>
                <h3>{conflict.run}</h3>
                <p>{conflict.say}</p>
                {props.index.runs.has(conflict.run) && (
                  <Button onClick={() => props.onSelect({ kind: 'run', run: conflict.run })}>Show the run</Button>
                )}
              </li>
            ))}
          </ul>
        </section>
      )}
      {left.length > 0 && (
        <section aria-label="Runs left out">
          <h3 className={styles.heading}>Runs left out</h3>
          <ul className={styles.list}>
            {left.map((run) => (
              <li key={run.run}>
                <h3>{run.run}</h3>
                <p>{run.why}</p>
              </li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}
