import { bestSwap, simulateNights } from '../../core/night';
import { referee } from '../../core/referee';
import type { Command } from './command';
import { readPlanFile } from './files';
import { nightText } from './night-text';
import { shopFor } from './shop-for-plan';
import { DONE, NO_PLAN } from './terminal';

const USUAL_NIGHTS = 10_000;
const MOST_NIGHTS = 1_000_000;
const MOST_SEED = 0x7fffffff;
/** Exchanges are compared with the same luck on both sides, so fewer nights tell. */
const SWAP_NIGHTS = 1_000;

export const night: Command = {
  name: 'night',
  line: 'SHOP.json|demo PLAN.json [--nights N] [--seed N] [--json]',
  summary:
    'Plays simulated nights of a plan: hours to expect by the first morning attendance, a bad night, what stops first. The same seed gives the same nights.',
  words: ['a shop file, or demo', 'a plan file'],
  options: { nights: { type: 'string' }, seed: { type: 'string' }, json: { type: 'boolean' } },
  async run(given, terminal) {
    const nights = given.whole('nights', USUAL_NIGHTS, 1, MOST_NIGHTS);
    const seed = given.whole('seed', 1, 0, MOST_SEED);
    const plan = await readPlanFile(given.word(1));
    const shop = await shopFor(given.word(0), plan);
    const { legal, breaches } = referee(shop, plan);
    if (!legal) {
      terminal.remark('This plan is not legal for this shop, so its nights say nothing:');
      for (const breach of breaches) terminal.remark(`  Rule ${breach.rule}: ${breach.say}`);
      return NO_PLAN;
    }
    const outcome = simulateNights(shop, plan, { nights, seed });
    const found = bestSwap(shop, plan, { nights: Math.min(nights, SWAP_NIGHTS), seed });
    if (given.flag('json')) {
      const swap = found === null ? null : { ...found, plan: undefined };
      terminal.print(JSON.stringify({ ...outcome, swap }, null, 2));
    } else terminal.print(nightText(plan, outcome, found));
    return DONE;
  },
};
