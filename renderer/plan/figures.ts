import type { PlanView } from '../../core/contract';
import { clockText } from '../../core/time';

/** A number that matters, with its unit and what it is measured against. */
export interface Figure {
  readonly label: string;
  readonly value: string;
  readonly note: string;
  /** Set where the number asks for attention. */
  readonly bad: boolean;
}

/** The four numbers a shop lead looks for before leaving. */
export function figuresOf(view: PlanView): Figure[] {
  return [tonight(view), late(view), rounds(view), morning(view)];
}

function tonight({ plan, report }: PlanView): Figure {
  const label = 'To expect tonight, by odds';
  if (report.tonight === null) return { label, value: 'none', note: 'somebody is always here', bad: false };
  const most = plan.bound === null ? '' : `, no plan above ${plan.bound.tonight.toFixed(1)} h`;
  const note = `${plan.cost.loaded.toFixed(1)} h loaded${most}`;
  return { label, value: `${plan.cost.tonight.toFixed(1)} h`, note, bad: false };
}

function late({ plan, report }: PlanView): Figure {
  const count = report.late.length;
  const least = plan.bound === null ? '' : `, no plan below ${plan.bound.lateness.toFixed(1)}`;
  return {
    label: 'Late',
    value: `${count} ${count === 1 ? 'job' : 'jobs'}`,
    note: count === 0 ? 'all jobs in time' : `${plan.cost.lateness.toFixed(1)} weighted h${least}`,
    bad: count > 0,
  };
}

function rounds({ plan, report }: PlanView): Figure {
  const all = `${report.rounds.length} in all`;
  if (report.tonight === null)
    return { label: 'Rounds', value: String(report.rounds.length), note: 'in all', bad: false };
  const { start } = report.tonight;
  const before = report.rounds.filter((round) => round.start < start).length;
  return { label: `Rounds before ${clockText(plan.clock, start)}`, value: String(before), note: all, bad: false };
}

function morning({ plan, report, shop }: PlanView): Figure {
  const machines = shop.machines.filter((machine) => machine.inUse && machine.kind !== 'bench').length;
  const label =
    report.tonight === null
      ? 'Still cutting in the morning'
      : `Still cutting at ${clockText(plan.clock, report.tonight.end)}`;
  return {
    label,
    value: `${plan.cost.morning} of ${machines}`,
    note: 'machines, when the first person comes',
    bad: false,
  };
}
