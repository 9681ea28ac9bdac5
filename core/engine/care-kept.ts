import { NONE, type Problem, type ToolTable } from '../problem';
import type { Plan } from '../shop';
import { careOfBooking } from './book';
import type { Schedule } from './schedule';
import { SisterTools } from './sister-tools';
import type { Slots } from './slots';
import type { ToolLedger } from './tool-ledger';

interface Act {
  readonly kind: number;
  readonly sister: number;
  readonly isDressing: boolean;
}

/**
 * Follows the tools of a machine through its queue with what a plan has done in each attendance to them, where the ledger
 * would choose anew what is done.
 */
export class CareKept {
  /** The kind that was the first to be short in the queue read last, or NONE. */
  kind = NONE;
  private readonly sisters: readonly SisterTools[];

  constructor(
    private readonly problem: Problem,
    private readonly tools: ToolTable,
    private readonly slots: Slots,
    private readonly schedule: Schedule,
    private readonly ledger: ToolLedger,
    private readonly acts: readonly (readonly Act[])[],
  ) {
    this.sisters = Array.from(tools.tool.keys(), (kind) => new SisterTools(tools, kind));
  }

  /** True if every need in the machine's queue is covered so. */
  holds(machine: number): boolean {
    const { tools, problem, schedule, sisters } = this;
    const { count, run, hasMerged } = this.slots.machines[machine]!;
    this.kind = NONE;
    // Where locks overlap, the bookings do not tell them apart.
    if (hasMerged) return false;
    for (let kind = tools.first[machine]!; kind < tools.first[machine + 1]!; kind++) sisters[kind]!.open();
    for (let i = 0; i < count; i++) {
      const care = careOfBooking(run[i]!);
      if (care !== NONE) this.attend(care);
      else if (schedule.end[run[i]!]! > problem.now && !this.cut(run[i]!)) return false;
    }
    return true;
  }

  private attend(care: number): void {
    for (const { kind, sister, isDressing } of this.acts[care]!) this.sisters[kind]!.see(sister, isDressing);
  }

  private cut(run: number): boolean {
    const { start, items } = this.tools.needs;
    const option = this.schedule.option[run]!;
    const isAlone = this.ledger.isUnattended(run);
    for (let i = start[option]!; i < start[option + 1]!; i += 2) {
      const sisters = this.sisters[items[i]!]!;
      if (sisters.cut(items[i + 1]!, isAlone)) continue;
      this.kind = items[i]!;
      if (this.schedule.isShort[run] === 0) return false;
      sisters.takeWhatThereIs(isAlone);
    }
    return true;
  }
}

/** What the plan does in each attendance to tools, by its place in the plan; acts on tools that no run uses are nothing. */
export function actsOf(problem: Problem, tools: ToolTable, plan: Plan): Act[][] {
  return plan.care.map(({ machine, acts }) => {
    const m = problem.machineIds.indexOf(machine);
    const kinds = Array.from(tools.tool.keys()).slice(tools.first[m], tools.first[m + 1]);
    return acts.flatMap(({ tool, sister, act }) => {
      const kind = kinds.find((k) => problem.shop.tools[tools.tool[k]!]!.id === tool);
      return kind === undefined ? [] : [{ kind, sister, isDressing: act === 'dress' }];
    });
  });
}
