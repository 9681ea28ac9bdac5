import type { Why } from '../contract';
import { RELAXATIONS, type Relaxation } from '../engine';
import type { RunSpans } from '../measure';
import { MOVED_AFTER, type RunNeed } from '../shop';
import { lengthText, type Minute } from '../time';
import { blockerOf, type Ground, runName } from './blockers';
import { costOfChoice } from './choice';
import { type Freed, freedomIn } from './freedom';
import { earlierText, freeingOf } from './remedies';
import { atText, clause, listText, weekText } from './words';
import { machineName } from './work';

/** Why a run is where it is, or is left out. */
export function whyRunIn(ground: Ground, run: string): Why {
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
