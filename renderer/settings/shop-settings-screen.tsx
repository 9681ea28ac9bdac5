import type { ReactNode } from 'react';
import type { Api } from '../../core/contract';
import { Notes, RecordOf, TableScreen, useShop } from '../tables';
import { FilesPart } from './files-part';
import { ListsPart } from './lists-part';
import { NightsPart } from './nights-part';
import { OtherFaults } from './other-faults';
import { SeatPart } from './seat-part';
import type { SeatStore } from './seat-store';
import { ShiftsPart } from './shifts-part';
import { ShopPart } from './shop-part';
import { WalkingPart } from './walking-part';
import { WeightsPart } from './weights-part';

/** Parts that show their own faults. */
const PARTS = ['weights', 'night', 'walking', 'floor'];

/** Everything of the shop that is not one of its tables, its file, and the choices of this seat. */
export function ShopSettingsScreen({ api, seat }: { api: Api; seat: SeatStore }): ReactNode {
  const { name } = useShop();
  return (
    <TableScreen title="Shop" lead={name}>
      <RecordOf place={{ table: 'settings' }}>
        <ShopPart />
        <Notes of="settings" except={PARTS.map((part) => `settings/${part}`)} />
        <WeightsPart />
        <Notes of="settings/weights" />
        <NightsPart />
        <Notes of="settings/night" />
        <WalkingPart />
        <Notes of="settings/walking" />
      </RecordOf>
      <ShiftsPart />
      <SeatPart seat={seat} />
      <FilesPart api={api} />
      <ListsPart api={api} />
      <OtherFaults />
    </TableScreen>
  );
}
