import type { Plan, PlannedRun } from '../../core/shop';
import { type CaseJob, HORIZON, type NightCase, NOW, SHIFTS, type Span, TONIGHT } from '../published/exact/night-case';
import { planWith } from '../published/exact/night-plan';

/** The model counts in whole numbers: a weight is worth so many units a slot. */
const UNITS = 100;

interface ModelRun {
  readonly id: string;
  readonly job: CaseJob;
  readonly step: number;
  readonly number: number;
}

/** What `night.mzn` asks for; times in slots from the plan's moment. */
export function nightData(night: NightCase): Record<string, unknown> {
  const runs = runsOf(night);
  const slots = (minutes: number) => minutes / night.slot;
  const price = (weight: number) => Math.round(UNITS * weight);
  const kinds = Object.keys(night.pallets);
  const operations = runs.map(({ job, step }) => job.steps[step]!);
  const checks = runs.map(({ number }, r) => (number === 1 ? operations[r]!.check : null));
  const placeOf = (job: CaseJob, step: number, number: number) =>
    1 + runs.findIndex((run) => run.job === job && run.step === step && run.number === number);
  return {
    horizon: slots(HORIZON - NOW),
    attended: { set: attendedSlots(night) },
    tonightFrom: slots(TONIGHT.from - NOW),
    tonightTo: slots(TONIGHT.to - NOW),
    machines: night.machines.length,
    places: night.machines.map(({ places }) => places),
    inCell: night.machines.map(({ inCell }) => inCell === true),
    closedFrom: night.machines.map(({ closed }) => (closed === undefined ? 0 : slots(closed.from - NOW))),
    closedTo: night.machines.map(({ closed }) => (closed === undefined ? 0 : slots(closed.to - NOW))),
    cellPlaces: night.cellPlaces ?? 0,
    kinds: kinds.length,
    pallets: Object.values(night.pallets),
    jobs: night.jobs.length,
    due: night.jobs.map(({ due }) => slots(due - NOW)),
    latePrice: night.jobs.map(({ weight }) => price(weight * night.weights.lateness)),
    tonightPrice: price(night.weights.tonight),
    finishPrice: price(night.weights.finish),
    runs: runs.length,
    job: runs.map(({ job }) => 1 + night.jobs.indexOf(job)),
    kind: operations.map(({ fixture }) => 1 + kinds.indexOf(fixture)),
    load: operations.map(({ load }) => slots(load)),
    unload: operations.map(({ unload }) => slots(unload)),
    after: checks.map((check) => slots(check?.after ?? 0)),
    check: checks.map((check) => slots(check?.minutes ?? 0)),
    earliest: runs.map(({ job, step }) => (step === 0 ? slots(job.release - NOW) : 0)),
    previous: runs.map(({ job, step, number }) => (step === 0 ? 0 : placeOf(job, step - 1, number))),
    lag: operations.map(({ lag }) => slots(lag)),
    first: runs.map(({ job, step, number }, r) =>
      number > 1 && operations[r]!.check !== null ? placeOf(job, step, 1) : 0,
    ),
    cut: operations.map(({ machines }) =>
      night.machines.map(({ id }) => slots(machines.find(({ machine }) => machine === id)?.cycle ?? 0)),
    ),
  };
}

/** What a cost of the model is in a plan. */
export function costOfModel(night: NightCase, cost: number): number {
  return ((cost / UNITS) * night.slot) / 60;
}

/** The plan that a solution's values stand for; its cost is left for the referee to work out. */
export function planOfSolution(night: NightCase, values: Readonly<Record<string, unknown>>): Plan {
  const runs = runsOf(night);
  const of = <T>(name: string) => values[name] as readonly T[];
  const at = (name: string, r: number) => NOW + night.slot * of<number>(name)[r]!;
  const isLeft = (r: number) => of<boolean>('left')[r]!;
  const attendance = (start: number, length: number) =>
    length === 0 ? null : { person: 'Operator', start, end: start + length };
  const planned = runs.flatMap(({ id, job, step, number }, r): PlannedRun[] => {
    if (isLeft(r)) return [];
    const { load, unload, check } = job.steps[step]!;
    return [
      {
        run: id,
        machine: night.machines[of<number>('machine')[r]! - 1]!.id,
        pallet: null,
        load: attendance(at('on', r), load),
        start: at('start', r),
        end: at('end', r),
        check: number === 1 && check !== null ? attendance(at('checked', r), check.minutes) : null,
        work: null,
        unload: attendance(at('takeOff', r), unload),
      },
    ];
  });
  return planWith(
    night,
    planned,
    runs.filter((_, r) => isLeft(r)).map(({ id }) => id),
  );
}

function runsOf(night: NightCase): ModelRun[] {
  return night.jobs.flatMap((job) =>
    job.steps.flatMap((_, step) =>
      Array.from({ length: job.runs }, (_, i) => ({ id: `${job.id}/${step + 1}/${i + 1}`, job, step, number: i + 1 })),
    ),
  );
}

function attendedSlots({ slot, pause }: NightCase): number[] {
  const day = 24 * 60;
  const within = (at: number, { from, to }: Span) => at >= from && at + slot <= to;
  const isPause = (at: number) => pause !== null && within(at % day, pause);
  return Array.from({ length: (HORIZON - NOW) / slot }, (_, i) => i).filter((i) => {
    const at = NOW + i * slot;
    return SHIFTS.some((shift) => within(at, shift)) && !isPause(at);
  });
}
