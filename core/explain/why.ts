import type { Why } from '../contract';
import { Counterfactual, RELAXATIONS, type Relaxation } from '../engine';
import { type RunSpans, readPlan } from '../measure';
import { problemOf } from '../problem';
import { MOVED_AFTER, type Plan, type RunNeed, type Shop } from '../shop';
import { lengthText, localAt, type Minute } from '../time';
import { blockerOf, type Ground, runName } from './blockers';
import { costOfChoice } from './choice';
import { type Freed, freedomIn } from './freedom';
import { handsOf } from './hands';
import { earlierText, freeingOf } from './remedies';
import { supplyOf } from './supply';
import { atText, clause, listText, weekText } from './words';
import { machineName } from './work';

/** Looks a plan up once for everything that is asked about it. The plan must be of this shop, and passed by the referee. */
export function groundOf(shop: Shop, plan: Plan): Ground {
  const reading = readPlan(shop, plan);
  return {
    reading,
    facts: new Counterfactual(problemOf(shop, localAt(plan.clock, plan.now)), plan),
    hands: handsOf(reading),
    supply: supplyOf(reading),
  };
}

/**
 * Why a run begins when it does on its machine: asked by leaving every other run where the plan has it and looking for an
 * earlier start, first as things are and then with one thing relaxed after the other. For a run left out: what would let
 * it in. Throws a RangeError for a run the plan does not name.
 */
export function whyRun(shop: Shop, plan: Plan, run: string): Why {
  return whyOf(groundOf(shop, plan), run);
}

/** As {@link whyRun}, of a plan looked up already. */
export function whyOf(ground: Ground, run: string): Why {
  const { reading } = ground;
  const spans = reading.runOf.get(run);
  if (spans !== undefined) return whyPlanned(ground, spans);
  const need = [...reading.needs.values()].flat().find(({ id }) => id === run);
  if (need === undefined || !reading.left.has(run)) throw new RangeError(`The plan has no run ${run}.`);
  return whyLeft(ground, need);
}

/** Nothing to ask: it is so. */
export function settled(here: string): Why {
  return { here, notEarlier: null, frees: [], binding: [] };
}

/** Nobody asks for another pallet to gain less than this, unless there is nothing better. */
const LEAST_GAIN = 5;

const CANNOT = 'With every other run where it is, it cannot start earlier';

function whyPlanned(ground: Ground, { need, machine, planned, floor }: RunSpans): Why {
  const { reading, facts } = ground;
  const { shop, plan } = reading;
  const on = machineName(shop, machine.id);
  const name = runName(reading, need);
  if (floor?.state === 'running')
    return settled(`${name} has been on ${on} since ${weekText(plan.clock, planned.start, plan.now)}.`);
  if (floor?.state === 'finished')
    return settled(`${name} is finished and stands on ${on} until somebody takes it off.`);
  if (facts.isFixed(need.id))
    return settled(`${name} is held on ${on} where something else is held too; the plan reports it.`);
  const by = planned.start;
  const freedomFrom = (from: Minute, least = 1) =>
    freedomIn(facts, shop, [{ need, machine }], { start: from, end: by }, ({ start }) => by - start, { least });
  const { asItIs, freed } = freedomFrom(plan.now);
  const start = `${name} starts on ${on} at ${weekText(plan.clock, by, plan.now)}`;
  if (asItIs !== null) {
    const at = atText(plan.clock, asItIs.planned.start, by);
    const cost = costOfChoice(shop, plan, facts.planWith(asItIs.planned));
    return {
      here: `${start}, ${lengthText(asItIs.gain)} later than it must: the plan chose so. It could start at ${at} with every other run where it is. ${cost}.`,
      notEarlier: null,
      frees: [],
      binding: ['choice'],
    };
  }
  // What is in the way just before it begins; a long way back it may be something else.
  const told = toTell(freedomFrom(Math.max(plan.now, by - MOVED_AFTER), LEAST_GAIN).freed) ?? toTell(freed);
  if (told === null)
    return { ...settled(`${start}: as early as can be.`), notEarlier: `${CANNOT}, whatever is added.` };
  const worth = worthwhile(freed);
  const blockers = told.relaxed.map((kind) => blockerOf(ground, { ...told, by }, kind));
  return {
    here: `${start}: ${listText([...new Set(blockers)])}.`,
    notEarlier: freed[0]!.relaxed.length === 1 ? `${CANNOT}.` : `${CANNOT}, and no one thing alone would let it.`,
    frees: worth.map((one) => freeingOf(reading, one, earlierText)),
    binding: bindingOf(worth),
  };
}

function whyLeft(ground: Ground, need: RunNeed): Why {
  const { reading, facts } = ground;
  const { shop, plan, window } = reading;
  const machines = need.operation.machines.flatMap(({ machine }) => shop.machines.filter(({ id }) => id === machine));
  const questions = machines.filter(({ inUse }) => inUse).map((machine) => ({ need, machine }));
  const gainOf = ({ start }: { start: number }) => window.end - start;
  const { asItIs, freed } = freedomIn(facts, shop, questions, window, gainOf);
  const left = `${runName(reading, need)} is left out: ${clause(reading.left.get(need.id) ?? '')}.`;
  const where = ({ planned }: Freed) =>
    `it could start on ${machineName(shop, planned.machine)} at ${weekText(plan.clock, planned.start, plan.now)}`;
  if (asItIs !== null) {
    const say = where(asItIs);
    return { here: `${left} As things are ${say}.`, notEarlier: null, frees: [], binding: ['choice'] };
  }
  return {
    here: left,
    notEarlier: 'With every other run where it is, it fits nowhere.',
    frees: freed.map((one) => freeingOf(reading, one, where)),
    binding: bindingOf(freed),
  };
}

/** The one whose blocker is told: of several remedies for one wait the most particular, which comes first. */
export function toTell(freed: readonly Freed[]): Freed | null {
  const rank = ({ relaxed }: Freed) => Math.min(...relaxed.map((kind) => RELAXATIONS.indexOf(kind)));
  return freed.reduce<Freed | null>((best, one) => (best === null || rank(one) < rank(best) ? one : best), null);
}

export function bindingOf(freed: readonly Freed[]): Relaxation[] {
  return [...new Set(freed.flatMap(({ relaxed }) => relaxed))];
}

function worthwhile(freed: readonly Freed[]): readonly Freed[] {
  const worth = freed.filter(({ gain }) => gain >= LEAST_GAIN);
  return worth.length === 0 ? freed : worth;
}
