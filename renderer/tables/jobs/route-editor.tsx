import type { ReactNode } from 'react';
import type { Job, Operation } from '../../../core/shop';
import { Button, Each, OpenIcon } from '../../look';
import { IdField, LengthField, OptionalIdField, TextField, WholeField } from '../fields';
import { knownFixtures } from '../fixtures';
import { Notes } from '../grid';
import grid from '../grid/inner-table.module.css';
import { moveBetweenRows } from '../grid/move';
import { keyOf, useShop, useShopState, useShopStore } from '../store';
import { careText } from './care-words';
import { FirstPiece } from './first-piece';
import css from './jobs.module.css';
import { MachineChoice } from './machine-choice';
import { newOperation, nextOperationId } from './new-job';
import { careKeys, OperationCare } from './operation-care';
import { changing } from './proof-edits';
import { SpareBlanks } from './spare-blanks';
import { SuspectLimit } from './suspect-limit';
import { SaveTemplate } from './templates';
import { operationKey, type RouteEdits, useRouteEdits } from './use-route-edits';

const COLUMNS = 13;

/** The operations of a job in their order, each value edited where it stands. */
export function RouteEditor({ job }: { job: Job }): ReactNode {
  const shop = useShop();
  const edits = useRouteEdits(job);
  const open = useShopState((state) => state.open);
  const told = job.route.flatMap((_, at) => (open.has(operationKey(job, at)) ? careKeys(job.id, at) : []));
  const next = newOperation(shop, job.route, nextOperationId(job.route));
  return (
    <div>
      <table className={`${grid.inner} ${css.route}`} aria-label={`Route of ${job.id}`} onKeyDown={moveBetweenRows}>
        <colgroup>
          <col className={css.op} />
          <col className={css.name} />
          <col className={css.machines} />
          <col className={css.fixture} />
          <col className={css.figure} />
          <col className={css.figure} />
          <col className={css.figure} />
          <col className={css.first} />
          <col className={css.figure} />
          <col className={css.program} />
          <col className={css.revision} />
          <col className={css.runs} />
          <col className={css.buttons} />
        </colgroup>
        <thead>
          <tr>
            <th scope="col">Op</th>
            <th scope="col">Name</th>
            <th scope="col">
              Machines<small>cycle of a full pallet, h:mm</small>
            </th>
            <th scope="col">Fixture</th>
            <th scope="col" data-align="end">
              Parts<small>a pallet</small>
            </th>
            <th scope="col" data-align="end">
              Load<small>h:mm</small>
            </th>
            <th scope="col" data-align="end">
              Unload<small>h:mm</small>
            </th>
            <th scope="col">
              First piece<small>check after, for</small>
            </th>
            <th scope="col" data-align="end">
              Lag<small>h:mm</small>
            </th>
            <th scope="col">Program</th>
            <th scope="col">Rev</th>
            <th scope="col" data-align="end">
              Runs
            </th>
            <th aria-label="Move and delete" />
          </tr>
        </thead>
        <Each
          of={job.route}
          draw={(operation, at) => <OperationRow job={job} operation={operation} at={at} edits={edits} />}
        />
      </table>
      <Notes of={keyOf({ table: 'jobs', id: job.id }, ['route'])} except={told} />
      <Button rank="quiet" disabled={next === null} onClick={() => next !== null && edits.add(next)}>
        Add operation
      </Button>
      <SaveTemplate job={job} />
      <SuspectLimit job={job} />
      <SpareBlanks job={job} />
    </div>
  );
}

interface OperationRowProps {
  readonly job: Job;
  readonly operation: Operation;
  readonly at: number;
  readonly edits: RouteEdits;
}

function OperationRow({ job, operation, at, edits }: OperationRowProps): ReactNode {
  const shop = useShop();
  const path = ['route', at];
  const name = `operation ${operation.id}`;
  return (
    <tbody>
      <tr
        onKeyDown={(event) => {
          if (!event.altKey || (event.key !== 'ArrowUp' && event.key !== 'ArrowDown')) return;
          event.preventDefault();
          edits.swap(event.key === 'ArrowUp' ? at - 1 : at);
        }}
      >
        <td data-column="id">
          <IdField path={[...path, 'id']} label="Operation" value={operation.id} />
        </td>
        <td data-column="name">
          <TextField path={[...path, 'name']} label="Name of the operation" value={operation.name} />
        </td>
        <td>
          <MachineChoice path={[...path, 'machines']} choices={operation.machines} />
        </td>
        <td data-column="fixture">
          <OptionalIdField
            path={[...path, 'fixture']}
            label="Fixture"
            value={operation.fixture}
            suggest={knownFixtures(shop)}
            placeholder="none"
          />
        </td>
        <td data-column="perPallet">
          <WholeField path={[...path, 'perPallet']} label="Parts a pallet" value={operation.perPallet} least={1} />
        </td>
        <td data-column="load">
          <LengthField path={[...path, 'load']} label="Load" value={operation.load} />
        </td>
        <td data-column="unload">
          <LengthField path={[...path, 'unload']} label="Unload" value={operation.unload} />
        </td>
        <td>
          <FirstPiece path={[...path, 'firstPiece']} value={operation.firstPiece} />
        </td>
        <td data-column="lag">
          <LengthField path={[...path, 'lag']} label="Lag" value={operation.lag} />
        </td>
        <td data-column="program">
          <TextField path={[...path, 'program']} label="Program" value={operation.program} />
        </td>
        <td data-column="revision">
          <TextField
            path={[...path, 'revision']}
            label="Revision"
            value={operation.revision}
            change={(record, revision) => changing(at, (now) => ({ ...now, revision }))(record)}
          />
        </td>
        <td className={css.count}>{Math.ceil(job.quantity / operation.perPallet)}</td>
        <td className={css.count}>
          <Button
            rank="quiet"
            aria-label={`Move ${name} up`}
            title="Alt+Up"
            disabled={at === 0}
            onClick={() => edits.swap(at - 1)}
          >
            ↑
          </Button>
          <Button
            rank="quiet"
            aria-label={`Move ${name} down`}
            title="Alt+Down"
            disabled={at === job.route.length - 1}
            onClick={() => edits.swap(at)}
          >
            ↓
          </Button>
          <Button
            rank="quiet"
            aria-label={`Delete ${name}`}
            onClick={() => edits.takeOut(at, `Deleted ${name} of ${job.id}.`)}
          >
            ×
          </Button>
        </td>
      </tr>
      <CareRow job={job} operation={operation} at={at} />
    </tbody>
  );
}

/** What keeps an operation through the night, in one line that opens to be edited. */
function CareRow({ job, operation, at }: { job: Job; operation: Operation; at: number }): ReactNode {
  const shop = useShop();
  const store = useShopStore();
  const key = operationKey(job, at);
  const open = useShopState((state) => state.open.has(key));
  const says = careText(shop, operation);
  return (
    <tr className={css.care}>
      <td colSpan={COLUMNS}>
        <Button
          rank="quiet"
          aria-expanded={open}
          aria-label={`Tools, checks, odds and proof of operation ${operation.id}: ${says}`}
          onClick={() => store.setOpen(key, !open)}
        >
          <OpenIcon />
          <span>{says}</span>
        </Button>
        {open && <OperationCare operation={operation} at={at} />}
      </td>
    </tr>
  );
}
