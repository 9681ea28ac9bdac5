import type { Fit } from './fit';
import type { RowsBy } from './model';
import styles from './timeline.module.css';

const ROWS: readonly { by: RowsBy; label: string }[] = [
  { by: 'machines', label: 'Machines' },
  { by: 'pallets', label: 'Pallets' },
  { by: 'people', label: 'People' },
  { by: 'jobs', label: 'Jobs' },
];

const FITS: readonly { fit: Fit; label: string; keys?: string }[] = [
  { fit: 'tonight', label: 'Tonight', keys: 't' },
  { fit: 'week', label: 'Week' },
  { fit: 'all', label: 'All' },
];

interface ToolBarProps {
  readonly rows: RowsBy;
  onRows(by: RowsBy): void;
  readonly fit: Fit | null;
  onFit(fit: Fit): void;
  onNow(): void;
  onNextHand(): void;
  /** Null while nothing is selected that has a time. */
  readonly onSelection: (() => void) | null;
  /** 1 zooms in, -1 out. */
  onZoom(by: 1 | -1): void;
  readonly showsKeys: boolean;
  onKeys(): void;
}

/** What there are rows for, what is shown of the plan, and how near. */
export function ToolBar(props: ToolBarProps) {
  return (
    <div className={styles.tools}>
      <fieldset className={styles.group} aria-label="Rows">
        <span className={styles.label} aria-hidden="true">
          Rows
        </span>
        {ROWS.map(({ by, label }) => (
          <button key={by} type="button" aria-pressed={props.rows === by} onClick={() => props.onRows(by)}>
            {label}
          </button>
        ))}
      </fieldset>
      <fieldset className={styles.group} aria-label="Show">
        {FITS.map(({ fit, label, keys }) => (
          <button
            key={fit}
            type="button"
            aria-pressed={props.fit === fit}
            aria-keyshortcuts={keys}
            onClick={() => props.onFit(fit)}
          >
            {label}
          </button>
        ))}
      </fieldset>
      <fieldset className={styles.group} aria-label="Go to">
        <button type="button" aria-keyshortcuts="n" onClick={props.onNow}>
          Now
        </button>
        <button type="button" aria-keyshortcuts="a" onClick={props.onNextHand}>
          Next attendance
        </button>
        <button
          type="button"
          aria-keyshortcuts="z"
          disabled={props.onSelection === null}
          onClick={() => props.onSelection?.()}
        >
          Selection
        </button>
      </fieldset>
      <fieldset className={styles.group} aria-label="Zoom">
        <button type="button" aria-label="Zoom out" onClick={() => props.onZoom(-1)}>
          −
        </button>
        <button type="button" aria-label="Zoom in" onClick={() => props.onZoom(1)}>
          +
        </button>
      </fieldset>
      <fieldset className={styles.group} aria-label="Help">
        <button
          type="button"
          aria-label="Keys"
          title="Keys"
          aria-keyshortcuts="?"
          aria-expanded={props.showsKeys}
          onClick={props.onKeys}
        >
          ?
        </button>
      </fieldset>
    </div>
  );
}
