import type { NightOutcome } from '../../core/contract';
import { Section } from './parts';
import styles from './tonight.module.css';

/** What runs out while a machine cuts. Common practice, no source. */
const SUPPLIES = ['Coolant', 'Chip room', 'Filter', 'Probe battery'] as const;

interface SuppliesProps {
  readonly outcome: NightOutcome;
  /** Hours as typed, by `machine/supply`. */
  readonly hours: ReadonlyMap<string, string>;
  onType(key: string, hours: string): void;
}

/** Hours each supply still lasts, as somebody has read them off, against the hours loaded. */
export function SuppliesPart({ outcome, hours, onType }: SuppliesProps) {
  const short = outcome.machines.flatMap(({ machine, loaded }) =>
    SUPPLIES.flatMap((supply) => {
      const lasts = hoursOf(hours.get(`${machine}/${supply}`));
      return lasts !== null && lasts < loaded
        ? [`${supply} on ${machine} lasts ${lasts.toFixed(1)} of ${loaded.toFixed(1)} h`]
        : [];
    }),
  );
  return (
    <Section title="Hours to empty">
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">Machine</th>
            <th scope="col" className={styles.number}>
              Loaded
            </th>
            {SUPPLIES.map((supply) => (
              <th key={supply} scope="col" className={styles.number}>
                {supply}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {outcome.machines.map(({ machine, loaded }) => (
            <tr key={machine}>
              <th scope="row">{machine}</th>
              <td className={styles.number}>{loaded.toFixed(1)} h</td>
              {SUPPLIES.map((supply) => {
                const key = `${machine}/${supply}`;
                const typed = hours.get(key) ?? '';
                const lasts = hoursOf(typed);
                return (
                  <td key={supply} className={styles.number}>
                    <input
                      className={styles.hours}
                      aria-label={`${supply} on ${machine}, hours`}
                      inputMode="decimal"
                      placeholder="h"
                      value={typed}
                      aria-invalid={typed !== '' && lasts === null}
                      data-short={lasts !== null && lasts < loaded}
                      onChange={(event) => onType(key, event.target.value)}
                    />
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
      <p className={styles.remark} role="status">
        {short.length === 0 ? 'Type how long each still lasts; what is less than the hours loaded is named here.' : ''}
        {short.length > 0 && <strong className={styles.short}>{short.join('; ')}.</strong>}
      </p>
    </Section>
  );
}

/** `7`, `7.5` or `7,5`; null for anything else. */
function hoursOf(text: string | undefined): number | null {
  if (text === undefined || !/^\d+([.,]\d+)?$/.test(text.trim())) return null;
  return Number(text.trim().replace(',', '.'));
}
