import type { ReactNode } from 'react';
import { type Facts, factsOf, type PlanIndex, type Selection } from '../timeline';
import styles from './details.module.css';
import { nightByMachine } from './night-by-machine';

interface DetailsProps {
  readonly index: PlanIndex;
  readonly selection: Selection | null;
  /** What can be done with it. */
  readonly children?: ReactNode;
}

/** What is selected, in words, and what can be done with it. */
export function Details({ index, selection, children }: DetailsProps) {
  const facts = selection === null ? null : factsOf(index, selection);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: an area that scrolls must be reached
    <section className={styles.details} aria-label="Details" tabIndex={0}>
      {facts === null ? (
        <NightByMachine index={index} />
      ) : (
        <FactSheet facts={withoutReason(facts, selection)} late={whyLate(index, selection)}>
          {children}
        </FactSheet>
      )}
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

interface FactSheetProps {
  readonly facts: Facts;
  readonly late: string | null;
  readonly children: ReactNode;
}

function FactSheet({ facts, late, children }: FactSheetProps) {
  return (
    <div className={styles.sheet}>
      <div>
        <h2>
          {facts.title} <span>{facts.subtitle}</span>
          {facts.late !== null && <strong>{facts.late}</strong>}
        </h2>
        {late !== null && <p>{late}</p>}
        <dl>
          {facts.facts.map((fact) => (
            <div key={fact.term}>
              <dt>{fact.term}</dt>
              <dd>{fact.words}</dd>
            </div>
          ))}
        </dl>
      </div>
      {children !== undefined && <div className={styles.hand}>{children}</div>}
    </div>
  );
}

/** Of a gap the reason is said with why, beside it. */
function withoutReason(facts: Facts, selection: Selection | null): Facts {
  return selection?.kind === 'gap' ? { ...facts, subtitle: '' } : facts;
}

function whyLate(index: PlanIndex, selection: Selection | null): string | null {
  const job = selection?.kind === 'run' ? index.needs.get(selection.run)?.job.id : undefined;
  return job === undefined ? null : (index.late.get(job)?.why ?? null);
}
