import { countText } from '../measure';
import { referee } from '../referee';
import type { Plan, PlanCost, Shop, Weights } from '../shop';
import { hoursText } from '../time';

/** Less is the same sum added up in another order. */
const LEAST = 1e-6;

interface Part {
  readonly key: keyof Weights & keyof PlanCost;
  /** 1 where more is worse. */
  readonly sign: 1 | -1;
  readonly say: (by: number) => string;
}

const hours = (value: number) => hoursText(value * 60);

const PARTS: readonly Part[] = [
  { key: 'lateness', sign: 1, say: (by) => `${hours(by)} more lateness` },
  { key: 'tonight', sign: -1, say: (by) => `${hours(by)} less to expect tonight` },
  { key: 'laterNights', sign: -1, say: (by) => `${hours(by)} less to expect in later nights` },
  { key: 'morning', sign: -1, say: (by) => `${countText(by, 'machine')} fewer cutting in the morning` },
  { key: 'rounds', sign: 1, say: (by) => `${countText(by, 'round')} more` },
  { key: 'extraHours', sign: 1, say: (by) => `${hours(by)} more outside normal hours` },
  { key: 'finish', sign: 1, say: (by) => `a finish ${hours(by)} later` },
];

/**
 * What the other plan would cost more, by the shop's weights and counted by the referee, as a sentence about it. The plan
 * is one the engine found and need not be the best: where the other costs no more it says so.
 */
export function costOfChoice(shop: Shop, plan: Plan, other: Plan): string {
  const { cost } = referee(shop, other);
  const parts = PARTS.map(({ key, sign, say }) => ({ by: sign * (cost[key] - plan.cost[key]), key, say }));
  const worse = parts
    .filter(({ key, by }) => by * shop.weights[key] > LEAST)
    .sort((a, b) => b.by * shop.weights[b.key] - a.by * shop.weights[a.key]);
  const [most] = worse;
  if (most === undefined) return 'That would cost nothing by the weights: the plan has slack here';
  const would = `That would mean ${most.say(most.by)}`;
  return cost.total < plan.cost.total - LEAST ? `${would}, and still come out better by the weights` : would;
}
