import type { HomeCheck, PlanView, TonightView } from '../../core/contract';
import { toolLedger, toolsToPreset } from '../../core/night';
import { localAt } from '../../core/time';
import { messageOf, refusal } from '../refusal';
import type { Nights } from '../solver';
import { homeChecks } from './home-checks';
import type { Tell } from './planning';

/** Nights played for a stored plan: enough for a tenth of an hour in a small shop. */
const NIGHTS = 10_000;
/** Fewer, for each of many comparisons with the same luck on both sides. */
const BUY_NIGHTS = 2_000;
/** Seconds of planning anew for each thing that might be bought. */
const BUY_SECONDS = 1;
const SEED = 1;

export interface Tonight {
  read(view: PlanView): Promise<TonightView>;
  /** Tells of each purchase, and of the end. */
  buy(view: PlanView, visitAt: string | null): void;
}

/** What tonight makes of stored plans. The last one is kept: the screen asks again after each change. */
export function tonightWith(nights: Nights, tell: Tell): Tonight {
  let last: TonightView | null = null;
  return {
    async read(view) {
      const { id, shop, plan } = view;
      if (last?.id === id) return last;
      const studied = await nights.study({ shop, plan, nights: NIGHTS, seed: SEED });
      if (studied === null) throw refusal('superseded', 'Another plan is being looked at; open this one again.');
      const tools = toolLedger(shop, plan).kinds;
      const checks: HomeCheck[] = homeChecks(view, studied.outcome);
      last = { id, ...studied, tools, presets: await toolsToPreset(shop, plan), checks };
      return last;
    },
    buy({ id, shop, plan }, visitAt) {
      const at = localAt(plan.clock, plan.now);
      const job = { shop, plan, nights: BUY_NIGHTS, seed: SEED, at, seconds: BUY_SECONDS, visitAt };
      nights
        .buy(job, (purchase, left) => tell('tonight.bought', { id, purchase, left }))
        .then((isWhole) => {
          if (isWhole) tell('tonight.done', { id, say: null });
        })
        .catch((error: unknown) => tell('tonight.done', { id, say: `It ended early: ${messageOf(error)}.` }));
    },
  };
}
