import { besidePoint } from '../beside-point';
import type { PlanIndex } from '../plan-index';
import styles from './drag.module.css';
import type { Verdict } from './ghost';
import { type Carried, moveText, runName } from './move';
import type { Judged } from './verdict';

const WIDTH_CSS = 320;

const SIGNS: Readonly<Record<Verdict, string>> = {
  legal: 'M2.5 8.5l3.5 3.5 7.5-8',
  refused: 'M3 3l10 10M13 3L3 13',
  open: 'M3 8h2M7 8h2M11 8h2',
};

interface VerdictNoteProps {
  readonly index: PlanIndex;
  readonly carried: Carried;
  readonly judged: Judged;
  /** Page pixels. */
  readonly x: number;
  readonly y: number;
}

/** Beside what is carried: where it would stand and what would come of it. The live region says the same. */
export function VerdictNote({ index, carried, judged, x, y }: VerdictNoteProps) {
  return (
    <div className={styles.note} data-verdict={judged.verdict} style={besidePoint(x, y, WIDTH_CSS)} aria-hidden="true">
      <span className={styles.run}>{runName(index, carried.move.run)}</span>
      <strong>{moveText(index, carried)}</strong>
      <span className={styles.head}>
        <svg viewBox="0 0 16 16" width="16" height="16" focusable="false" aria-hidden="true">
          <path d={SIGNS[judged.verdict]} fill="none" stroke="currentColor" strokeWidth="2" />
        </svg>
        {judged.head}
      </span>
      {judged.say.map((sentence) => (
        <span key={sentence}>{sentence}</span>
      ))}
    </div>
  );
}
