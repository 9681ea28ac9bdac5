import type { LinearSolver } from '../linear';
import { nightReserve, type Plan, type Shop, sistersLeft, type Tool, type ToolAct } from '../shop';
import type { Minute } from '../time';
import { type ToolQueue, toolQueuesOf } from './ledger-queue';
import { replay, type Shortage } from './ledger-replay';
import { isHandDressed, isTakenWhole } from './ledger-sisters';
import { type CoverCase, leastByMinutes } from './presets-case';
import { fewestToCover } from './presets-cover';

/** New sister tools of one kind for one machine. */
export interface Preset {
  readonly machine: string;
  readonly tool: string;
  /** With the best choice of tool for each cut. */
  readonly fewest: number;
  /** False where the search for the best choice would take too long: fewer than `fewest` might do. */
  readonly proved: boolean;
  /** If the machine takes the first sister tool that has enough, as rule 8 reads a plan; never fewer. */
  readonly inOrder: number;
  /** What happens first without them. They must be in the magazine before its `start`. */
  readonly shortage: Shortage;
}

export interface Presets {
  /** The end of tonight's stretch; null without one, and the whole queue is meant. */
  readonly until: Minute | null;
  /** Sum of `fewest`. */
  readonly total: number;
  /** Machine by machine in the shop's order. */
  readonly kinds: readonly Preset[];
  /** Runs that want more than new tools can give, however many: of each kind the first. */
  readonly never: readonly Shortage[];
}

/**
 * The fewest new sister tools with which the runs that begin by the end of tonight's stretch need no replacement. Wheels
 * are still dressed by hand as planned. Each kind on each machine stands for itself, so their sum is the fewest of all.
 */
export async function toolsToPreset(shop: Shop, plan: Plan, solver: LinearSolver | 'auto' = 'auto'): Promise<Presets> {
  const { now, tonight, machines } = toolQueuesOf(shop, plan);
  const until = tonight?.end ?? null;
  const kinds: Preset[] = [];
  const never: Shortage[] = [];
  for (const whole of machines) {
    const queue = { ...whole, cuts: whole.cuts.filter((cut) => until === null || cut.planned.start < until) };
    for (const tool of shop.tools) {
      const [shortage] = shortages(queue, tool, now, 0);
      if (shortage === undefined) continue;
      const most = mostNeeded(queue, tool);
      const [hopeless] = shortages(queue, tool, now, most);
      if (hopeless === undefined) kinds.push(await presetOf(queue, tool, now, most, shortage, solver));
      else never.push(hopeless);
    }
  }
  return { until, total: kinds.reduce((sum, kind) => sum + kind.fewest, 0), kinds, never };
}

const isDressing = ({ act }: ToolAct): boolean => act === 'dress';

function shortages(queue: ToolQueue, tool: Tool, now: Minute, fresh: number): readonly Shortage[] {
  return replay(queue, tool, now, isDressing, fresh).shortages;
}

/** If these new tools are not enough, no number is: each cut can have new ones all for itself. */
function mostNeeded(queue: ToolQueue, tool: Tool): number {
  const needs = needsOf(queue, tool);
  if (isTakenWhole(tool)) return needs.length;
  const perTool = Math.max(1, tool.life - nightReserve(queue.machine, tool));
  return needs.reduce((sum, { minutes }) => sum + Math.ceil(minutes / perTool), 0);
}

function needsOf(queue: ToolQueue, tool: Tool): { minutes: number; alone: boolean; start: Minute }[] {
  return queue.cuts.flatMap(({ needs, alone, planned }) =>
    needs.filter((need) => need.tool.id === tool.id).map(({ minutes }) => ({ minutes, alone, start: planned.start })),
  );
}

async function presetOf(
  queue: ToolQueue,
  tool: Tool,
  now: Minute,
  most: number,
  shortage: Shortage,
  solver: LinearSolver | 'auto',
): Promise<Preset> {
  // New tools come last, so one more changes nothing where fewer are enough: the number can be halved towards.
  let [tooFew, inOrder] = [0, most];
  while (inOrder - tooFew > 1) {
    const middle = (tooFew + inOrder) >> 1;
    if (shortages(queue, tool, now, middle).length === 0) inOrder = middle;
    else tooFew = middle;
  }
  const cover = coverCaseOf(queue, tool);
  const atLeast = leastByMinutes(cover);
  const found = atLeast < inOrder ? await fewestToCover(cover, solver) : null;
  const fewest = found ?? inOrder;
  const proved = found !== null || atLeast === inOrder;
  return { machine: queue.machine.id, tool: tool.id, fewest, proved, inOrder, shortage };
}

function coverCaseOf(queue: ToolQueue, tool: Tool): CoverCase {
  const needs = needsOf(queue, tool);
  const dressings = queue.care.flatMap(({ start, acts }) =>
    acts.filter((act) => act.tool === tool.id && isDressing(act)).map(({ sister }) => ({ sister, start })),
  );
  return {
    whole: isTakenWhole(tool),
    life: tool.life,
    reserve: nightReserve(queue.machine, tool),
    every: isHandDressed(tool) ? (tool.dressing?.every ?? null) : null,
    cuts: needs.map(({ minutes, alone }) => ({ minutes, alone })),
    held: sistersLeft(queue.machine, tool).map((left, sister) => ({
      left,
      dressedBefore: dressings
        .filter((dressing) => dressing.sister === sister)
        .map(({ start }) => needs.filter((need) => need.start < start).length),
    })),
  };
}
