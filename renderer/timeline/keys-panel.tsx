import styles from './timeline.module.css';

const KEYS: readonly { keys: string; does: string }[] = [
  { keys: '← →', does: 'the run or gap before or after' },
  { keys: '↑ ↓', does: 'what the row above or below does then' },
  { keys: 'Home End', does: 'first or last in the row' },
  { keys: 'Shift ← →', does: 'earlier or later' },
  { keys: 'PgUp PgDn', does: 'a screen earlier or later' },
  { keys: '+ −', does: 'nearer or farther' },
  { keys: 't', does: 'tonight' },
  { keys: 'n', does: 'now' },
  { keys: 'a', does: 'the next attendance, and the one after' },
  { keys: 'z', does: 'zoom to what is selected' },
  { keys: 'Esc', does: 'select nothing' },
  { keys: '?', does: 'these keys' },
];

const MOVING: readonly { keys: string; does: string }[] = [
  { keys: 'm', does: 'take up the selected run' },
  { keys: '← →', does: 'while taken up: 5 min; with Shift 60' },
  { keys: '↑ ↓', does: 'while taken up: the next machine that can do it' },
  { keys: 'Enter Esc', does: 'put it down, or leave it where it was' },
];

/** What the keys do while the timeline has the focus. */
export function KeysPanel({ canMove }: { readonly canMove: boolean }) {
  return (
    <section className={styles.keys} aria-label="Keys of the timeline">
      <dl>
        {[...KEYS, ...(canMove ? MOVING : [])].map(({ keys, does }) => (
          <div key={`${keys} ${does}`}>
            <dt>{keys}</dt>
            <dd>{does}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
