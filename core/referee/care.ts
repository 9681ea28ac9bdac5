import { actMinutes, type Machine, sistersLeft, type Tool, type ToolAct, type ToolCare } from '../shop';
import { lengthText } from '../time';
import type { Context } from './context';
import { machineTimeOf } from './machines';
import type { Occupation } from './occupation';
import { clip, covers, groupBy, isEmpty, overlapping } from './sweep';
import { type Finding, finding } from './verdict';
import { at } from './words';

/** Rules 1, 8 and 10 for attendances to tools: the machine stands meanwhile, and they are as long as what is done. */
export function checkCare(ctx: Context, occupations: readonly Occupation[]): Finding[] {
  if (ctx.plan.care.length === 0) return [];
  return [...ctx.plan.care.flatMap((care) => checkOne(ctx, care)), ...checkOverlaps(ctx, occupations)];
}

function checkOne(ctx: Context, care: ToolCare): Finding[] {
  const machine = ctx.machines.get(care.machine);
  const who = `${care.person} sees to the tools of ${care.machine}`;
  const wrong = (rule: number, code: string, say: string): Finding => finding(rule, code, [], say);
  if (machine === undefined) return [wrong(8, 'care-machine', `${who}, which the shop does not have.`)];
  if (machine.kind === 'bench') return [wrong(8, 'care-machine', `${who}, a bench, which has none.`)];
  const found: Finding[] = [];
  if (care.start < ctx.now || care.end > ctx.horizon) {
    const say = `${who} from ${at(ctx.clock, care.start)} to ${at(ctx.clock, care.end)}, outside the time planned.`;
    found.push(wrong(10, 'care-outside', say));
  }
  const span = clip(care, ctx.ahead);
  if (!isEmpty(span) && !covers(machineTimeOf(ctx, machine).open, span)) {
    found.push(wrong(1, 'care-closed', `${who} at ${at(ctx.clock, care.start)}, while it is planned off.`));
  }
  const tools = new Map(ctx.shop.tools.map((tool) => [tool.id, tool]));
  const minutes = care.acts.map((act) => minutesOf(machine, tools.get(act.tool), act));
  if (minutes.includes(null)) {
    const unknown = care.acts.filter((_, i) => minutes[i] === null).map(({ tool, sister }) => `${tool} ${sister + 1}`);
    return [...found, wrong(8, 'care-act', `${who} and does what cannot be done to ${unknown.join(', ')}.`)];
  }
  const needed = minutes.reduce<number>((sum, each) => sum + (each ?? 0), 0);
  if (care.end - care.start === needed) return found;
  const say = `${who} at ${at(ctx.clock, care.start)} for ${lengthText(care.end - care.start)}; it takes ${lengthText(needed)}.`;
  return [...found, wrong(8, 'care-length', say)];
}

/** Null for what cannot be done: an unknown tool, a sister tool that is not there, dressing what no hand dresses. */
function minutesOf(machine: Machine, tool: Tool | undefined, { sister, act }: ToolAct): number | null {
  if (tool === undefined || sister >= sistersLeft(machine, tool).length) return null;
  return act === 'replace' || tool.dressing?.by === 'hand' ? actMinutes(tool, act) : null;
}

function checkOverlaps(ctx: Context, occupations: readonly Occupation[]): Finding[] {
  const busy = occupations.map(({ run, machine, busy: { start, end } }) => ({ run, machine, start, end }));
  const cares = ctx.plan.care.map(({ machine, start, end }) => ({ run: null, machine, start, end }));
  return [...groupBy([...busy, ...cares], (span) => span.machine)].flatMap(([machine, group]) =>
    overlapping(group)
      .filter(([a, b]) => a.run === null || b.run === null)
      .map(([a, b]) => {
        const name = (run: string | null) => run ?? 'an attendance to its tools';
        const say = `${machine} is busy with ${name(a.run)} until ${at(ctx.clock, a.end)} and with ${name(b.run)} from ${at(ctx.clock, b.start)}.`;
        return finding(
          1,
          'care-overlap',
          [a.run, b.run].filter((run) => run !== null),
          say,
        );
      }),
  );
}
