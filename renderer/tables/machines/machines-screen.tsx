import type { ReactNode } from 'react';
import type { Machine } from '../../../core/shop';
import { hoursText } from '../../../core/time';
import { AmountField, ChoiceField, EditField, IdField, TextField, TickField, WholeField } from '../fields';
import { type Column, EditableTable, Notes } from '../grid';
import { Closures, WeeklySpans, weekMinutes } from '../hours';
import { Panel } from '../panel';
import { parsePlaces, showPlaces } from '../parse';
import { counted, Section, TableScreen } from '../screen';
import { keyOf, useShop } from '../store';
import { CellsTable } from './cells-table';
import css from './machines.module.css';
import { Magazine } from './magazine';

const KINDS = [
  { value: 'mill', say: 'mill' },
  { value: 'grind', say: 'grind' },
  { value: 'mill-grind', say: 'mill and grind' },
  { value: 'bench', say: 'bench' },
] as const;

function CellOf({ machine }: { machine: Machine }): ReactNode {
  const { cells } = useShop();
  const choices = [{ value: null, say: 'none' }, ...cells.map((cell) => ({ value: cell.id, say: cell.id }))];
  return <ChoiceField path={['cell']} label="Cell" value={machine.cell} choices={choices} />;
}

/** A machine in a cell has no places or load stations of its own, a bench none at all; null where it has. */
function withoutOwn(machine: Machine): ReactNode {
  if (machine.kind === 'bench') return <span className={css.soft}>–</span>;
  return machine.cell === null ? null : <span className={css.soft}>of cell</span>;
}

function hoursOf(machine: Machine): string {
  return machine.hours.length === 0 ? 'round the clock' : `${hoursText(weekMinutes(machine.hours))} a week`;
}

const COLUMNS: readonly Column<'machines'>[] = [
  { id: 'id', head: 'Machine', width: 84, draw: (m) => <IdField path={['id']} label="Machine" value={m.id} /> },
  { id: 'name', head: 'Name', draw: (m) => <TextField path={['name']} label="Name" value={m.name} /> },
  {
    id: 'kind',
    head: 'Kind',
    width: 116,
    draw: (m) => <ChoiceField path={['kind']} label="Kind" value={m.kind} choices={KINDS} />,
  },
  { id: 'cell', head: 'Cell', width: 70, draw: (machine) => <CellOf machine={machine} /> },
  {
    id: 'places',
    head: 'Places',
    unit: 'pallets',
    width: 76,
    align: 'end',
    draw: (m) =>
      withoutOwn(m) ?? (
        <EditField
          path={['places']}
          label="Places"
          value={m.places}
          parse={parsePlaces}
          show={showPlaces}
          align="end"
        />
      ),
  },
  {
    id: 'stations',
    head: 'Load',
    unit: 'stations',
    width: 70,
    align: 'end',
    draw: (m) => withoutOwn(m) ?? <WholeField path={['stations']} label="Load stations" value={m.stations} least={1} />,
  },
  { id: 'spot', head: 'Spot', width: 100, draw: (m) => <TextField path={['spot']} label="Spot" value={m.spot} /> },
  {
    id: 'skill',
    head: 'Skill',
    width: 96,
    draw: (m) => <TextField path={['skill']} label="Skill it needs" value={m.skill} placeholder="any" />,
  },
  {
    id: 'hours',
    head: 'Hours',
    width: 120,
    draw: (m) => <span className={css.plain}>{hoursOf(m)}</span>,
  },
  {
    id: 'ratePerHour',
    head: 'Rate',
    unit: 'an hour',
    width: 66,
    align: 'end',
    draw: (m) => <AmountField path={['ratePerHour']} label="Rate an hour" value={m.ratePerHour} />,
  },
  {
    id: 'inUse',
    head: 'In use',
    width: 56,
    draw: (m) => <TickField path={['inUse']} label="In use" value={m.inUse} />,
  },
];

const HOUR_FIELDS = ['hours', 'closures'];
const DETAIL_FIELDS = [...HOUR_FIELDS, 'magazine', 'nightFraction'];

function MachineDetail({ machine }: { machine: Machine }): ReactNode {
  const key = keyOf({ table: 'machines', id: machine.id });
  return (
    <>
      <Panel>
        {machine.kind !== 'bench' && <Magazine machine={machine} />}
        <WeeklySpans title="Hours it may run" path={['hours']} spans={machine.hours} none="Round the clock." />
        <Closures path={['closures']} closures={machine.closures} />
      </Panel>
      {(machine.kind === 'bench' ? DETAIL_FIELDS : HOUR_FIELDS).map((field) => (
        <Notes key={field} of={`${key}/${field}`} />
      ))}
    </>
  );
}

export function MachinesScreen(): ReactNode {
  const { machines, cells } = useShop();
  const idle = machines.filter((machine) => !machine.inUse).length;
  const lead = counted(machines.length, 'machine') + (idle === 0 ? '' : `, ${idle} not in use`);
  return (
    <TableScreen title="Machines" lead={lead}>
      <EditableTable
        table="machines"
        noun="machine"
        columns={COLUMNS}
        detail={(machine) => <MachineDetail machine={machine} />}
        detailFields={DETAIL_FIELDS}
        fresh={(id) => ({ id, kind: 'mill', places: 1, spot: machines.at(-1)?.spot ?? '' })}
        empty="No machines yet. Type the first one's short name below; it starts as a mill with one pallet place, running round the clock."
      />
      <Section
        title="Cells"
        lead={
          cells.length === 0
            ? 'Machines that share pallet places and load stations stand in a cell. This shop has none.'
            : 'Machines that share pallet places and load stations.'
        }
      >
        <CellsTable />
      </Section>
    </TableScreen>
  );
}
