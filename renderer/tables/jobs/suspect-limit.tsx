import type { ReactNode } from 'react';
import type { Job } from '../../../core/shop';
import { OptionalWholeField } from '../fields';
import { Notes } from '../grid';
import { Follows, Line, Panel } from '../panel';
import { keyOf } from '../store';
import { suspectText } from './care-words';
import css from './jobs.module.css';

/** How many parts of a job may be made before somebody or something looks at one. */
export function SuspectLimit({ job }: { job: Job }): ReactNode {
  return (
    <>
      <Panel>
        <Line>
          <span className={css.suspect}>
            At most{' '}
            <OptionalWholeField
              path={['suspectLimit']}
              label="Suspect limit, parts"
              value={job.suspectLimit}
              placeholder="any"
              size={5}
            />{' '}
            parts between two checks
          </span>
          <Follows>{suspectText(job)}</Follows>
        </Line>
      </Panel>
      <Notes of={keyOf({ table: 'jobs', id: job.id }, ['suspectLimit'])} />
    </>
  );
}
