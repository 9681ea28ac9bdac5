import type { Api } from '../../core/contract';
import { type CompareStore, createCompareStore } from '../compare';
import { createDeskStore, type DeskStore } from '../desk';
import { createPlanStore, type PlanStore } from '../plan';
import { createSeatStore, type SeatStore } from '../settings';
import { createShopStore, type ShopStore } from '../tables';
import { createTonightStore, type TonightStore } from '../tonight';
import type { ConnectionStore } from './connection';
import { copyApi } from './copy-api';
import type { Carried } from './socket-api';

/** All that the screens know of the shop, or of one copy of it; seat and comparison are the window's. */
export interface Stores {
  readonly api: Api;
  readonly connection: ConnectionStore;
  readonly shop: ShopStore;
  readonly plan: PlanStore;
  readonly desk: DeskStore;
  readonly tonight: TonightStore;
  readonly seat: SeatStore;
  readonly compare: CompareStore;
}

/** All that the window knows, begun to be read. */
export function createStores(carried: Carried): Stores {
  const seat = createSeatStore(carried.api);
  void seat.read();
  const compare = createCompareStore(carried.api);
  whenBack(carried.connection, () => compare.getState().reload());
  return storesOn(carried, seat, compare);
}

function storesOn({ api, connection }: Carried, seat: SeatStore, compare: CompareStore): Stores {
  const shop = createShopStore(api);
  const plan = createPlanStore(api);
  const tonight = createTonightStore(api, plan);
  const desk = createDeskStore(api);
  // The plan's screen shows the seconds too.
  seat.subscribe(({ settings }) => plan.setState({ seconds: settings.planSeconds }));
  whenBack(connection, () => {
    void shop.read();
    void plan.getState().load();
  });
  void shop.read();
  return { api, connection, shop, plan, desk, tonight, seat, compare };
}

/** Whatever was told while the connection was lost was not heard. */
function whenBack(connection: ConnectionStore, readAgain: () => void): void {
  connection.subscribe(({ connection: now }, { connection: before }) => {
    if (now === 'up' && before === 'lost') readAgain();
  });
}

/** The stores of each copy that was opened, kept until it is discarded. */
export function copyStoresOf(own: Stores): (copy: string) => Stores {
  const opened = new Map<string, { readonly stores: Stores; close(): void }>();
  own.compare.subscribe(({ copies }) => {
    if (copies === null) return;
    const there = new Set(copies.map(({ id }) => id));
    for (const [id, { close }] of opened) {
      if (there.has(id)) continue;
      close();
      opened.delete(id);
    }
  });
  return (copy) => {
    const known = opened.get(copy);
    if (known !== undefined) return known.stores;
    const api = copyApi(own.api, copy);
    const stores = storesOn({ api, connection: own.connection }, own.seat, own.compare);
    opened.set(copy, { stores, close: api.close });
    return stores;
  };
}
