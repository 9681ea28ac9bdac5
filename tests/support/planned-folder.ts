import type { CallName, Returned, Sent } from '../../core/contract';
import { openSeat } from '../../main/seat';
import type { Services } from '../../main/services';

export interface Planned {
  /** Local time at which the clock stands. */
  readonly at: string;
  /** A shop file; null is the demo shop. */
  readonly shop: string | null;
  /** Of planning. */
  readonly seconds: number;
}

/** Fills a data folder with a shop and a plan of it, as the built program would; resolves to the plan's view. */
export async function planInto(folder: string, { at, shop, seconds }: Planned): Promise<Returned<'plan.current'>> {
  const worker = new URL('../../out/main/solver-worker.js', import.meta.url);
  const { services, close } = await openSeat({ data: folder, at, worker });
  try {
    if (shop !== null) await ask(services, 'shop.import', { text: shop });
    const ended = endOfPlanning(services);
    await ask(services, 'plan.start', { seconds, seed: 1, near: false });
    await ended;
    return await ask(services, 'plan.current', null);
  } finally {
    await close();
  }
}

async function ask<K extends CallName>(services: Services, name: K, sent: Sent<K>): Promise<Returned<K>> {
  const reply = await services.call(name, sent);
  if (!reply.ok) throw new Error(reply.faults.map(({ say }) => say).join('\n'));
  return reply.value as Returned<K>;
}

function endOfPlanning(services: Services): Promise<void> {
  return new Promise((resolve, reject) => {
    const unlisten = services.listen((name, event) => {
      if (name !== 'plan.done' && name !== 'plan.failed') return;
      unlisten();
      if (name === 'plan.done') resolve();
      else reject(new Error(JSON.stringify(event)));
    });
  });
}
