import type { ReactNode } from 'react';
import type { Pallet, Shop } from '../../../core/shop';
import { Chips, IdField, TextField, TickField, useListEdits } from '../fields';
import { knownFixtures } from '../fixtures';
import { type Column, EditableTable } from '../grid';
import { counted, TableScreen } from '../screen';
import { faultsWithin, keyOf, usePlace, useShop, useShopState } from '../store';

function FitsMachines({ pallet }: { pallet: Pallet }): ReactNode {
  const shop = useShop();
  const key = keyOf(usePlace(), ['machines']);
  const { add, takeOut } = useListEdits<string>(['machines'], pallet.machines);
  const invalid = useShopState((state) => key in state.refusals || faultsWithin(state.view, key).length > 0);
  return (
    <Chips
      label="Fits machines"
      chips={pallet.machines.map((id) => ({ id }))}
      none="all machines"
      more={shop.machines.map((machine) => machine.id).filter((id) => !pallet.machines.includes(id))}
      addSay="fits only chosen machines: add one"
      onAdd={add}
      onTakeOut={(id) => takeOut(pallet.machines.indexOf(id), `Took ${id} out of pallet ${pallet.id}.`)}
      at={key}
      invalid={invalid}
    />
  );
}

const columnsFor = (fixtures: readonly string[]): readonly Column<'pallets'>[] => [
  { id: 'id', head: 'Pallet', width: 110, draw: (p) => <IdField path={['id']} label="Pallet" value={p.id} /> },
  { id: 'name', head: 'Name', draw: (p) => <TextField path={['name']} label="Name" value={p.name} /> },
  {
    id: 'fixture',
    head: 'Fixture',
    width: '18%',
    draw: (p) => <IdField path={['fixture']} label="Fixture" value={p.fixture} suggest={fixtures} />,
  },
  { id: 'machines', head: 'Fits', width: '40%', draw: (pallet) => <FitsMachines pallet={pallet} /> },
  {
    id: 'inUse',
    head: 'In use',
    width: 56,
    draw: (p) => <TickField path={['inUse']} label="In use" value={p.inUse} />,
  },
];

/** A pallet like the last one, or with the fixture that the first operation asks for. */
function newPallet(shop: Shop, id: string): Partial<Pallet> & { id: string } {
  const last = shop.pallets.at(-1);
  if (last !== undefined) return { id, fixture: last.fixture, machines: last.machines };
  return { id, fixture: knownFixtures(shop)[0] ?? 'F1' };
}

export function PalletsScreen(): ReactNode {
  const shop = useShop();
  const fixtures = knownFixtures(shop);
  const kinds = new Set(shop.pallets.map((pallet) => pallet.fixture)).size;
  const idle = shop.pallets.filter((pallet) => !pallet.inUse).length;
  const lead = [
    counted(shop.pallets.length, 'pallet'),
    `${counted(kinds, 'kind')} of fixture`,
    ...(idle === 0 ? [] : [`${idle} not in use`]),
  ].join(', ');
  return (
    <TableScreen title="Pallets" lead={lead}>
      <EditableTable
        table="pallets"
        noun="pallet"
        columns={columnsFor(fixtures)}
        fresh={(id) => newPallet(shop, id)}
        empty="No pallets yet. An operation with a fixture runs on a pallet that carries that fixture; type the first pallet's name below."
      />
    </TableScreen>
  );
}
