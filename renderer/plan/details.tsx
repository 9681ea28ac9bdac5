import { type Facts, factsOf, type PlanIndex, type Selection } from '../timeline';
import styles from './details.module.css';
import { nightByMachine } from './night-by-machine';

/** What is selected, in words. */
export function Details({ index, selection }: { readonly index: PlanIndex; readonly selection: Selection | null }) {
  const facts = selection === null ? null : factsOf(index, selection);
  return (
    <section className={styles.details} aria-label="Details">
      {facts === null ? <NightByMachine index={index} /> : <FactSheet facts={facts} why={whyLate(index, selection)} />}
    </section>
  );
}

/** With nothing selected: what each machine does with the night, which is what a lead asks first. */
function NightByMachine({ index }: { readonly index: PlanIndex }) {
  const lines = nightByMachine(index);
  return (
    <>
      <h2>
        {lines.length === 0 ? 'Nothing selected' : 'Tonight by machine'}
        <span>Select a run, a gap or a stop to read about it here.</span>
      </h2>
      <dl>
        {lines.map((line) => (
          <div key={line.machine}>
            <dt>{line.machine}</dt>
            <dd>{line.words}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}

function FactSheet({ facts, why }: { readonly facts: Facts; readonly why: string | null }) {
  return (
    <>
      <h2>
        {facts.title} <span>{facts.subtitle}</span>
        {facts.late !== null && <strong>{facts.late}</strong>}
      </h2>
      {why !== null && <p>{why}</p>}
      <dl>
        {facts.facts.map((fact) => (
          <div key={fact.term}>
            <dt>{fact.term}</dt>
            <dd>{fact.words}</dd>
          </div>
        ))}
      </dl>
    </>
  );
}

function whyLate(index: PlanIndex, selection: Selection | null): string | null {
  const job = selection?.kind === 'run' ? index.needs.get(selection.run)?.job.id : undefined;
  return job === undefined ? null : (index.late.get(job)?.why ?? null);
}
