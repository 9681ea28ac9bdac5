import type { Api, WhyAbout } from '../../core/contract';
import styles from './desk.module.css';
import { useAnswer } from './use-answer';

interface WhyLinesProps {
  readonly api: Api;
  /** Of the plan. */
  readonly id: number;
  readonly about: WhyAbout;
}

/** Gains named; more of them would not be read. */
const MOST = 3;

/** Why it is where it is, and what would free it. */
export function WhyLines({ api, id, about }: WhyLinesProps) {
  const reply = useAnswer(api, 'plan.why', { id, about });
  return (
    <section className={styles.why} aria-label="Why" aria-busy={reply === null}>
      {reply === null && <p className={styles.soft}>Asking why</p>}
      {reply?.ok === false && <p className={styles.bad}>{reply.faults.map(({ say }) => say).join(' ')}</p>}
      {reply?.ok === true && reply.value !== null && (
        <>
          <p>
            {reply.value.here} {reply.value.notEarlier}
          </p>
          {reply.value.frees.length > 0 && (
            <ul>
              {reply.value.frees.slice(0, MOST).map(({ say }) => (
                <li key={say}>{say}</li>
              ))}
            </ul>
          )}
        </>
      )}
    </section>
  );
}
