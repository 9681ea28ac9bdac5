import { FREE, type IntervalRows, LOCKED, NO_MINUTE, NONE, type Problem, type Rows } from '../problem';
import { minutesAlone } from '../shop';

/**
 * One thing that may keep a run from starting earlier, taken away: its machine has no other work · a hand is always there ·
 * there is one more pallet of its fixture · one more place · one more load station · what comes before it on its parts is
 * off · its job is released · tools never wear · it may run alone · it is not locked · its machine is never planned off ·
 * the first piece of its operation has passed.
 */
export const RELAXATIONS = [
  'lock',
  'release',
  'route',
  'first-piece',
  'off',
  'proof',
  'tool',
  'machine',
  'pallet',
  'place',
  'station',
  'person',
] as const;
export type Relaxation = (typeof RELAXATIONS)[number];

/** How plans of a relaxed shop name what the shop does not have. No id of a shop can hold a slash. */
export const EXTRA_HAND = '/hand';
export const EXTRA_PALLET = '/pallet';

/** No limit, in minutes. */
const ENDLESS = 0x3fffffff;

/**
 * The problem without some of what is scarce in it, for a question about one run while all others stay: what is more than
 * a number - machines free, places and tools without limit - is seen to by who asks. Runs, options, machines and spots
 * keep their numbers; a hand and a pallet more come last.
 */
export function relaxedProblem(problem: Problem, relaxed: ReadonlySet<Relaxation>): Problem {
  let loose: Problem = problem;
  if (relaxed.has('lock')) loose = { ...loose, ...unlocked(problem) };
  if (relaxed.has('release')) loose = { ...loose, earliest: released(problem) };
  if (relaxed.has('route')) loose = { ...loose, ...withoutRoute(loose) };
  if (relaxed.has('first-piece')) loose = { ...loose, ...passed(problem) };
  if (relaxed.has('off')) loose = { ...loose, open: alwaysFor(problem, problem.machineCount) };
  if (relaxed.has('proof')) loose = { ...loose, ...trusted(problem) };
  if (relaxed.has('tool')) loose = { ...loose, optionAlone: unworn(loose, relaxed.has('proof')) };
  if (relaxed.has('pallet')) loose = { ...loose, ...withPallet(problem) };
  if (relaxed.has('person')) loose = { ...loose, ...withHand(problem) };
  return loose;
}

function unlocked({ runCount, state, heldOption, heldPallet, heldStart }: Problem): Partial<Problem> {
  const otherwise = (held: Int32Array, none: number) =>
    held.map((value, run) => (state[run] === LOCKED ? none : value));
  return {
    state: state.map((value) => (value === LOCKED ? FREE : value)),
    heldOption: otherwise(heldOption, NONE),
    heldPallet: otherwise(heldPallet, NONE),
    heldStart: otherwise(heldStart, NO_MINUTE),
    follows: new Int32Array(runCount).fill(NONE),
    followers: { start: new Int32Array(runCount + 1), items: new Int32Array(0) },
  };
}

function released({ earliest, now, groupStep, runGroup }: Problem): Int32Array {
  return earliest.map((minute, run) => (groupStep[runGroup[run]!] === 0 ? now : minute));
}

function withoutRoute({ earliest, now, groupStep, runGroup, runCount, lag }: Problem): Partial<Problem> {
  return {
    before: { start: new Int32Array(runCount + 1), items: new Int32Array(0) },
    lag: new Int32Array(lag.length),
    earliest: earliest.map((minute, run) => (groupStep[runGroup[run]!] === 0 ? minute : now)),
  };
}

function passed({ runCount }: Problem): Partial<Problem> {
  return { firstPieceRun: new Int32Array(runCount).fill(NONE), checkMinutes: new Int32Array(runCount) };
}

function trusted({ optionAlone, suspects, tools }: Problem): Partial<Problem> {
  return {
    // What uses up more of a tool than a night may take is no matter of trust.
    optionAlone: optionAlone.map((minutes, option) => (tools?.isDayOnly[option] === 1 ? minutes : ENDLESS)),
    suspects: new Int32Array(suspects.length),
  };
}

/** A run kept for the day by a tool may run alone as long as it has earned. */
function unworn(
  { shop, optionAlone, tools, runCount, optionFirst, ...problem }: Problem,
  isTrusted: boolean,
): Int32Array {
  const alone = optionAlone.slice();
  if (tools === null) return alone;
  for (let run = 0; run < runCount; run++) {
    const operation = shop.jobs[problem.runJob[run]!]!.route[problem.groupStep[problem.runGroup[run]!]!]!;
    for (let option = optionFirst[run]!; option < optionFirst[run + 1]!; option++) {
      if (tools.isDayOnly[option] === 0) continue;
      alone[option] = isTrusted ? ENDLESS : Math.min(ENDLESS, minutesAlone(shop, operation));
    }
  }
  return alone;
}

function withPallet({ palletCount, palletIds, palletReach, palletSets }: Problem): Partial<Problem> {
  return {
    palletCount: palletCount + 1,
    palletIds: [...palletIds, EXTRA_PALLET],
    palletReach: Int32Array.of(...palletReach, ENDLESS - 1),
    palletSets: eachRowWith(palletSets, palletCount),
  };
}

function withHand({ now, horizon, personCount, personIds, free, crews }: Problem): Partial<Problem> {
  return {
    personCount: personCount + 1,
    personIds: [...personIds, EXTRA_HAND],
    free: {
      first: Int32Array.of(...free.first, free.start.length + 1),
      start: Int32Array.of(...free.start, now),
      end: Int32Array.of(...free.end, horizon),
    },
    crews: eachRowWith(crews, personCount),
    // Nothing runs alone; tools keep to what a night may take, for the queues of other machines are read so too.
    unattended: [],
  };
}

function eachRowWith({ start, items }: Rows, item: number): Rows {
  const rows = start.length - 1;
  const grown = new Int32Array(items.length + rows);
  for (let row = 0; row < rows; row++) {
    grown.set(items.subarray(start[row]!, start[row + 1]!), start[row]! + row);
    grown[start[row + 1]! + row] = item;
  }
  return { start: start.map((first, row) => first + row), items: grown };
}

function alwaysFor({ now, horizon }: Problem, count: number): IntervalRows {
  return {
    first: Int32Array.from({ length: count + 1 }, (_, owner) => owner),
    start: new Int32Array(count).fill(now),
    end: new Int32Array(count).fill(horizon),
  };
}
