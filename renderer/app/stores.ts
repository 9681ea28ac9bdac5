import { createDeskStore } from '../desk';
import { createPlanStore } from '../plan';
import { createSeatStore } from '../settings';
import { createShopStore } from '../tables';
import { createTonightStore } from '../tonight';
import type { Stores } from './app';
import type { Carried } from './socket-api';

/** All that the window knows, begun to be read. */
export function createStores({ api, connection }: Carried): Stores {
  const shop = createShopStore(api);
  const plan = createPlanStore(api);
  const tonight = createTonightStore(api, plan);
  const desk = createDeskStore(api);
  const seat = createSeatStore(api);
  // The plan's screen shows the seconds too.
  seat.subscribe(({ settings }) => plan.setState({ seconds: settings.planSeconds }));
  connection.subscribe(({ connection: now }, { connection: before }) => {
    if (now !== 'up' || before !== 'lost') return;
    // Whatever was told meanwhile was not heard.
    void shop.read();
    void plan.getState().load();
  });
  void shop.read();
  void seat.read();
  return { api, connection, shop, plan, desk, tonight, seat };
}
