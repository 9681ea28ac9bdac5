import { USES } from './columns';
import styles from './shifts-screen.module.css';
import type { ShiftTimes } from './sum-shifts';

const WIDTH = 240;
const HEIGHT = 16;

/** A shift's time as one bar, a part per use, told apart by pattern; the table beside it has the numbers. */
export function TimeBar({ times }: { readonly times: ShiftTimes }) {
  if (times.window === 0) return null;
  let at = 0;
  const parts = USES.map(({ key }) => {
    const x = at;
    at += (times[key] / times.window) * WIDTH;
    return { key, x, width: at - x };
  });
  return (
    <svg className={styles.bar} viewBox={`0 0 ${WIDTH} ${HEIGHT}`} preserveAspectRatio="none" aria-hidden="true">
      {parts.map((part) => (
        <rect key={part.key} x={part.x} width={part.width} height={HEIGHT} fill={`url(#use-${part.key})`} />
      ))}
      <rect className={styles.frame} x="0.5" y="0.5" width={WIDTH - 1} height={HEIGHT - 1} />
    </svg>
  );
}

/** The sign of a use, beside its name. */
export function UseSign({ use }: { readonly use: string }) {
  return (
    <svg className={styles.sign} width="14" height="14" aria-hidden="true">
      <rect width="14" height="14" fill={`url(#use-${use})`} />
      <rect className={styles.frame} x="0.5" y="0.5" width="13" height="13" />
    </svg>
  );
}

/** The fills, once per page; bars and signs point to them by name. */
export function UsePatterns() {
  return (
    <svg className={styles.patterns} aria-hidden="true">
      <defs>
        <Fill use="cutAttended" ground="var(--bar-mill)" />
        <Fill use="cutUnattended" ground="var(--ink-soft)" />
        <Fill use="handWork" ground="var(--raised)" marks="M2 0v8M6 0v8" width={1} />
        <Fill use="waiting" ground="var(--raised)" marks="M-2 10L10 -2M-6 6L6 -6M2 14L14 2" width={1.5} />
        <Fill use="dry" ground="var(--raised)" marks="M1 2h2M5 6h2" width={2} />
        <Fill use="off" ground="var(--raised)" marks="M0 0L8 8M8 0L0 8" width={0.75} />
        <Fill use="nothingDue" ground="var(--raised)" />
      </defs>
    </svg>
  );
}

function Fill(props: {
  readonly use: string;
  readonly ground: string;
  readonly marks?: string;
  readonly width?: number;
}) {
  return (
    <pattern id={`use-${props.use}`} width="8" height="8" patternUnits="userSpaceOnUse">
      <rect width="8" height="8" fill={props.ground} />
      {props.marks !== undefined && (
        <path d={props.marks} stroke="var(--ink-soft)" strokeWidth={props.width} fill="none" />
      )}
    </pattern>
  );
}
