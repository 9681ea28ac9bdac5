import {
  cutMinutes,
  type Machine,
  type Plan,
  type PlannedRun,
  type RunNeed,
  runsOf,
  type Shop,
  sistersLeft,
  type Tool,
  toolNeeds,
} from '../shop';
import { expandHours, type Interval, type Minute, type Stretch, stretchesOf, tonightOf } from '../time';
import { keyOf } from './draws';

/** One run that cuts in the stretch. */
export interface QueuedRun {
  readonly run: string;
  readonly key: number;
  readonly need: RunNeed;
  readonly planned: PlannedRun;
  /** Cutting begins no sooner: its load or what comes before it on its parts. */
  readonly notBefore: Minute;
  /** When it began, for one that was cutting before the stretch. */
  readonly begun: Minute | null;
  /** Minutes to cut from its beginning on, repeats left out. */
  readonly cut: number;
  /** Its tools, by place among the machine's kinds, with planned minutes. */
  readonly tools: readonly { readonly kind: number; readonly minutes: number }[];
  /** Minutes planned to be cut inside the stretch. */
  readonly inside: number;
  readonly plannedCut: number;
}

/** One kind of tool as its sister tools are when the stretch begins: minutes the counter gives them, and minutes used. */
export interface ToolState {
  readonly tool: Tool;
  readonly sisters: readonly { readonly key: number; readonly left: number; readonly used: number }[];
}

/** One machine's unattended queue. */
export interface MachineQueue {
  readonly machine: Machine;
  /** Pallets are changed by a changer: the change itself may fail. */
  readonly hasChanger: boolean;
  readonly runs: readonly QueuedRun[];
  readonly tools: readonly ToolState[];
}

export interface NightQueues {
  readonly stretch: Interval | null;
  readonly machines: readonly MachineQueue[];
}

/** Attended and unattended stretches from the day before the plan's origin to its horizon. */
export function stretchesIn(shop: Shop, plan: Plan): Stretch[] {
  const within = { start: -1440, end: plan.horizon };
  const present = shop.people.flatMap((p) => expandHours(plan.clock, within, p.hours, p.exceptions));
  return stretchesOf(present, within);
}

/** The queues that a plan leaves its machines for tonight's unattended stretch, or for another one. */
export function queuesOf(shop: Shop, plan: Plan, stretchGiven?: Interval): NightQueues {
  const tonight = stretchGiven ?? tonightOf(stretchesIn(shop, plan), plan.now);
  if (tonight === null) return { stretch: null, machines: [] };
  const stretch = { start: Math.max(tonight.start, plan.now), end: tonight.end };
  const needs = new Map(runsOf(shop).map((need) => [need.id, need]));
  const tools = new Map(shop.tools.map((tool) => [tool.id, tool]));
  const machines = shop.machines
    .filter((machine) => machine.kind !== 'bench')
    .map((machine) => queueOf(machine, shop, plan, stretch, needs, tools))
    .filter((queue) => queue.runs.length > 0);
  return { stretch, machines };
}

function queueOf(
  machine: Machine,
  shop: Shop,
  plan: Plan,
  stretch: Interval,
  needs: ReadonlyMap<string, RunNeed>,
  tools: ReadonlyMap<string, Tool>,
): MachineQueue {
  const planned = plan.runs
    .filter((run) => run.machine === machine.id && run.end > plan.now)
    .sort((a, b) => a.start - b.start);
  const counter = new Counter(machine, tools);
  const queued = planned.filter((run) => run.end > stretch.start && run.start < stretch.end);
  const first = queued[0]?.start ?? stretch.end;
  const before = [
    ...planned.filter((run) => run.start < first).map((run) => ({ at: run.start, order: 1, happen: () => use(run) })),
    ...plan.care
      .filter((care) => care.machine === machine.id && care.start < stretch.start)
      .map((care) => ({ at: care.start, order: 0, happen: () => counter.attend(care.acts) })),
  ];
  const use = (run: PlannedRun): void => {
    const need = needs.get(run.run);
    if (need !== undefined) for (const { tool, minutes } of needsOn(need, machine, tools)) counter.use(tool, minutes);
  };
  for (const { happen } of before.sort((a, b) => a.at - b.at || a.order - b.order)) happen();
  const floor = new Map(shop.floor.map((entry) => [entry.run, entry.state]));
  const runs = queued.flatMap((run, i): QueuedRun[] => {
    const need = needs.get(run.run);
    if (need === undefined) return [];
    return [queuedRun(run, need, machine, stretch, queued[i - 1], floor.get(run.run) === 'loaded', counter, tools)];
  });
  return { machine, hasChanger: machine.cell !== null || machine.places !== 0, runs, tools: counter.states() };
}

