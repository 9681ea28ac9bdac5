import type { Plan, Shop } from '../shop';
import {
  BAD_NIGHT,
  CUTTING_EVERY,
  type MachineNight,
  type NightOptions,
  type NightOutcome,
  type RunNight,
  type StopCause,
  type StopKind,
  type WrongParts,
} from './outcome';
import type { MachineQueue } from './queue';
import { NightSimulator } from './simulate';

/** Two-sided 95 % of a normal distribution. */
export const Z95 = 1.96;

/** Simulates nights and adds them up. Work in slices is possible: {@link play} as often as wanted, then {@link outcome}. */
export class NightStudy {
  private readonly simulator: NightSimulator;
  private readonly hours: Float64Array;
  private readonly machines: readonly MachineTally[];
  private readonly cutting: Float64Array;
  private readonly wrong = new Map<string, Float64Array>();
  private played = 0;

  constructor(
    private readonly shop: Shop,
    plan: Plan,
    private readonly options: NightOptions,
  ) {
    const { nights } = options;
    this.simulator = new NightSimulator(shop, plan, options);
    const { stretch, machines } = this.simulator.queues;
    this.hours = new Float64Array(nights);
    this.machines = machines.map((queue) => new MachineTally(queue, nights));
    const length = stretch === null ? 0 : stretch.end - stretch.start;
    this.cutting = new Float64Array(stretch === null ? 0 : Math.floor((length - 1) / CUTTING_EVERY) + 1);
    for (const { runs } of machines) {
      for (const { need } of runs)
        if (!this.wrong.has(need.job.id)) this.wrong.set(need.job.id, new Float64Array(nights));
    }
  }

  /** How many of the nights are still to be played. */
  get left(): number {
    return this.simulator.queues.stretch === null ? 0 : this.options.nights - this.played;
  }

  /** Plays the next nights, at most so many. */
  play(most: number): void {
    const until = this.played + Math.min(most, this.left);
    for (; this.played < until; this.played++) this.playOne(this.played);
  }

  private playOne(night: number): void {
    const { simulator, machines, cutting, hours } = this;
    simulator.play(night);
    const start = simulator.queues.stretch?.start ?? 0;
    let minutes = 0;
    for (let m = 0; m < machines.length; m++) {
      const result = simulator.results[m]!;
      const tally = machines[m]!;
      minutes += result.good;
      tally.add(night, result);
      for (let q = 0; q < cutting.length && result.quiet > start + q * CUTTING_EVERY; q++) cutting[q]!++;
      for (let i = 0; i < tally.queue.runs.length; i++) {
        if (result.wrong[i]! > 0) this.wrong.get(tally.queue.runs[i]!.need.job.id)![night]! += result.wrong[i]!;
      }
    }
    hours[night] = minutes / 60;
  }

  /** Hours to expect in each night played, to compare plans night by night. */
  get nightHours(): Float64Array {
    return this.hours;
  }

  outcome(): NightOutcome {
    const { options, simulator, machines, hours } = this;
    const { stretch } = simulator.queues;
    const nights = Math.max(1, this.played);
    const expected = mean(hours);
    const runs = machines.flatMap((tally) => tally.runs(nights));
    return {
      nights: options.nights,
      seed: options.seed,
      stretch,
      loaded: machines.reduce((sum, tally) => sum + tally.loaded, 0) / 60,
      expected,
      halfWidth: this.played < 2 ? 0 : (Z95 * deviation(hours, expected)) / Math.sqrt(nights),
      badNight: quantile(hours, BAD_NIGHT),
      cutting: Array.from(this.cutting, (count) => count / nights / Math.max(1, machines.length)),
      machines: machines.map((tally) => tally.machine(nights, stretch?.end ?? 0)),
      runs,
      stops: this.stops(nights),
      weakest:
        runs.reduce<RunNight | null>((weak, run) => (weak === null || run.done < weak.done ? run : weak), null)?.run ??
        null,
      wrong: this.wrongParts(),
    };
  }

  private stops(nights: number): StopCause[] {
    const shared = new Map<number, { count: number; lost: number }>();
    const own = this.machines.flatMap((tally) => tally.stops(nights, shared));
    const together = Array.from(shared, ([cause, { count, lost }]): StopCause => {
      const { name, chance } = this.shop.night.shared[cause]!;
      // Counted once for each machine it stopped; its chance is that of the night.
      return {
        kind: 'shared',
        machine: null,
        run: null,
        name,
        chance: count === 0 ? 0 : chance,
        lost: lost / 60 / nights,
      };
    });
    return [...own, ...together].sort((a, b) => b.lost - a.lost);
  }

