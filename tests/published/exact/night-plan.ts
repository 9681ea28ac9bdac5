import type { Plan, PlannedRun } from '../../../core/shop';
import { NO_COST } from '../../support/no-cost';
import { HORIZON, type NightCase, NOW } from './night-case';
import type { Event, ExactRun } from './night-program';

/** The plan that values of the exact model's columns stand for; its cost is left for the referee to work out. */
export function planOf(night: NightCase, runs: readonly ExactRun[], values: Float64Array): Plan {
  const isSet = (column: number) => values[column]! > 0.5;
  const planned = runs.filter((run) => !isSet(run.left)).map((run) => plannedRun(run, isSet));
  return planWith(
    night,
    planned,
    runs.filter((run) => isSet(run.left)).map(({ id }) => id),
  );
}

/** A plan of runs that have no pallets yet, and of those left out; its cost is left for the referee to work out. */
export function planWith(night: NightCase, planned: readonly PlannedRun[], left: readonly string[]): Plan {
  return {
    format: 'nightload-plan',
    version: 1,
    shop: night.name,
    clock: { zone: 'UTC', origin: Date.UTC(2026, 2, 3) },
    now: NOW,
    horizon: HORIZON,
    runs: onPallets(night, planned),
    care: [],
    left: left.map((run) => ({ run, why: 'left out' })),
    conflicts: [],
    cost: NO_COST,
    bound: null,
    search: { seed: 0, steps: 0, seconds: 0, ending: 'limit' },
  };
}

function plannedRun(run: ExactRun, isSet: (column: number) => boolean): PlannedRun {
  const option = run.options.find(({ start }) => start.some(({ column }) => isSet(column)))!;
  const { load, unload, check } = run.job.steps[run.step]!;
  const when = (events: readonly Event[]) => events.find(({ column }) => isSet(column))?.at;
  const attendance = (at: number | undefined, length: number) =>
    at === undefined ? null : { person: 'Operator', start: at, end: at + length };
  return {
    run: run.id,
    machine: option.machine,
    pallet: null,
    load: attendance(when(option.loading), load),
    start: when(option.start)!,
    end: when(option.end)!,
    check: attendance(when(option.checked), check?.minutes ?? 0),
    work: null,
    unload: attendance(when(option.unloading), unload),
  };
}

/** Each run, in the order in which they are on, takes the first pallet of its fixture kind that is back. */
function onPallets(night: NightCase, planned: readonly PlannedRun[]): PlannedRun[] {
  const backAt = new Map(
    Object.entries(night.pallets).flatMap(([fixture, count]) =>
      Array.from({ length: count }, (_, i) => [`${fixture}-${i + 1}`, NOW] as const),
    ),
  );
  const on = (run: PlannedRun) => run.load?.start ?? run.start;
  return planned
    .toSorted((a, b) => on(a) - on(b))
    .map((run) => {
      const [id, step] = run.run.split('/');
      const { fixture } = night.jobs.find((job) => job.id === id)!.steps[Number(step) - 1]!;
      const pallet =
        [...backAt.keys()].find((id) => id.startsWith(`${fixture}-`) && backAt.get(id)! <= on(run)) ?? null;
      if (pallet !== null) backAt.set(pallet, run.unload?.end ?? run.end);
      return { ...run, pallet };
    });
}
