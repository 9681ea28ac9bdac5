import type { Plan, Shop } from '../shop';
import { stretchesOf } from '../time';
import { checkAlone } from './alone';
import { timeOf, visitsOf, walkIn } from './attendance';
import { checkCare } from './care';
import { checkCompleteness } from './completeness';
import { contextOf } from './context';
import { checkCost, costOf } from './cost';
import { checkCutting } from './cutting';
import { checkFloor } from './floor';
import { checkHands } from './hands';
import { checkMachines } from './machines';
import { occupationsOf } from './occupation';
import { checkOrder } from './order';
import { checkPallets } from './pallets';
import { checkPeople } from './people';
import { checkPlaces } from './places';
import { checkRoute } from './route';
import { checkTools } from './tools';
import { judge, type Verdict } from './verdict';

export type { Breach, Verdict } from './verdict';

/**
 * Whether a plan is legal for the shop, every rule of RULES.md it breaks, and what it costs. Reads shop and plan as
 * their schemas take them, however wrong they are beside each other, and never throws. Pass the released plan the
 * plan was made against; without it, the number of moved runs is not checked.
 */
export function referee(shop: Shop, plan: Plan, released?: Plan): Verdict {
  const ctx = contextOf(shop, plan);
  const occupations = occupationsOf(ctx);
  const visits = visitsOf(ctx);
  const walk = walkIn(ctx);
  const times = new Map([...ctx.people].map(([id, person]) => [id, timeOf(ctx, person)]));
  const present = [...times.values()].flatMap((time) => time.present);
  const stretches = stretchesOf(present, ctx.window);
  const unattended = stretches.filter((stretch) => !stretch.attended);
  const cost = costOf(ctx, visits, walk, times, stretches, released);
  const findings = [
    ...checkCompleteness(ctx),
    ...checkMachines(ctx, occupations),
    ...checkCutting(ctx),
    ...checkPeople(ctx, visits, walk, times),
    ...checkHands(ctx),
    ...checkPlaces(ctx, occupations, visits),
    ...checkPallets(ctx, occupations),
    ...checkRoute(ctx),
    ...checkCare(ctx, occupations),
    ...checkTools(ctx, unattended),
    ...checkAlone(ctx, unattended),
    ...checkFloor(ctx),
    ...checkOrder(ctx),
    ...checkCost(plan, cost),
  ];
  return { ...judge(plan, ctx.floor, findings), cost };
}