function queuedRun(
  planned: PlannedRun,
  need: RunNeed,
  machine: Machine,
  stretch: Interval,
  previous: PlannedRun | undefined,
  isLoaded: boolean,
  counter: Counter,
  tools: ReadonlyMap<string, Tool>,
): QueuedRun {
  const cycle = need.operation.machines.find((choice) => choice.machine === machine.id)?.cycle;
  const plannedCut = cycle === undefined ? planned.end - planned.start : cutMinutes(need, cycle);
  // After a first-piece check, which needs somebody, the rest of the cut is ahead.
  const from = planned.check?.end ?? planned.start;
  const cut = planned.end - from - need.repeats;
  // One planned to follow at once may follow sooner, if it is loaded; any other waits for what it was planned to wait for.
  const follows = previous !== undefined && previous.end >= planned.start;
  const isReady = isLoaded || (need.operation.load === 0 && need.step === 0 && need.job.release === null);
  const loaded = planned.load?.end ?? (isReady ? stretch.start : planned.start);
  return {
    run: planned.run,
    key: keyOf(planned.run),
    need,
    planned,
    notBefore: follows ? loaded : planned.start,
    begun: from < stretch.start ? from : null,
    cut: Math.max(0, cut),
    tools: needsOn(need, machine, tools).map(({ tool, minutes }) => ({ kind: counter.kindOf(tool), minutes })),
    inside: Math.min(planned.end, stretch.end) - Math.max(from, stretch.start),
    plannedCut,
  };
}

function needsOn(need: RunNeed, machine: Machine, tools: ReadonlyMap<string, Tool>) {
  const cycle = need.operation.machines.find((choice) => choice.machine === machine.id)?.cycle;
  return cycle === undefined ? [] : toolNeeds(need, cycle, tools);
}

/** The machine's own count of tool minutes up to the stretch, as planned. */
class Counter {
  private readonly kinds: { tool: Tool; sisters: { key: number; left: number; used: number }[] }[] = [];

  constructor(
    private readonly machine: Machine,
    private readonly tools: ReadonlyMap<string, Tool>,
  ) {}

  kindOf(tool: Tool): number {
    const known = this.kinds.findIndex((kind) => kind.tool.id === tool.id);
    if (known >= 0) return known;
    const sisters = sistersLeft(this.machine, tool).map((left, s) => ({
      key: keyOf(`${this.machine.id}/${tool.id}/${s}`),
      left,
      used: Math.max(0, tool.life - left),
    }));
    return this.kinds.push({ tool, sisters }) - 1;
  }

  use(tool: Tool, minutes: number): void {
    const { sisters } = this.kinds[this.kindOf(tool)]!;
    if (tool.finish || tool.dressing?.by === 'hand') {
      const one = sisters.find(({ left }) => left >= minutes) ?? sisters[0]!;
      take(one, minutes);
      return;
    }
    let missing = minutes;
    for (const one of sisters) missing -= take(one, Math.min(missing, one.left));
  }

  attend(acts: Plan['care'][number]['acts']): void {
    for (const { tool: id, sister, act } of acts) {
      const tool = this.tools.get(id);
      const one = tool === undefined ? undefined : this.kinds[this.kindOf(tool)]!.sisters[sister];
      if (tool === undefined || one === undefined || act !== 'replace') continue;
      one.left = tool.life;
      one.used = 0;
    }
  }

  states(): ToolState[] {
    return this.kinds;
  }
}

function take(one: { left: number; used: number }, minutes: number): number {
  one.left = Math.max(0, one.left - minutes);
  one.used += minutes;
  return minutes;
}
