import { type Machine, nightReserve, sistersLeft, type Tool, type ToolCare, toolNeeds } from '../shop';
import { type Interval, lengthText } from '../time';
import type { Context } from './context';
import type { Stay } from './stay';
import { groupBy, minutesInside } from './sweep';
import { type Finding, finding } from './verdict';
import { at } from './words';

/** Rule 8: on each machine the sister tools last through the queue, given what is replaced and dressed on the way. */
export function checkTools(ctx: Context, unattended: readonly Interval[]): Finding[] {
  const users = ctx.stays.filter((stay) => stay.need.operation.tools.length > 0 && stay.planned.end > ctx.now);
  if (users.length === 0) return [];
  const tools = new Map(ctx.shop.tools.map((tool) => [tool.id, tool]));
  const cares = groupBy(ctx.plan.care, (care) => care.machine);
  return [...groupBy(users, (stay) => stay.planned.machine)].flatMap(([id, stays]) => {
    const machine = ctx.machines.get(id);
    if (machine === undefined || machine.kind === 'bench') return [];
    return new Queue(ctx, machine, tools, unattended).read(stays, cares.get(id) ?? []);
  });
}

/** One sister tool: minutes of life left, and minutes ground since it was last dressed. */
interface Sister {
  left: number;
  ground: number;
}

class Queue {
  private readonly pockets = new Map<string, Sister[]>();

  constructor(
    private readonly ctx: Context,
    private readonly machine: Machine,
    private readonly tools: ReadonlyMap<string, Tool>,
    private readonly unattended: readonly Interval[],
  ) {}

  read(stays: readonly Stay[], cares: readonly ToolCare[]): Finding[] {
    const events = [
      ...cares.map((care) => ({ at: care.start, order: 0, happen: () => this.attend(care) })),
      ...stays.map((stay) => ({ at: stay.planned.start, order: 1, happen: () => this.cut(stay) })),
    ];
    return events.sort((a, b) => a.at - b.at || a.order - b.order).flatMap(({ happen }) => happen());
  }

  private sistersOf(tool: Tool): Sister[] {
    const known = this.pockets.get(tool.id);
    if (known !== undefined) return known;
    const fresh = sistersLeft(this.machine, tool).map((left) => ({ left, ground: 0 }));
    this.pockets.set(tool.id, fresh);
    return fresh;
  }

  private attend(care: ToolCare): Finding[] {
    for (const { tool: id, sister, act } of care.acts) {
      const tool = this.tools.get(id);
      const one = tool === undefined ? undefined : this.sistersOf(tool)[sister];
      if (tool === undefined || one === undefined) continue;
      if (act === 'replace') one.left = tool.life;
      one.ground = 0;
    }
    return [];
  }

  private cut(stay: Stay): Finding[] {
    const { ctx, machine } = this;
    const { run, start, end } = stay.planned;
    const cycle = stay.need.operation.machines.find((choice) => choice.machine === machine.id)?.cycle;
    // On a machine that is none of the operation's nobody knows what it needs.
    if (cycle === undefined) return [];
    const isAlone = minutesInside(this.unattended, { start: Math.max(start, ctx.now), end }) > 0;
    return toolNeeds(stay.need, cycle, this.tools).flatMap(({ tool, minutes }) => {
      const isCovered = isWhole(tool)
        ? this.takeWhole(tool, minutes, isAlone)
        : this.takeInTurn(tool, minutes, isAlone);
      if (isCovered) return [];
      const from = isWhole(tool) ? ' from one tool' : '';
      const most = isWhole(tool) ? 'no tool there has' : 'the tools there have not';
      const say = `Run ${run} needs ${lengthText(minutes)} of ${tool.id}${from} on ${machine.id} from ${at(ctx.clock, start)}, and ${most} as much that it may use${isAlone ? ' with nobody there' : ''}.`;
      return [finding(8, 'tool-short', [run], say, 'held')];
    });
  }

  private reserve(tool: Tool, isAlone: boolean): number {
    return isAlone ? nightReserve(this.machine, tool) : 0;
  }

  /** A whole need that no tool has takes nothing. */
  private takeWhole(tool: Tool, minutes: number, isAlone: boolean): boolean {
    const every = tool.dressing?.by === 'hand' ? tool.dressing.every : Number.POSITIVE_INFINITY;
    const one = this.sistersOf(tool).find(
      ({ left, ground }) => left - minutes >= this.reserve(tool, isAlone) && ground + minutes <= every,
    );
    if (one === undefined) return false;
    one.left -= minutes;
    one.ground += minutes;
    return true;
  }

  private takeInTurn(tool: Tool, minutes: number, isAlone: boolean): boolean {
    const reserve = this.reserve(tool, isAlone);
    const usable = this.sistersOf(tool).filter(({ left }) => left > reserve);
    // One that lacks it whole takes what there is only if it must be cut; either way the rest of the queue has less.
    let missing = minutes;
    for (const one of usable) {
      const taken = Math.min(missing, one.left - reserve);
      one.left -= taken;
      missing -= taken;
    }
    return missing === 0;
  }
}

/** Taken from one tool: two halves of a finish leave a mark, and a wheel is dressed by its own minutes. */
function isWhole(tool: Tool): boolean {
  return tool.finish || tool.dressing?.by === 'hand';
}
