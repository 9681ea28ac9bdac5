import styles from './timeline.module.css';
import type { Facts } from './words';

const WIDTH_CSS = 340;
const AWAY_CSS = 16;

/** What is under the pointer, in words, on the side with room for it. The details say the same to the keyboard. */
export function Tooltip({ facts, x, y }: { readonly facts: Facts | null; readonly x: number; readonly y: number }) {
  if (facts === null) return null;
  const fitsRight = x + AWAY_CSS + WIDTH_CSS <= window.innerWidth;
  const left = fitsRight ? x + AWAY_CSS : Math.max(0, x - AWAY_CSS - WIDTH_CSS);
  const below = y < window.innerHeight / 2;
  const upright = below ? { top: y + AWAY_CSS } : { bottom: window.innerHeight - y + AWAY_CSS };
  return (
    <div className={styles.tooltip} style={{ left, width: WIDTH_CSS, ...upright }} aria-hidden="true">
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
