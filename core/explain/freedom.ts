import { type Counterfactual, RELAXATIONS, type Relaxation } from '../engine';
import { isBench, isTable, placesOf } from '../measure';
import type { Machine, PlannedRun, RunNeed, Shop } from '../shop';
import type { Interval } from '../time';

/** A run and a machine it may be on, asked about together. */
export interface Question {
  readonly need: RunNeed;
  readonly machine: Machine;
}

/** A run where it could be, and what has to be relaxed for it. */
export interface Freed extends Question {
  readonly relaxed: readonly Relaxation[];
  readonly planned: PlannedRun;
  readonly gain: number;
}

/** What was found: where some run could be as things are, or else what would let it. */
export interface Freedom {
  readonly asItIs: Freed | null;
  /** The largest gain first; each irreducible. */
  readonly freed: readonly Freed[];
}

/** Pairs are asked of the first so many questions only, and the best so many of them are told. */
const MOST_FOR_PAIRS = 8;
const MOST_PAIRS = 3;

/**
 * Asks of each question whether the run could begin to cut there inside `within`, all other runs staying; then with one
 * thing relaxed, then with two, then with as few as will do. Of several answers to one relaxation the best gain counts,
 * and none that gains less than `least`; none can gain more than `most`.
 */
export function freedomIn(
  facts: Counterfactual,
  shop: Shop,
  questions: readonly Question[],
  within: Interval,
  gainOf: (planned: PlannedRun) => number,
  { least = 1, most = Number.POSITIVE_INFINITY } = {},
): Freedom {
  let asItIs: Freed | null = null;
  const ask = (asked: readonly Question[], relaxed: readonly Relaxation[]): Freed | null => {
    let best: Freed | null = null;
    for (const question of asked) {
      if (best !== null && best.gain >= most) break;
      const planned = facts.earliest(question.need.id, question.machine.id, within, relaxed);
      if (planned === null) continue;
      const freed = { ...question, relaxed, planned, gain: gainOf(planned) };
      // The finder is led by what is relaxed, and may come upon what could be had without.
      if (relaxed.length === 0 || facts.allows(planned)) asItIs = better(asItIs, freed);
      else if (freed.gain >= least) best = better(best, freed);
    }
    return best;
  };

  ask(questions, []);
  if (asItIs !== null) return { asItIs, freed: [] };
  const kindsOf = new Map(questions.map((question) => [question, relaxationsFor(shop, question)]));
  const concerned = (relaxed: readonly Relaxation[], most = questions.length) =>
    questions.slice(0, most).filter((question) => relaxed.every((kind) => kindsOf.get(question)!.includes(kind)));
  const kinds = RELAXATIONS.filter((kind) => concerned([kind]).length > 0);

  let freed = kinds.flatMap((kind) => ask(concerned([kind]), [kind]) ?? []);
  if (freed.length === 0) {
    const pairs = kinds.flatMap((a, i) => kinds.slice(i + 1).map((b) => [a, b]));
    freed = pairs.flatMap((pair) => ask(concerned(pair, MOST_FOR_PAIRS), pair) ?? []);
    freed = inOrder(freed).slice(0, MOST_PAIRS);
  }
  if (freed.length === 0 && questions.length > 0) freed = fewest(ask, questions[0]!, kindsOf.get(questions[0]!)!);
  return asItIs === null ? { asItIs, freed: inOrder(freed) } : { asItIs, freed: [] };
}

function better(a: Freed | null, b: Freed): Freed {
  return a === null || b.gain > a.gain ? b : a;
}

function inOrder(freed: readonly Freed[]): Freed[] {
  return [...freed].sort((a, b) => b.gain - a.gain);
}

/** With all relaxed, then with one after the other not: what is left can do without none of it. */
function fewest(
  ask: (asked: readonly Question[], relaxed: readonly Relaxation[]) => Freed | null,
  question: Question,
  kinds: readonly Relaxation[],
): Freed[] {
  let found = ask([question], kinds);
  // What is dearest to have is given up first.
  for (const kind of [...kinds].reverse()) {
    if (found === null) break;
    found =
      ask(
        [question],
        found.relaxed.filter((one) => one !== kind),
      ) ?? found;
  }
  return found === null ? [] : [found];
}

/** What may be in the way of this run on this machine at all. */
function relaxationsFor(shop: Shop, { need, machine }: Question): Relaxation[] {
  const { operation, job } = need;
  const floor = shop.floor.find(({ run }) => run === need.id);
  const isLoadedAhead = !isBench(machine) && !isTable(machine);
  const may: Record<Relaxation, boolean> = {
    lock: floor?.state === 'locked',
    release: need.step === 0 && job.release !== null,
    route: need.step > 0,
    'first-piece': operation.firstPiece !== null && !isBench(machine),
    off: machine.hours.length > 0 || machine.closures.length > 0,
    proof: operation.proof !== null || job.suspectLimit !== null,
    tool: operation.tools.length > 0,
    machine: true,
    pallet: operation.fixture !== null,
    place: isLoadedAhead && placesOf(shop, machine) !== null,
    station: isLoadedAhead && operation.load + operation.unload > 0,
    person: true,
  };
  return RELAXATIONS.filter((kind) => may[kind]);
}
