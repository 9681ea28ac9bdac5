import type { ReactNode } from 'react';
import type { Cell } from '../../../core/shop';
import { IdField, TextField, WholeField } from '../fields';
import { type Column, EditableTable } from '../grid';
import { useShop } from '../store';
import css from './machines.module.css';

function MachinesIn({ cell }: { cell: Cell }): ReactNode {
  const { machines } = useShop();
  const names = machines.filter((machine) => machine.cell === cell.id).map((machine) => machine.id);
  return <span className={css.plain}>{names.length === 0 ? 'none yet' : names.join(', ')}</span>;
}

const COLUMNS: readonly Column<'cells'>[] = [
  { id: 'id', head: 'Cell', width: 110, draw: (cell) => <IdField path={['id']} label="Cell" value={cell.id} /> },
  { id: 'name', head: 'Name', draw: (c) => <TextField path={['name']} label="Name" value={c.name} /> },
  {
    id: 'places',
    head: 'Places',
    unit: 'pallets',
    width: 76,
    align: 'end',
    draw: (cell) => <WholeField path={['places']} label="Places" value={cell.places} least={1} />,
  },
  {
    id: 'stations',
    head: 'Load',
    unit: 'stations',
    width: 70,
    align: 'end',
    draw: (cell) => <WholeField path={['stations']} label="Load stations" value={cell.stations} least={1} />,
  },
  {
    id: 'spot',
    head: 'Spot',
    width: '16%',
    draw: (cell) => <TextField path={['spot']} label="Spot" value={cell.spot} />,
  },
  { id: 'machines', head: 'Machines in it', width: '34%', draw: (cell) => <MachinesIn cell={cell} /> },
];

export function CellsTable(): ReactNode {
  return (
    <EditableTable table="cells" noun="cell" columns={COLUMNS} fresh={(id) => ({ id, places: 6 })} empty="No cells." />
  );
}
