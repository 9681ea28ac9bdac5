import { Button } from '../look';
import type { Fit } from './fit';
import styles from './timeline.module.css';

const FITS: readonly { fit: Fit; label: string }[] = [
  { fit: 'tonight', label: 'Tonight' },
  { fit: 'week', label: 'Week' },
  { fit: 'all', label: 'All' },
];

interface ToolBarProps {
  readonly fit: Fit | null;
  onFit(fit: Fit): void;
  onNow(): void;
  /** 1 zooms in, -1 out. */
  onZoom(by: 1 | -1): void;
}

/** What can be shown of the plan, and how near. */
export function ToolBar({ fit, onFit, onNow, onZoom }: ToolBarProps) {
  return (
    <div className={styles.tools}>
      <fieldset className={styles.group} aria-label="Show">
        {FITS.map(({ fit: each, label }) => (
          <button key={each} type="button" aria-pressed={fit === each} onClick={() => onFit(each)}>
            {label}
          </button>
        ))}
      </fieldset>
      <Button onClick={onNow}>Go to now</Button>
      <fieldset className={styles.group} aria-label="Zoom">
        <button type="button" aria-label="Zoom out" onClick={() => onZoom(-1)}>
          −
        </button>
        <button type="button" aria-label="Zoom in" onClick={() => onZoom(1)}>
          +
        </button>
      </fieldset>
    </div>
  );
}
