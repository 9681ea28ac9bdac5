import { render } from '@testing-library/react';
import userEvent, { type UserEvent } from '@testing-library/user-event';
import type { ReactNode } from 'react';
import type { ShopInput } from '../../../core/shop';
import { createShopStore, ShopProvider, type ShopStore, UndoStrip, useArrival } from '../../../renderer/tables';
import { type FakeServices, fakeServices } from './fake-services';

function Arrivals(): null {
  useArrival(() => true);
  return null;
}

export interface OpenTable {
  readonly services: FakeServices;
  readonly store: ShopStore;
  /** Every row sent so far, oldest first. */
  readonly puts: () => unknown[];
  readonly user: UserEvent;
}

/** A table of the shop on services in memory, with the strip that takes back and what leads to a field. */
export async function openTable(table: ReactNode, input?: ShopInput): Promise<OpenTable> {
  const services = fakeServices(input);
  const store = createShopStore(services.api);
  await store.read();
  render(
    <ShopProvider store={store}>
      {table}
      <UndoStrip />
      <Arrivals />
    </ShopProvider>,
  );
  const puts = (): unknown[] => services.calls.filter((call) => call.name === 'shop.put').map((call) => call.sent);
  return { services, store, puts, user: userEvent.setup() };
}