  private wrongParts(): WrongParts[] {
    return Array.from(this.wrong, ([job, parts]) => ({ job, mean: mean(parts), p90: quantile(parts, 0.9) }))
      .filter(({ mean }) => mean > 0)
      .sort((a, b) => b.mean - a.mean);
  }
}

/** One machine's nights added up. */
class MachineTally {
  readonly loaded: number;
  private readonly good: Float64Array;
  private readonly quiet: Float64Array;
  private readonly lengths: Float64Array[];
  private readonly done: Float64Array;
  private readonly lost: Float64Array;
  private readonly stopped: Float64Array;
  /** Stops by run, kind and cause: how often, and the minutes lost. */
  private readonly causes = new Map<
    string,
    { kind: StopKind; run: number; cause: number; count: number; lost: number }
  >();

  constructor(
    readonly queue: MachineQueue,
    nights: number,
  ) {
    const { length } = queue.runs;
    this.loaded = queue.runs.reduce((sum, run) => sum + run.inside, 0);
    this.good = new Float64Array(nights);
    this.quiet = new Float64Array(nights);
    this.lengths = queue.runs.map(() => new Float64Array(nights));
    this.done = new Float64Array(length);
    this.lost = new Float64Array(length);
    this.stopped = new Float64Array(length);
  }

  add(night: number, { good, quiet, stop, length, done }: NightSimulator['results'][number]): void {
    const { runs } = this.queue;
    this.good[night] = good / 60;
    this.quiet[night] = quiet;
    const last = stop.kind === null ? runs.length : stop.run;
    for (let i = 0; i < runs.length; i++) {
      this.lengths[i]![night] = i <= last ? length[i]! : Number.NaN;
      this.done[i]! += done[i]!;
      // A lost pallet costs its own hours; what comes after a stop is charged to the stop.
      if (i < last && done[i] === 0) this.lost[i]! += runs[i]!.inside;
    }
    if (stop.kind === null) return;
    const lost = runs.slice(stop.run).reduce((sum, run) => sum + run.inside, 0);
    this.lost[stop.run]! += lost;
    this.stopped[stop.run]!++;
    const key = `${stop.kind} ${stop.run} ${stop.cause}`;
    const known = this.causes.get(key);
    if (known === undefined) this.causes.set(key, { ...stop, kind: stop.kind, count: 1, lost });
    else {
      known.count++;
      known.lost += lost;
    }
  }

  machine(nights: number, end: number): MachineNight {
    const quiet = quantile(this.quiet, 0.5);
    const last = this.queue.runs.at(-1)!.planned.end;
    return {
      machine: this.queue.machine.id,
      loaded: this.loaded / 60,
      expected: mean(this.good),
      badNight: quantile(this.good, BAD_NIGHT),
      stillCutting: this.quiet.reduce((count, minute) => count + Number(minute >= end), 0) / nights,
      quietPlanned: last >= end ? null : last,
      quietMedian: quiet >= end ? null : Math.round(quiet),
    };
  }

  runs(nights: number): RunNight[] {
    return this.queue.runs.map(({ run }, i) => {
      const lengths = this.lengths[i]!.filter((minutes) => !Number.isNaN(minutes));
      return {
        run,
        machine: this.queue.machine.id,
        done: this.done[i]! / nights,
        length: { p10: quantile(lengths, 0.1), p50: quantile(lengths, 0.5), p90: quantile(lengths, 0.9) },
        stops: this.stopped[i]! / nights,
        lost: this.lost[i]! / 60 / nights,
      };
    });
  }

  /** The stops of this machine alone; those of shared causes are added to `shared`. */
  stops(nights: number, shared: Map<number, { count: number; lost: number }>): StopCause[] {
    const found: StopCause[] = [];
    for (const { kind, run, cause, count, lost } of this.causes.values()) {
      if (kind === 'shared') {
        const known = shared.get(cause) ?? { count: 0, lost: 0 };
        shared.set(cause, { count: known.count + count, lost: known.lost + lost });
        continue;
      }
      const name = kind === 'tool' ? (this.queue.tools[cause]?.tool.id ?? null) : null;
      const { machine } = this.queue;
      found.push({
        kind,
        machine: machine.id,
        run: this.queue.runs[run]!.run,
        name,
        chance: count / nights,
        lost: lost / 60 / nights,
      });
    }
    return found;
  }
}

function mean(values: Float64Array): number {
  return values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;
}

function deviation(values: Float64Array, around: number): number {
  const squares = values.reduce((sum, value) => sum + (value - around) ** 2, 0);
  return Math.sqrt(squares / Math.max(1, values.length - 1));
}

/** The value that this share of them does not exceed. */
function quantile(values: Float64Array, share: number): number {
  if (values.length === 0) return 0;
  const sorted = values.slice().sort();
  return sorted[Math.min(sorted.length - 1, Math.max(0, Math.ceil(share * sorted.length) - 1))]!;
}
