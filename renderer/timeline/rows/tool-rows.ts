import type { Minute } from '../../../core/time';
import { type Row, rowOf } from './row';

/** What becomes of one kind of tool in the magazine of a machine over the plan. */
export interface ToolLine {
  readonly tool: string;
  readonly name: string;
  /** Minutes the night may use. */
  readonly limit: number;
  /** Minutes left, in order of time; between two points they change evenly, and two at one minute are a step. */
  readonly points: readonly { readonly at: Minute; readonly left: number }[];
  /** When a tool is replaced. */
  readonly replaced: readonly Minute[];
  /** True if it does not last for what is planned. */
  readonly short: boolean;
}

/** The rows with one for each tool beneath the machines that are opened. */
export function withTools(
  rows: readonly Row[],
  open: ReadonlySet<string>,
  tools: (machine: string) => readonly ToolLine[],
): Row[] {
  return rows.flatMap((row) => {
    if (row.machine === null || !open.has(row.machine)) return [row];
    const { machine } = row;
    return [row, ...tools(machine).map((line) => toolRow(machine, line))];
  });
}

function toolRow(machine: string, line: ToolLine): Row {
  const words = leftText(line);
  return rowOf({
    key: `tool ${line.tool} of ${machine}`,
    size: 'line',
    head: {
      ...{ name: line.tool, aside: line.name === line.tool ? '' : line.name, below: words },
      ...{ bad: line.short ? 'short' : null, kind: null },
    },
    curve: { ...line, ats: line.points.map(({ at }) => at), words },
  });
}

/** `38 of 120 min left`. */
function leftText({ points, limit, short }: ToolLine): string {
  const left = Math.round(points.at(-1)?.left ?? limit);
  if (left < 0) return `${-left} min too few`;
  return `${left} of ${Math.round(limit)} min left${short ? ', too few' : ''}`;
}
