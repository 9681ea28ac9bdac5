import type { HomeCheck, PlanView } from '../../core/contract';
import { momentText } from '../../core/time';
import { Section } from './parts';
import styles from './tonight.module.css';

interface ChecksProps {
  readonly view: PlanView;
  readonly checks: readonly HomeCheck[];
  readonly checked: ReadonlySet<string>;
  onTick(key: string, done: boolean): void;
}

/** What to see to before the last person leaves, to be ticked off. */
export function ChecksPart({ view, checks, checked, onTick }: ChecksProps) {
  const done = checks.filter(({ key }) => checked.has(key)).length;
  return (
    <Section title={`Before going home, ${done} of ${checks.length}`}>
      <ul className={styles.checks}>
        {checks.map(({ key, say, at }) => (
          <li key={key}>
            <label>
              <input
                type="checkbox"
                checked={checked.has(key)}
                onChange={(event) => onTick(key, event.target.checked)}
              />
              <span>{say}</span>
            </label>
            {at !== null && <small className={styles.figure}>by {momentText(view.plan.clock, at)}</small>}
          </li>
        ))}
      </ul>
      <p className={styles.remark}>
        Reach into a machine, change a tool or dress a wheel only at a safe stop, by the shop's lockout procedure.
        Wheels: ring test and marked speed before mounting. Oil coolant and fine dust can burn with nobody there:
        extraction and extinguishing must be the site's own approved ones. The machine maker's manual, local codes and
        qualified people decide.
      </p>
    </Section>
  );
}
