import type { ReactNode } from 'react';
import type { Job } from '../../../core/shop';
import { WholeField } from '../fields';
import { Notes } from '../grid';
import { Line, Panel } from '../panel';
import { keyOf } from '../store';
import css from './jobs.module.css';

/** Blanks of a job beyond its quantity, told on the run sheet. */
export function SpareBlanks({ job }: { job: Job }): ReactNode {
  return (
    <>
      <Panel>
        <Line>
          <span className={css.suspect}>
            <WholeField path={['spareBlanks']} label="Spare blanks" value={job.spareBlanks} size={5} /> spare blanks
            beside the {job.quantity} planned
          </span>
        </Line>
      </Panel>
      <Notes of={keyOf({ table: 'jobs', id: job.id }, ['spareBlanks'])} />
    </>
  );
}
