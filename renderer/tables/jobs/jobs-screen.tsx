import type { ReactNode } from 'react';
import type { Job } from '../../../core/shop';
import { AmountField, IdField, MomentField, OptionalMomentField, TextField, TickField, WholeField } from '../fields';
import { type Column, copyId, EditableTable } from '../grid';
import { counted, TableScreen } from '../screen';
import { usePlanMoment, useShop } from '../store';
import css from './jobs.module.css';
import { newJob } from './new-job';
import { RouteEditor } from './route-editor';
import { routeText } from './route-text';
import { NewOfFamily, Templates } from './templates';

function runCount(job: Job): number {
  return job.route.reduce((sum, operation) => sum + Math.ceil(job.quantity / operation.perPallet), 0);
}

const COLUMNS: readonly Column<'jobs'>[] = [
  { id: 'id', head: 'Job', width: 70, draw: (job) => <IdField path={['id']} label="Job" value={job.id} /> },
  {
    id: 'name',
    head: 'Name',
    width: '15%',
    draw: (job) => <TextField path={['name']} label="Name" value={job.name} />,
  },
  {
    id: 'customer',
    head: 'Customer',
    width: '11%',
    draw: (job) => <TextField path={['customer']} label="Customer" value={job.customer} />,
  },
  {
    id: 'quantity',
    head: 'Quantity',
    unit: 'parts',
    width: 68,
    align: 'end',
    draw: (job) => <WholeField path={['quantity']} label="Quantity" value={job.quantity} least={1} />,
  },
  { id: 'due', head: 'Due', width: 128, draw: (job) => <MomentField path={['due']} label="Due" value={job.due} /> },
  {
    id: 'release',
    head: 'Not before',
    width: 128,
    draw: (job) => (
      <OptionalMomentField path={['release']} label="Not before" value={job.release} placeholder="any time" />
    ),
  },
  {
    id: 'weight',
    head: 'Weight',
    unit: '1 is usual',
    width: 72,
    align: 'end',
    draw: (job) => <AmountField path={['weight']} label="Weight" value={job.weight} />,
  },
  {
    id: 'overdue',
    head: 'Overdue',
    unit: 'known',
    width: 62,
    draw: (job) => <TickField path={['overdue']} label="Known to be overdue" value={job.overdue} />,
  },
  {
    id: 'route',
    head: 'Route',
    draw: (job) => (
      <span className={css.plain} title={routeText(job.route)}>
        {routeText(job.route)}
      </span>
    ),
  },
  {
    id: 'runs',
    head: 'Runs',
    width: 48,
    align: 'end',
    draw: (job) => <span className={css.plain}>{runCount(job)}</span>,
  },
];

export function JobsScreen(): ReactNode {
  const shop = useShop();
  const moment = usePlanMoment();
  const runs = shop.jobs.reduce((sum, job) => sum + runCount(job), 0);
  return (
    <TableScreen title="Jobs" lead={`${counted(shop.jobs.length, 'job')}, ${counted(runs, 'run')}`}>
      <EditableTable
        table="jobs"
        noun="job"
        columns={COLUMNS}
        detail={(job) => <RouteEditor job={job} />}
        detailFields={['route', 'suspectLimit', 'spareBlanks']}
        fresh={(id) => newJob(shop, moment, id)}
        copyId={copyId}
        empty="No jobs yet. Type the number of the first one below; it starts with one operation, due a week ahead."
      />
      <NewOfFamily />
      <Templates />
    </TableScreen>
  );
}
