import type { CopyView, FigureKey, PlanComparison, PlanSummary } from '../../../core/contract';
import { planView } from '../support/plan-view';

/** Own figures, made by hand: what differs is given, all else is the same in both plans. */
const SAME: Readonly<Record<FigureKey, number>> = {
  tonight: 20,
  loaded: 22,
  lateness: 5,
  lateJobs: 2,
  rounds: 14,
  extraHours: 0,
  morning: 3,
  finish: 40,
  total: 9,
};

const NIGHT = { start: '2026-11-25T22:30', end: '2026-11-26T06:00' };

export function comparison(
  changes: Partial<Record<FigureKey, readonly [before: number, after: number]>> = {},
  rest: Partial<PlanComparison> = {},
): PlanComparison {
  return {
    moved: [],
    appeared: [],
    gone: [],
    jobs: { added: [], removed: [] },
    late: [],
    nights: { before: NIGHT, after: NIGHT },
    dry: [],
    figures: (Object.keys(SAME) as FigureKey[]).map((key) => {
      const [before, after] = changes[key] ?? [SAME[key], SAME[key]];
      return { key, before, after };
    }),
    displaced: { tonight: [], week: [] },
    ...rest,
  };
}

export function summary(id: number, changes: Partial<PlanSummary> = {}): PlanSummary {
  const { cost } = planView().plan;
  return { id, made: '2026-11-25T15:02', name: '', cost, released: false, current: false, ...changes };
}

export function copyView(id: string, changes: Partial<CopyView> = {}): CopyView {
  const plan = { ...summary(1, { current: true }), outdated: false };
  return { id, name: `What-if ${id}`, made: '2026-11-25T15:10', differences: [], plan, planning: false, ...changes };
}
