import { parentPort } from 'node:worker_threads';
import { planShop, tonightPrices } from '../../core/engine';
import { bestSwap, NightStudy, offersFor, priceOffer, priceOrder, type Replan } from '../../core/night';
import type { Plan } from '../../core/shop';
import { messageOf } from '../refusal';
import type { BuyJob, FromNights, NightJob, ToNights } from './night-messages';

/**
 * A thread in which nights are played. A newer job of the same kind puts an end to the one before it: between two
 * slices of nights, or two things priced.
 */
const SLICE = 500;

/** Exchanges are compared over fewer nights: with the same luck in both, a small gain shows soon. */
const SWAP_NIGHTS = 1_000;

const newest = { study: 0, buy: 0 };

function tell(message: FromNights): void {
  parentPort?.postMessage(message);
}

/** Lets the thread hear of a newer job. */
function breathe(): Promise<void> {
  return new Promise((resolve) => {
    setImmediate(resolve);
  });
}

async function study(id: number, { shop, plan, nights, seed }: NightJob): Promise<void> {
  const nightStudy = new NightStudy(shop, plan, { nights, seed });
  while (nightStudy.left > 0) {
    nightStudy.play(SLICE);
    await breathe();
    if (newest.study !== id) return;
  }
  const found = bestSwap(shop, plan, { nights: Math.min(nights, SWAP_NIGHTS), seed });
  const swap =
    found === null
      ? null
      : {
          machine: found.machine,
          first: found.first,
          second: found.second,
          gain: found.gain,
          halfWidth: found.halfWidth,
        };
  tell({ type: 'studied', id, studied: { outcome: nightStudy.outcome(), swap } });
}

async function buy(id: number, job: BuyJob): Promise<void> {
  const { shop, nights, seed, at, seconds, visitAt } = job;
  const options = { nights, seed };
  const replan: Replan = (other, previous) =>
    planShop(other, { at, seconds, seed, previous, allocate: false, clock: () => performance.now() });
  // What more planning alone brings is no gain of anything bought.
  const plan: Plan = await replan(shop, job.plan);
  const base = { shop, plan };
  const nightStudy = new NightStudy(shop, plan, options);
  nightStudy.play(nights);
  const duals = await tonightPrices(shop, at, seconds);
  const offers = offersFor(shop, plan, nightStudy.outcome(), visitAt);
  const order = priceOrder(base, { nights: Math.min(nights, SWAP_NIGHTS), seed });
  if (newest.buy !== id) return;
  if (order !== null) tell({ type: 'bought', id, purchase: order, left: offers.length });
  for (const [i, offer] of offers.entries()) {
    const purchase = await priceOffer(offer, base, replan, options, duals);
    await breathe();
    if (newest.buy !== id) return;
    tell({ type: 'bought', id, purchase, left: offers.length - i - 1 });
  }
  tell({ type: 'done', id });
}

parentPort?.on('message', (message: ToNights) => {
  const { id } = message;
  newest[message.type] = id;
  const work = message.type === 'study' ? study(id, message.job) : buy(id, message.job);
  work.catch((error: unknown) => tell({ type: 'failed', id, say: messageOf(error) }));
});
