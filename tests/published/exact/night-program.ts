import { LinearProgramBuilder, type LinearSolution, solveLinear } from '../../../core/linear';
import { type CaseJob, type CaseStep, HORIZON, type NightCase, NOW, SHIFTS, type Span, TONIGHT } from './night-case';

/**
 * An exact model of a small night, written from the rules of a legal plan and sharing nothing with the engine: an
 * integer program over time slots, solved to optimality by HiGHS.
 *
 * Beginning everything on a slot loses nothing. Fix, for any legal plan, in which order things follow each other on
 * machines, hands, pallets and places, and on which side of each shift's, closure's, due time's and tonight's ends each
 * lies. What is left to choose, the times, is bound by differences of two times and by single times only, all limits
 * being multiples of the slot, and the cost is linear in them: such a program has an optimum at a corner, and its
 * corners are multiples of the slot (its matrix is totally unimodular).
 */
export class NightProgram {
  readonly runs: readonly ExactRun[];
  private readonly builder = new LinearProgramBuilder('minimise');
  private readonly slots: readonly number[];

  constructor(private readonly night: NightCase) {
    const count = (HORIZON - NOW) / night.slot;
    this.slots = Array.from({ length: count }, (_, i) => NOW + i * night.slot);
    this.runs = night.jobs.flatMap((job) =>
      job.steps.flatMap((_, step) => Array.from({ length: job.runs }, (_, i) => this.run(job, step, i + 1))),
    );
    this.keepOrder();
    this.limit(this.machineUse(), 1);
    this.limit(this.hands(), 1);
    this.limitPlaces();
    this.limitPallets();
    this.priceJobs();
  }

  /** To the optimum, or to what is known after so many seconds. */
  async solve(seconds?: number): Promise<LinearSolution> {
    return solveLinear(this.builder.build(), { solver: 'highs', ...(seconds === undefined ? {} : { seconds }) });
  }

  private run(job: CaseJob, step: number, number: number): ExactRun {
    const { builder } = this;
    const operation = job.steps[step]!;
    const left = builder.column(0, { upper: 1, integer: true });
    const check = number === 1 ? operation.check : null;
    const options = operation.machines.map(({ machine, cycle }) => this.option(job, step, check, machine, cycle));
    const once = builder.equal(1);
    builder.term(once, left, 1);
    for (const option of options) for (const { column } of option.start) builder.term(once, column, 1);
    const shortest = Math.min(...operation.machines.map((m) => m.cycle));
    return { id: `${job.id}/${step + 1}/${number}`, job, step, number, left, shortest, options };
  }

  private option(job: CaseJob, step: number, check: CaseStep['check'], id: string, cut: number): ExactOption {
    const { load, unload } = job.steps[step]!;
    const machine = this.night.machines.find((m) => m.id === id)!;
    const isTable = machine.places === 0 && machine.inCell !== true;
    const isOpen = (from: number, length: number) =>
      machine.closed === undefined || from + length <= machine.closed.from || from >= machine.closed.to;
    const byHand = (at: number, length: number) => this.isAttended(at, length) && (!isTable || isOpen(at, length));
    const earliest = step === 0 ? job.release : NOW;
    const before = check === null ? cut : Math.min(check.after, cut);

    const starts = (at: number) => (load > 0 || at >= earliest) && at + cut <= HORIZON && isOpen(at, before);
    const gain = (at: number) => -this.gain({ from: at, to: at + before });
    // On a table the cut begins the moment it is loaded: one column for both.
    const loading =
      load === 0
        ? []
        : isTable
          ? this.events(
              (at) => at >= earliest && byHand(at, load) && starts(at + load),
              (at) => gain(at + load),
            )
          : this.events((at) => at >= earliest && byHand(at, load));
    const start = isTable && load > 0 ? later(loading, load) : this.events(starts, gain);
    const rest = cut - before;
    const checked =
      check === null
        ? []
        : this.events(
            (at) =>
              this.isAttended(at, check.minutes) &&
              isOpen(at, check.minutes + rest) &&
              at + check.minutes + rest <= HORIZON,
            (at) => -this.gain({ from: at + check.minutes, to: at + check.minutes + rest }),
          );
    const end = check === null ? later(start, cut) : later(checked, check.minutes + rest);
    const unloading = unload === 0 ? [] : this.events((at) => byHand(at, unload));
    const off = unload === 0 ? end : later(unloading, unload);
    const on = load === 0 ? start : loading;

    const option = { machine: id, isTable, cut, before, on, loading, start, checked, end, unloading, off };
    for (const events of [loading, checked, unloading]) if (events.length > 0) this.asMany(start, events);
    if (!isTable) this.follow(loading, load, start);
    this.follow(start, before, checked);
    this.follow(end, 0, unloading);
    return option;
  }

  /** One column for each slot at which it may happen. */
  private events(may: (at: number) => boolean, cost: (at: number) => number = () => 0): Event[] {
    return this.slots.filter(may).map((at) => ({ at, column: this.builder.column(cost(at), UP_TO_ONE) }));
  }

  private isAttended(at: number, length: number): boolean {
    const { pause } = this.night;
    const inShift = SHIFTS.some(({ from, to }) => at >= from && at + length <= to);
    const inPause = pause !== null && [0, DAY].some((day) => at < pause.to + day && at + length > pause.from + day);
    return inShift && !inPause;
  }

  private gain(cut: Span): number {
    const minutes = Math.min(cut.to, TONIGHT.to) - Math.max(cut.from, TONIGHT.from);
    return (this.night.weights.tonight * Math.max(0, minutes)) / 60;
  }

  private asMany(a: readonly Event[], b: readonly Event[]): void {
    const row = this.builder.equal(0);
    for (const { column } of a) this.builder.term(row, column, 1);
    for (const { column } of b) this.builder.term(row, column, -1);
  }

