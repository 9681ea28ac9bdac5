import { mostAtNight, nightReserve, type Plan, type Shop, sistersLeft, type Tool, type ToolAct } from '../shop';
import type { Interval } from '../time';
import { type ToolQueue, toolQueuesOf } from './ledger-queue';
import { type CoursePoint, type Replay, replay, type Shortage, type SpentTool } from './ledger-replay';

/** A planned replacement or dressing of one tool. */
export interface PlannedAct extends Interval {
  readonly person: string;
  readonly sister: number;
  readonly act: ToolAct['act'];
}

/** What grinding and dressing make of one wheel, or of the wheels that follow each other in one place. */
export interface WheelLedger {
  readonly sister: number;
  /** Dressings in the cycle, counted when the wheel is to grind on. */
  readonly byMachine: number;
  /** Dressings by hand, as planned. */
  readonly byHand: number;
  /** Radius used by these dressings, millimetres. */
  readonly usedMm: number;
  /** Radius left after them, below 0 if there is too little; null where dressing uses none or the wheel is replaced. */
  readonly leftMm: number | null;
}

/** One tool kind in one machine's magazine. All amounts are minutes of tool life. */
export interface KindLedger {
  readonly machine: string;
  readonly tool: string;
  /** What the runs need that cut from the plan's moment on, and those of them that cut in tonight's stretch; whole runs. */
  readonly needed: { readonly queue: number; readonly tonight: number };
  /** What is left at the plan's moment: by sister tool, and what of that attended and unattended runs may use. */
  readonly left: { readonly sisters: readonly number[]; readonly day: number; readonly night: number };
  /** How the sister tools are used up, with the planned care. */
  readonly spent: readonly SpentTool[];
  /** One for each sister tool, if the kind is dressed. */
  readonly wheels: readonly WheelLedger[];
  readonly care: readonly PlannedAct[];
  /** Every run that finds too little although all planned care is done; none in a plan that keeps rule 8. */
  readonly shortages: readonly Shortage[];
  /** What the night may use of all sister tools, over the plan, with the planned care; and of as many fresh ones. */
  readonly course: readonly CoursePoint[];
  readonly fresh: number;
  /** The first run that would find too little if nobody replaced or dressed anything from the plan's moment on. */
  readonly withoutCare: Shortage | null;
}

/** What a run leaves of the tool kind that is nearest its end. */
export interface ToolLeft {
  readonly tool: string;
  /** Minutes that a cut by the same hours, attended or not, could still take from all its sister tools. */
  readonly minutes: number;
  /** The same as lives of one tool. */
  readonly lives: number;
}

export interface ToolLedger {
  /** Every kind held in a magazine, used there or cared for, machine by machine in the shop's order. */
  readonly kinds: readonly KindLedger[];
  /** By run from the plan's moment on that uses a tool: the kind with the least left after it, in lives. */
  readonly minutesLeftAfter: Readonly<Record<string, ToolLeft>>;
}

/** What the plan makes of the tools in each machine, by rule 8 of what a legal plan is. */
export function toolLedger(shop: Shop, plan: Plan): ToolLedger {
  const { now, machines } = toolQueuesOf(shop, plan);
  const least = new Map<string, ToolLeft>();
  const kinds = machines.flatMap((queue) =>
    shop.tools
      .filter((tool) => isThere(queue, tool))
      .map((tool) => {
        const planned = replay(queue, tool, now, () => true);
        for (const [run, minutes] of planned.usableAfter) {
          const lives = minutes / tool.life;
          if (lives < (least.get(run)?.lives ?? Number.POSITIVE_INFINITY))
            least.set(run, { tool: tool.id, minutes, lives });
        }
        return kindLedger(
          queue,
          tool,
          planned,
          replay(queue, tool, now, () => false),
        );
      }),
  );
  return { kinds, minutesLeftAfter: Object.fromEntries(least) };
}

function isThere({ machine, cuts, care }: ToolQueue, tool: Tool): boolean {
  return (
    machine.magazine.some((entry) => entry.tool === tool.id) ||
    cuts.some((cut) => cut.needs.some((need) => need.tool.id === tool.id)) ||
    care.some((one) => one.acts.some((act) => act.tool === tool.id))
  );
}

function kindLedger(queue: ToolQueue, tool: Tool, planned: Replay, without: Replay): KindLedger {
  const { machine, cuts, care } = queue;
  const sum = (some: ToolQueue['cuts']): number =>
    some
      .flatMap((cut) => cut.needs)
      .filter((need) => need.tool.id === tool.id)
      .reduce((minutes, need) => minutes + need.minutes, 0);
  const sisters = sistersLeft(machine, tool);
  const reserve = nightReserve(machine, tool);
  return {
    machine: machine.id,
    tool: tool.id,
    needed: { queue: sum(cuts), tonight: sum(cuts.filter((cut) => cut.tonight)) },
    left: {
      sisters,
      day: sisters.reduce((minutes, left) => minutes + left, 0),
      night: sisters.reduce((minutes, left) => minutes + Math.max(0, left - reserve), 0),
    },
    spent: planned.spent,
    wheels: wheelLedgers(tool, planned),
    care: care.flatMap(({ person, start, end, acts }) =>
      acts
        .filter((act) => act.tool === tool.id)
        .map(({ sister, act }): PlannedAct => ({ person, start, end, sister, act })),
    ),
    shortages: planned.shortages,
    course: planned.course,
    fresh: mostAtNight(machine, tool),
    withoutCare: without.shortages[0] ?? null,
  };
}

function wheelLedgers({ dressing }: Tool, { sisters }: Replay): WheelLedger[] {
  if (dressing === null) return [];
  const { usesMm, leftMm } = dressing;
  return sisters.tended.map(({ byMachine, byHand, replaced }, sister) => {
    const usedMm = millimetres((byMachine + byHand) * usesMm);
    const isKnown = !replaced && usesMm > 0;
    return { sister, byMachine, byHand, usedMm, leftMm: isKnown ? millimetres(leftMm - usedMm) : null };
  });
}

/** Free of the rounding of sums such as 3 x 0.1; no wheel is measured finer than a micrometre. */
function millimetres(length: number): number {
  return Math.round(length * 1e6) / 1e6;
}
