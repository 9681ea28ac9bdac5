import type { Metrics } from './metrics';
import type { MachineKind, TimelineModel } from './model';
import styles from './timeline.module.css';

const KIND_WORDS: Readonly<Record<MachineKind, string>> = {
  mill: 'mill',
  grind: 'grind',
  'mill-grind': 'mill and grind',
  bench: 'bench',
};

/** The names beside the rows, each with the colour of its machine's kind and the kind in words. */
export function RowNames({ model, metrics }: { readonly model: TimelineModel; readonly metrics: Metrics }) {
  return (
    <div className={styles.names}>
      {model.machines.map((machine) => (
        <div key={machine.id} className={styles.name} style={{ height: metrics.row }}>
          <span className={styles.swatch} data-kind={machine.kind} />
          <span className={styles.nameText}>
            <span className={styles.nameHead}>
              <strong title={machine.id}>{machine.id}</strong>
              <small>{KIND_WORDS[machine.kind]}</small>
            </span>
            {machine.name !== '' && <small title={machine.name}>{machine.name}</small>}
          </span>
        </div>
      ))}
      <div className={styles.divide} style={{ height: metrics.divide }}>
        People
      </div>
      {model.people.map((person) => (
        <div key={person.id} className={styles.name} style={{ height: metrics.person }}>
          <span className={styles.nameText}>
            <strong title={person.name}>{person.name}</strong>
          </span>
        </div>
      ))}
    </div>
  );
}
