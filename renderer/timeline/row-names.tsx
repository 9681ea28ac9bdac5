import { Fragment, memo } from 'react';
import { OpenIcon } from '../look';
import { HEADING_CSS, type RowPlaces } from './metrics';
import styles from './row-names.module.css';
import type { Row } from './rows/row';

interface RowNamesProps {
  readonly rows: readonly Row[];
  readonly places: RowPlaces;
  /** Machines whose tools can be shown. */
  readonly withTools: ReadonlySet<string>;
  readonly open: ReadonlySet<string>;
  onToggle(machine: string): void;
}

/** The names beside the rows; those of machines with the colour of their kind and the kind in words. */
export const RowNames = memo(function RowNames({ rows, places, withTools, open, onToggle }: RowNamesProps) {
  return (
    <div className={styles.names}>
      {rows.map((row, i) => (
        <Fragment key={row.key}>
          {row.heading !== null && (
            <div className={styles.heading} style={{ height: HEADING_CSS }}>
              {row.heading}
            </div>
          )}
          <div className={styles.name} data-size={row.size} style={{ height: places.heights[i] }}>
            {row.head.kind !== null && <span className={styles.swatch} data-kind={row.head.kind} />}
            <RowWords row={row} />
            {row.machine !== null && withTools.has(row.machine) && (
              <ToolsButton machine={row.machine} isOpen={open.has(row.machine)} onToggle={onToggle} />
            )}
          </div>
        </Fragment>
      ))}
    </div>
  );
});

function RowWords({ row: { head } }: { readonly row: Row }) {
  return (
    <span className={styles.words}>
      <span className={styles.head}>
        <strong title={head.name}>{head.name}</strong>
        {head.aside !== '' && <small title={head.aside}>{head.aside}</small>}
      </span>
      {head.bad !== null && (
        <small className={styles.bad} title={head.bad}>
          {head.bad}
        </small>
      )}
      {head.below !== '' && (
        <small className={styles.below} title={head.below}>
          {head.below}
        </small>
      )}
    </span>
  );
}

interface ToolsButtonProps {
  readonly machine: string;
  readonly isOpen: boolean;
  onToggle(machine: string): void;
}

function ToolsButton({ machine, isOpen, onToggle }: ToolsButtonProps) {
  return (
    <button
      type="button"
      className={styles.tools}
      aria-expanded={isOpen}
      aria-label={`Tools of ${machine}`}
      title="Tools"
      onClick={() => onToggle(machine)}
    >
      <OpenIcon />
    </button>
  );
}
