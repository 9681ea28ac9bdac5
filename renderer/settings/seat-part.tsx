import { type ReactNode, useEffect, useState } from 'react';
import { useStore } from 'zustand';
import type { SeatSettings } from '../../core/contract';
import { parseWhole, Section } from '../tables';
import type { SeatStore } from './seat-store';
import css from './settings.module.css';

const THEMES: readonly { readonly theme: SeatSettings['theme']; readonly say: string }[] = [
  { theme: 'system', say: 'as the system' },
  { theme: 'light', say: 'light' },
  { theme: 'dark', say: 'dark' },
];

/** What this seat chooses for itself. */
export function SeatPart({ seat }: { seat: SeatStore }): ReactNode {
  const { settings, refused } = useStore(seat);
  useEffect(() => void seat.read(), [seat]);
  return (
    <Section title="This seat" lead="Kept on this computer, not in the shop.">
      <dl className={css.list}>
        <dt>Look</dt>
        <dd>
          <fieldset className={css.radios} aria-label="Look">
            {THEMES.map(({ theme, say }) => (
              <label key={theme}>
                <input
                  type="radio"
                  name="theme"
                  checked={settings.theme === theme}
                  onChange={() => void seat.put({ theme })}
                />
                {say}
              </label>
            ))}
          </fieldset>
        </dd>
        <dt>Planning takes</dt>
        <dd>
          at most <Seconds seconds={settings.planSeconds} onPut={(planSeconds) => void seat.put({ planSeconds })} /> s
        </dd>
      </dl>
      {refused !== null && (
        <p role="alert" className={css.refused}>
          <b>Not taken</b> {refused}
        </p>
      )}
    </Section>
  );
}

function Seconds({ seconds, onPut }: { seconds: number; onPut: (seconds: number) => void }): ReactNode {
  const [draft, setDraft] = useState<string | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);

  function commit(): void {
    if (draft === null) return;
    const parsed = parseWhole(1)(draft);
    setTrouble(parsed.ok ? null : parsed.say);
    if (!parsed.ok) return;
    setDraft(null);
    onPut(parsed.value);
  }

  return (
    <>
      <input
        className={css.seconds}
        aria-label="Seconds a planning run may take"
        aria-invalid={trouble !== null}
        value={draft ?? String(seconds)}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit();
          if (event.key === 'Escape') {
            setDraft(null);
            setTrouble(null);
          }
        }}
      />
      {trouble !== null && (
        <span role="alert" className={css.refused}>
          {trouble}
        </span>
      )}
    </>
  );
}
