import type { FloorEntry, RunNeed } from '../shop';
import { type Clock, minuteOf } from '../time';
import type { Rows } from './problem';
import { flatRows } from './rows';

/** Arcs from each run to the runs of the next step that share parts with it; done ones become earliest times. */
export function routeArcs(
  all: readonly RunNeed[],
  runIndex: ReadonlyMap<string, number>,
  floor: ReadonlyMap<string, FloorEntry>,
  clock: Clock,
  now: number,
  earliest: Int32Array,
): { before: Rows; after: Rows } {
  const before: number[][] = Array.from({ length: runIndex.size }, () => []);
  const after: number[][] = Array.from({ length: runIndex.size }, () => []);
  const bySteps = new Map<string, RunNeed[]>();
  for (const run of all) {
    const key = `${run.job.id}/${run.step}`;
    const list = bySteps.get(key);
    if (list === undefined) bySteps.set(key, [run]);
    else list.push(run);
  }
  for (const run of all) {
    const to = runIndex.get(run.id);
    if (to === undefined || run.step === 0) continue;
    const previous = bySteps.get(`${run.job.id}/${run.step - 1}`)!;
    const perPallet = previous[0]!.operation.perPallet;
    const firstRun = Math.floor(run.firstPart / perPallet);
    const lastRun = Math.floor((run.firstPart + run.parts - 1) / perPallet);
    for (const need of previous.slice(firstRun, lastRun + 1)) {
      const from = runIndex.get(need.id);
      if (from !== undefined) {
        before[to]!.push(from);
        after[from]!.push(to);
      } else {
        const end = floor.get(need.id)?.end ?? null;
        const off = end === null ? now : minuteOf(clock, end);
        earliest[to] = Math.max(earliest[to]!, off + run.operation.lag);
      }
    }
  }
  return { before: flatRows(before), after: flatRows(after) };
}
