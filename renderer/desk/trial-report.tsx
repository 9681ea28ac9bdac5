import type { Trial } from '../../core/contract';
import { lengthText } from '../../core/time';
import styles from './desk.module.css';

/** What would come of a change, before it is made: what stands in the way, tonight, this week. */
export function TrialReport({ trial }: { readonly trial: Trial }) {
  const { conflicts, left, say, comparison } = trial;
  const { tonight, week } = comparison.displaced;
  const later = comparison.late.filter(({ before, after }) => after === null || (before !== null && after > before));
  return (
    <div className={styles.trial}>
      {conflicts.map((conflict) => (
        <p key={conflict.run} className={styles.bad}>
          Can’t hold: {conflict.say}
        </p>
      ))}
      {left.length > 0 && <p className={styles.bad}>No room before the plan ends: {left.join(', ')}</p>}
      <ul>
        {say.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      <dl>
        <div>
          <dt>Out of tonight</dt>
          <dd>{tonight.length === 0 ? 'nothing' : tonight.join(', ')}</dd>
        </div>
        <div>
          <dt>Later this week</dt>
          <dd>{week.length === 0 ? 'nothing' : week.join(', ')}</dd>
        </div>
        <div>
          <dt>Late by more</dt>
          <dd>
            {later.length === 0
              ? 'nothing'
              : later.map(({ job, after }) => `${job} ${after === null ? 'left out' : lengthText(after)}`).join(', ')}
          </dd>
        </div>
        <div>
          <dt>Runs moved</dt>
          <dd>{comparison.moved.length}</dd>
        </div>
      </dl>
    </div>
  );
}
