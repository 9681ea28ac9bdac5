import { actMinutes, mostAtNight, nightReserve, type RunNeed, type Shop, sistersLeft, toolNeeds } from '../shop';
import { NONE, type ToolTable } from './problem';
import { flatRows, indexOf } from './rows';

/** No limit, in minutes. */
const ENDLESS = 0x3fffffff;

/** Runs with the machine of each of their options, in the order of the options. */
export interface OptionOf {
  readonly run: RunNeed;
  readonly machine: number;
  readonly cycle: number;
}

/** Null where no operation names a tool: then nothing has to be counted. */
export function toolsOf(shop: Shop, options: readonly OptionOf[], crewOf: (machine: number) => number) {
  if (options.every(({ run }) => run.operation.tools.length === 0)) return null;
  const tools = new Map(shop.tools.map((tool) => [tool.id, tool]));
  const toolIndex = indexOf(shop.tools);
  const used: Map<string, number>[] = shop.machines.map(() => new Map());
  const needed = options.map(({ run, machine, cycle }) => {
    if (shop.machines[machine]!.kind === 'bench') return [];
    const needs = toolNeeds(run, cycle, tools);
    for (const { tool } of needs) used[machine]!.set(tool.id, NONE);
    return needs;
  });
  const kinds = shop.machines.flatMap((machine, m) =>
    [...used[m]!.keys()].map((id) => ({ machine, m, tool: tools.get(id)! })),
  );
  for (const [k, { m, tool }] of kinds.entries()) used[m]!.set(tool.id, k);
  const column = (value: (kind: (typeof kinds)[number]) => number) => Int32Array.from(kinds, value);
  const byHand = ({ tool }: (typeof kinds)[number]) => (tool.dressing?.by === 'hand' ? tool.dressing : null);
  return {
    first: flatRows(used.map((own) => [...own.keys()].map(() => 0))).start,
    tool: column(({ tool }) => toolIndex.get(tool.id)!),
    life: column(({ tool }) => tool.life),
    reserve: column(({ machine, tool }) => nightReserve(machine, tool)),
    replaceMinutes: column(({ tool }) => actMinutes(tool, 'replace')),
    isWhole: Uint8Array.from(kinds, (kind) => Number(kind.tool.finish || byHand(kind) !== null)),
    dressEvery: column((kind) => byHand(kind)?.every ?? ENDLESS),
    dressMinutes: column(({ tool }) => actMinutes(tool, 'dress')),
    left: flatRows(kinds.map(({ machine, tool }) => sistersLeft(machine, tool))),
    needs: flatRows(
      needed.map((needs, o) =>
        needs.flatMap(({ tool, minutes }) => [used[options[o]!.machine]!.get(tool.id)!, minutes]),
      ),
    ),
    isDayOnly: Uint8Array.from(needed, (needs, o) => {
      const machine = shop.machines[options[o]!.machine]!;
      return Number(needs.some(({ tool, minutes }) => minutes > mostAtNight(machine, tool)));
    }),
    crew: Int32Array.from(shop.machines, (_, m) => crewOf(m)),
  } satisfies ToolTable;
}
