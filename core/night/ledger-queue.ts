import {
  type Machine,
  type Plan,
  type PlannedRun,
  type RunNeed,
  runsOf,
  type Shop,
  type Tool,
  type ToolCare,
  type ToolNeed,
  toolNeeds,
} from '../shop';
import { type Interval, intersect, type Minute, tonightOf } from '../time';
import { stretchesIn } from './queue';

/** A planned run as its machine's tools see it. */
export interface ToolCut {
  readonly planned: PlannedRun;
  /** When it cuts, the hold for a first-piece check left out. */
  readonly cutting: readonly Interval[];
  /** Whether any of its time on the machine, a hold included, from the plan's moment on is unattended. */
  readonly alone: boolean;
  /** Whether any of that time lies in tonight's stretch. */
  readonly tonight: boolean;
  readonly needs: readonly ToolNeed[];
}

/** What comes to one machine's tools from the plan's moment on. */
export interface ToolQueue {
  readonly machine: Machine;
  /** In order of start. */
  readonly cuts: readonly ToolCut[];
  /** In order of start. */
  readonly care: readonly ToolCare[];
}

export interface ToolQueues {
  readonly now: Minute;
  readonly tonight: Interval | null;
  readonly machines: readonly ToolQueue[];
}

/**
 * The queue of every machine but the benches, in the shop's order. Runs, machines and cycles that shop and plan do not share are passed
 * over: whether a plan fits its shop is for the referee to say.
 */
export function toolQueuesOf(shop: Shop, plan: Plan): ToolQueues {
  const stretches = stretchesIn(shop, plan);
  const ahead = [{ start: plan.now, end: plan.horizon }];
  const alone = intersect(
    stretches.filter((stretch) => !stretch.attended),
    ahead,
  );
  const night = tonightOf(stretches, plan.now);
  const tonight = night === null ? [] : intersect([night], ahead);
  const tools = new Map(shop.tools.map((tool) => [tool.id, tool]));
  const needs = new Map(runsOf(shop).map((need) => [need.id, need]));
  const machines = shop.machines
    .filter((machine) => machine.kind !== 'bench')
    .map((machine) => ({
      machine,
      cuts: byStart(plan.runs)
        .filter((planned) => planned.machine === machine.id && planned.end > plan.now)
        .flatMap((planned) => cutOf(planned, needs.get(planned.run), tools, alone, tonight)),
      care: byStart(plan.care).filter((care) => care.machine === machine.id),
    }));
  return { now: plan.now, tonight: night, machines };
}

function byStart<T extends Interval>(spans: readonly T[]): T[] {
  return [...spans].sort((a, b) => a.start - b.start);
}

function cutOf(
  planned: PlannedRun,
  need: RunNeed | undefined,
  tools: ReadonlyMap<string, Tool>,
  alone: readonly Interval[],
  tonight: readonly Interval[],
): ToolCut[] {
  const cycle = need?.operation.machines.find((m) => m.machine === planned.machine)?.cycle;
  if (need === undefined || cycle === undefined) return [];
  return [
    {
      planned,
      cutting: cuttingOf(planned, need),
      alone: intersect([planned], alone).length > 0,
      tonight: intersect([planned], tonight).length > 0,
      needs: toolNeeds(need, cycle, tools),
    },
  ];
}

function cuttingOf({ start, end, check }: PlannedRun, { operation }: RunNeed): Interval[] {
  if (check === null || operation.firstPiece === null) return [{ start, end }];
  const pieces = [
    { start, end: Math.min(start + operation.firstPiece.after, check.start) },
    { start: check.end, end },
  ];
  return pieces.filter((piece) => piece.end > piece.start);
}

/** The minute, never before `now`, at which this share of a run's cut is done. */
export function minuteOfShare(cut: ToolCut, share: number, now: Minute): Minute {
  const whole = cut.cutting.reduce((sum, piece) => sum + piece.end - piece.start, 0);
  let ahead = Math.floor(whole * share + 1e-9);
  for (const { start, end } of cut.cutting) {
    if (ahead < end - start) return Math.max(now, start + ahead);
    ahead -= end - start;
  }
  return Math.max(now, cut.planned.end);
}
