import type { KindLedger } from '../../core/contract';
import type { Shop } from '../../core/shop';
import type { ToolLine } from '../timeline';

/** The ledger of a plan as lines beneath the machines: every kind that the plan uses or cares for. */
export function toolLinesOf(shop: Shop, kinds: readonly KindLedger[]): (machine: string) => readonly ToolLine[] {
  const names = new Map(shop.tools.map(({ id, name }) => [id, name === '' ? id : name]));
  const lines = new Map<string, ToolLine[]>();
  for (const { machine, tool, needed, care, course, fresh, shortages } of kinds) {
    if (needed.queue === 0 && care.length === 0) continue;
    const line: ToolLine = {
      tool,
      name: names.get(tool) ?? tool,
      limit: fresh,
      points: course.map(({ minute, left }) => ({ at: minute, left })),
      replaced: care.filter(({ act }) => act === 'replace').map(({ end }) => end),
      short: shortages.length > 0,
    };
    lines.set(machine, [...(lines.get(machine) ?? []), line]);
  }
  return (machine) => lines.get(machine) ?? [];
}
