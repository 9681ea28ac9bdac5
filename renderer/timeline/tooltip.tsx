import { besidePoint } from './beside-point';
import styles from './timeline.module.css';
import type { Facts } from './words';

const WIDTH_CSS = 340;

/** What is under the pointer, in words, on the side with room for it. The details say the same to the keyboard. */
export function Tooltip({ facts, x, y }: { readonly facts: Facts | null; readonly x: number; readonly y: number }) {
  if (facts === null) return null;
  return (
    <div className={styles.tooltip} style={besidePoint(x, y, WIDTH_CSS)} aria-hidden="true">
      <strong>{facts.title}</strong>
      <span>{facts.subtitle}</span>
      {facts.late !== null && <span className={styles.late}>{facts.late}</span>}
      <dl>
        {facts.facts.map((fact) => (
          <div key={fact.term}>
            <dt>{fact.term}</dt>
            <dd>{fact.words}</dd>
          </div>
        ))}
      </dl>
    </div>
  );
}
