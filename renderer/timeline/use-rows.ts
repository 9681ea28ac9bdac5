import { useMemo, useState } from 'react';
import { modelOf, type RowsBy, type TimelineModel, withRows } from './model';
import type { PlanIndex } from './plan-index';
import type { Ghost } from './rows/ghosts';
import { type ToolLine, withTools } from './rows/tool-rows';

interface Rows {
  readonly model: TimelineModel;
  /** Machines whose tools can be shown beneath them. */
  readonly withTools: ReadonlySet<string>;
  readonly open: ReadonlySet<string>;
  toggle(machine: string): void;
}

const NO_MACHINES: ReadonlySet<string> = new Set();

/** The plan in rows for what is asked, with the tools of opened machines beneath them. */
export function useRows(
  index: PlanIndex,
  by: RowsBy,
  ghosts: readonly Ghost[] | undefined,
  tools: ((machine: string) => readonly ToolLine[]) | undefined,
): Rows {
  const [open, setOpen] = useState<ReadonlySet<string>>(NO_MACHINES);
  const base = useMemo(() => modelOf(index, by, ghosts), [index, by, ghosts]);
  const model = useMemo(
    () => (tools === undefined || open.size === 0 ? base : withRows(base, withTools(base.rows, open, tools))),
    [base, open, tools],
  );
  const able = useMemo(() => {
    if (tools === undefined) return NO_MACHINES;
    const machines = base.rows.flatMap(({ machine }) => (machine === null ? [] : [machine]));
    return new Set(machines.filter((machine) => tools(machine).length > 0));
  }, [base, tools]);
  const toggle = useMemo(
    () => (machine: string) =>
      setOpen((before) => {
        const after = new Set(before);
        if (!after.delete(machine)) after.add(machine);
        return after;
      }),
    [],
  );
  return { model, withTools: able, open, toggle };
}
