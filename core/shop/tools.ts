import { cutMinutes, type RunNeed } from './runs';
import type { Machine, Tool } from './schema';

/** Minutes one run takes from a tool kind. */
export interface ToolNeed {
  readonly tool: Tool;
  readonly minutes: number;
}

/**
 * The tools a run uses on a machine with this cycle. The minutes of the operation are for a full pallet without repeats:
 * a part-filled one takes its share, and the repeats planned for lengthen every tool's cut as they lengthen the run.
 * Tools the shop does not list are left out here; the door refuses them.
 */
export function toolNeeds(run: RunNeed, cycle: number, tools: ReadonlyMap<string, Tool>): ToolNeed[] {
  const planned = cutMinutes(run, cycle);
  return run.operation.tools.flatMap((use) => {
    const tool = tools.get(use.tool);
    return tool === undefined ? [] : [{ tool, minutes: Math.ceil((use.minutes * planned) / cycle) }];
  });
}

/**
 * Minutes of life left in each sister tool of a kind on a machine, in the order in which they follow each other. A kind
 * the magazine does not hold has one empty pocket, to be filled before it can cut. The wheel in use goes no further than
 * its radius does: each dressing uses some, and after the last one it grinds for one more interval.
 */
export function sistersLeft(machine: Machine, tool: Tool): number[] {
  const left = machine.magazine.filter((entry) => entry.tool === tool.id).flatMap((entry) => entry.left);
  if (left.length === 0) return [0];
  const { dressing } = tool;
  if (dressing === null || dressing.usesMm === 0) return left;
  const within = (Math.floor(dressing.leftMm / dressing.usesMm + 1e-9) + 1) * dressing.every;
  return left.map((minutes) => Math.min(minutes, within));
}

/** Minutes of a sister tool that must be left in it after an unattended cut: its life less the share the night may use. */
export function nightReserve(machine: Machine, tool: Tool): number {
  return Math.ceil(tool.life * (1 - machine.nightFraction) - 1e-9);
}

/** Minutes it takes to replace a tool or to dress a wheel by hand: at least one, for somebody has to be there. */
export function actMinutes(tool: Tool, act: 'replace' | 'dress'): number {
  return Math.max(1, act === 'replace' ? tool.replaceMinutes : (tool.dressing?.minutes ?? 0));
}

/** Minutes that all fresh sister tools give one unattended cut; a whole need only one of them. */
export function mostAtNight(machine: Machine, tool: Tool): number {
  const each = Math.max(0, tool.life - nightReserve(machine, tool));
  if (tool.dressing?.by === 'hand') return Math.min(each, tool.dressing.every);
  return tool.finish ? each : each * sistersLeft(machine, tool).length;
}
