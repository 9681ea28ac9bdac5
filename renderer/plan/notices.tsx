import type { ShopView } from '../../core/contract';
import type { Fault } from '../../core/shop';
import { Button } from '../look';
import styles from './notices.module.css';

/** What stands between the shop and a plan, each with the way to its place. */
export function FaultList(props: {
  readonly faults: readonly Fault[];
  readonly shopView: ShopView;
  onShow(fault: Fault): void;
}) {
  const { faults, shopView, onShow } = props;
  if (faults.length === 0) return null;
  return (
    <section className={styles.faults} role="alert" aria-label="What stops planning">
      <h2>{faults.length === 1 ? 'One thing stops planning' : `${faults.length} things stop planning`}</h2>
      <ul>
        {faults.map((fault) => (
          <li key={`${fault.code} ${fault.at.join('/')}`}>
            <span>{fault.say}</span>
            {fault.at.length > 0 && <Button onClick={() => onShow(fault)}>Show {placeText(fault, shopView)}</Button>}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** `jobs, J-104`: the table, and the row by its id if it still stands there. */
function placeText(fault: Fault, { shop }: ShopView): string {
  const [table, index] = fault.at;
  const rows = (shop as unknown as Readonly<Record<string, unknown>>)[String(table)];
  const row: unknown = Array.isArray(rows) && typeof index === 'number' ? rows[index] : undefined;
  const id = typeof row === 'object' && row !== null && 'id' in row ? String(row.id) : '';
  return id === '' ? String(table) : `${table}, ${id}`;
}

/** The plan is older than the shop. */
export function OutdatedNotice() {
  return (
    <p className={styles.outdated} role="status">
      <strong>Shop changed since this plan:</strong> plan again.
    </p>
  );
}

/** The caution that belongs to every unattended stretch. */
export function Caution() {
  return (
    <p className={styles.caution}>
      A plan is no approval to run unattended. Follow the machine maker's manual, local codes, your insurer and the
      shop's own release.
    </p>
  );
}