  /** `second` comes `delay` or more after `first`: by any moment no more of it has come than of `first` by then. */
  private follow(first: readonly Event[], delay: number, second: readonly Event[]): void {
    if (first.length === 0 || second.length === 0) return;
    for (const moment of new Set(second.map((event) => event.at))) {
      const row = this.builder.atMost(0);
      for (const { at, column } of second) if (at <= moment) this.builder.term(row, column, 1);
      for (const { at, column } of first) if (at + delay <= moment) this.builder.term(row, column, -1);
    }
  }

  /** Steps of a route follow each other, and a checked operation goes on after its check. */
  private keepOrder(): void {
    for (const run of this.runs) {
      const operation = run.job.steps[run.step]!;
      const ofJob = this.runs.filter((other) => other.job === run.job);
      const previous = ofJob.find((other) => other.step === run.step - 1 && other.number === run.number);
      if (previous !== undefined) this.follow(all(previous, 'off'), operation.lag, all(run, 'on'));
      if (operation.check === null || run.number === 1) continue;
      const first = ofJob.find((other) => other.step === run.step && other.number === 1)!;
      this.follow(all(first, 'checked'), operation.check.minutes, all(run, 'start'));
    }
  }

  private machineUse(): Use[][] {
    return this.night.machines.map(({ id }) =>
      this.optionsOn(id).map(({ isTable, on, start, end, off }) =>
        isTable ? { from: on, to: off } : { from: start, to: end },
      ),
    );
  }

  private hands(): Use[][] {
    return [
      this.runs.flatMap((run) => {
        const { load, unload, check } = run.job.steps[run.step]!;
        return run.options.flatMap(({ loading, checked, unloading }) => [
          { from: loading, to: later(loading, load) },
          { from: checked, to: later(checked, check?.minutes ?? 0) },
          { from: unloading, to: later(unloading, unload) },
        ]);
      }),
    ];
  }

  private limitPlaces(): void {
    const { machines, cellPlaces } = this.night;
    for (const { id, places, inCell } of machines) {
      if (places > 0 && inCell !== true) this.limit([this.stays(this.optionsOn(id))], places);
    }
    const cell = machines.filter((m) => m.inCell === true).flatMap((m) => this.optionsOn(m.id));
    if (cellPlaces !== null) this.limit([this.stays(cell)], cellPlaces);
  }

  /** Pallets of one kind fit the same machines, so that their number is all that counts. */
  private limitPallets(): void {
    for (const [fixture, count] of Object.entries(this.night.pallets)) {
      const runs = this.runs.filter((run) => run.job.steps[run.step]!.fixture === fixture);
      this.limit([this.stays(runs.flatMap((run) => run.options))], count);
    }
  }

  private stays(options: readonly ExactOption[]): Use[] {
    return options.map(({ on, off }) => ({ from: on, to: off }));
  }

  private optionsOn(machine: string): ExactOption[] {
    return this.runs.flatMap((run) => run.options.filter((option) => option.machine === machine));
  }

  /** At no slot more than `most` of each group in use. */
  private limit(groups: readonly (readonly Use[])[], most: number): void {
    for (const uses of groups) {
      for (const slot of this.slots) {
        const row = this.builder.atMost(most);
        for (const { from, to } of uses) {
          for (const { at, column } of from) if (at <= slot) this.builder.term(row, column, 1);
          for (const { at, column } of to) if (at <= slot) this.builder.term(row, column, -1);
        }
      }
    }
  }

  /** A job with runs left out is finished at the horizon and their shortest cuts after it. */
  private priceJobs(): void {
    const { builder, night } = this;
    const finish = builder.column(night.weights.finish / 60);
    for (const job of night.jobs) {
      const late = builder.column((night.weights.lateness * job.weight) / 60);
      const ofJob = this.runs.filter((run) => run.job === job);
      for (const run of ofJob) {
        for (const [least, from] of [
          [finish, NOW],
          [late, job.due],
        ] as const) {
          const row = builder.atLeast(0);
          builder.term(row, least, 1);
          for (const { at, column } of all(run, 'off')) builder.term(row, column, -Math.max(0, at - from));
          builder.term(row, run.left, -(HORIZON - from));
          for (const other of ofJob) builder.term(row, other.left, -other.shortest);
        }
      }
    }
  }
}

/** Something that happens at `at` if the column is 1. */
export interface Event {
  readonly at: number;
  readonly column: number;
}

/** Used from one event to another. */
interface Use {
  readonly from: readonly Event[];
  readonly to: readonly Event[];
}

/** A run on one of its machines; what does not apply is empty. */
export interface ExactOption {
  readonly machine: string;
  readonly isTable: boolean;
  readonly cut: number;
  /** Minutes cut before the hold for a check. */
  readonly before: number;
  readonly on: readonly Event[];
  readonly loading: readonly Event[];
  readonly start: readonly Event[];
  readonly checked: readonly Event[];
  readonly end: readonly Event[];
  readonly unloading: readonly Event[];
  readonly off: readonly Event[];
}

export interface ExactRun {
  readonly id: string;
  readonly job: CaseJob;
  readonly step: number;
  readonly number: number;
  /** Column: 1 if the run is left out of the plan. */
  readonly left: number;
  readonly shortest: number;
  readonly options: readonly ExactOption[];
}

const DAY = 24 * 60;
const UP_TO_ONE = { upper: 1, integer: true };

function later(events: readonly Event[], minutes: number): Event[] {
  return events.map(({ at, column }) => ({ at: at + minutes, column }));
}

function all(run: ExactRun, what: 'on' | 'start' | 'checked' | 'off'): Event[] {
  return run.options.flatMap((option) => option[what]);
}
