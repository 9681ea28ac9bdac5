import { Fragment, memo } from 'react';
import { HEADING_CSS, type RowPlaces } from './metrics';
import type { Row } from './rows/row';
import styles from './timeline.module.css';

interface RowNamesProps {
  readonly rows: readonly Row[];
  readonly places: RowPlaces;
}

/** The names beside the rows; those of machines with the colour of their kind and the kind in words. */
export const RowNames = memo(function RowNames({ rows, places }: RowNamesProps) {
  return (
    <div className={styles.names}>
      {rows.map((row, i) => (
        <Fragment key={row.key}>
          {row.heading !== null && (
            <div className={styles.heading} style={{ height: HEADING_CSS }}>
              {row.heading}
            </div>
          )}
          <div className={styles.name} style={{ height: places.heights[i] }}>
            {row.head.kind !== null && <span className={styles.swatch} data-kind={row.head.kind} />}
            <span className={styles.nameText}>
              <span className={styles.nameHead}>
                <strong title={row.head.name}>{row.head.name}</strong>
                {row.head.aside !== '' && <small>{row.head.aside}</small>}
              </span>
              {row.head.bad !== null && <small className={styles.late}>{row.head.bad}</small>}
              {row.head.below !== '' && <small title={row.head.below}>{row.head.below}</small>}
            </span>
          </div>
        </Fragment>
      ))}
    </div>
  );
});
