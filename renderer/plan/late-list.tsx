import { useState } from 'react';
import type { Api } from '../../core/contract';
import { lengthText } from '../../core/time';
import { WhyLines } from '../desk';
import { Button } from '../look';
import styles from '../look/lists.module.css';
import { type PlanIndex, type Selection, whenText } from '../timeline';

interface LateListProps {
  readonly api: Api;
  readonly index: PlanIndex;
  onSelect(selection: Selection): void;
}

/** The jobs that will be late, latest first, and why. */
export function LateList({ api, index, onSelect }: LateListProps) {
  const [asked, setAsked] = useState<string | null>(null);
  const late = [...index.view.report.late].sort((a, b) => b.lateBy - a.lateBy);
  if (late.length === 0) return <p className={styles.none}>Every job is off the machines before it is due.</p>;
  return (
    <ul className={styles.list}>
      {late.map((job) => {
        const last = lastRun(index, job.job);
        return (
          <li key={job.job}>
            <h3>
              {job.job} <span>late by {lengthText(job.lateBy)}</span>
            </h3>
            <p>{job.why}</p>
            <p className={styles.soft}>
              Due {whenText(index, job.due)},{' '}
              {job.finish === null ? 'does not fit before the plan ends' : `finishes ${whenText(index, job.finish)}`}
            </p>
            {last !== null && <Button onClick={() => onSelect({ kind: 'run', run: last })}>Show its last run</Button>}
            <Button aria-expanded={asked === job.job} onClick={() => setAsked(asked === job.job ? null : job.job)}>
              What would free it
            </Button>
            {asked === job.job && <WhyLines api={api} id={index.view.id} about={{ kind: 'late', job: job.job }} />}
          </li>
        );
      })}
    </ul>
  );
}

function lastRun(index: PlanIndex, job: string): string | null {
  const runs = index.view.plan.runs.filter((run) => index.needs.get(run.run)?.job.id === job);
  return runs.sort((a, b) => b.end - a.end)[0]?.run ?? null;
}
