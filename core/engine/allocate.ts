import { LinearProgramBuilder, type LinearSolution, solveLinear } from '../linear';
import { NONE, type Problem } from '../problem';
import type { Interval } from '../time';
import { earliestFinish } from './bound';
import { type Group, groupsOf } from './groups';

/** What the linear program is asked for; each optimum is a bound that no plan of whole runs can beat. */
type Aim = 'total' | 'tonight' | 'lateness';

/** Columns beyond which later stretches are taken together: the bound stays true and gets a little weaker. */
const COLUMN_LIMIT = 6_000;

interface Stretch extends Interval {
  readonly attended: boolean;
}

interface Column {
  readonly group: number;
  readonly option: number;
  readonly stretch: number;
  readonly index: number;
}

/**
 * The allocation: which share of each group of runs is cut on which machine in which stretch. A linear program in
 * which runs may be split and hours are pooled, so every legal plan is one of its points.
 */
export class Allocation {
  private readonly groups: Group[];
  private readonly stretches: Stretch[];
  private readonly stepGroups = new Map<string, number[]>();
  /** Rows of tonight that one more of something would raise, and by how much. */
  private readonly scarce: { readonly what: string; readonly row: number; readonly by: number }[] = [];

  constructor(private readonly problem: Problem) {
    this.groups = groupsOf(problem);
    this.stretches = this.stretchesWithin();
    this.groups.forEach((group, g) => {
      const key = `${group.job}/${group.step}`;
      const found = this.stepGroups.get(key);
      if (found === undefined) this.stepGroups.set(key, [g]);
      else found.push(g);
    });
  }

  /** The most hours tonight or the least weighted hours late; null if not found in the time. */
  async bound(aim: 'tonight' | 'lateness', seconds: number): Promise<number | null> {
    const solution = await solveLinear(this.program(aim).build(), { seconds });
    if (solution.ending !== 'optimal') return null;
    return solution.objective;
  }

  /**
   * What one more place or pallet would add to the most hours tonight, by its dual price: `place cell CELL`,
   * `place machine M1`, `pallet VISE4`. Where several optima tie it is right in one direction only. Empty if not found in
   * the time.
   */
  async prices(seconds: number): Promise<Map<string, number>> {
    this.scarce.length = 0;
    const { duals } = await solveLinear(this.program('tonight').build(), { seconds });
    const prices = new Map<string, number>();
    if (duals === null) return prices;
    for (const { what, row, by } of this.scarce) prices.set(what, (prices.get(what) ?? 0) + by * duals[row]!);
    return prices;
  }

  /** The best total, and the runs in the order of their mean time in the allocation; null if not found in the time. */
  async solve(seconds: number): Promise<{ total: number; order: Int32Array } | null> {
    const columns: Column[] = [];
    const solution = await solveLinear(this.program('total', columns).build(), { seconds });
    if (solution.ending !== 'optimal') return null;
    return { total: solution.objective + this.constantCost(), order: this.orderOf(solution, columns) };
  }

  /** No plan has more machines cutting at dawn than there are. */
  private constantCost(): number {
    const { problem } = this;
    if (problem.tonight === null) return 0;
    const machines = problem.isBench.reduce((count, isBench) => count + 1 - isBench, 0);
    return -problem.shop.weights.morning * machines;
  }

  private stretchesWithin(): Stretch[] {
    const { attended, unattended } = this.problem;
    const all = [
      ...attended.map(({ start, end }) => ({ start, end, attended: true })),
      ...unattended.map(({ start, end }) => ({ start, end, attended: false })),
    ].sort((a, b) => a.start - b.start);
    const perStretch = this.groups.reduce((count, group) => count + group.options.length, 0);
    const tonight = all.findIndex((s) => s.end === this.problem.tonight?.end);
    const keep = Math.max(tonight + 2, Math.floor(COLUMN_LIMIT / Math.max(1, perStretch)));
    if (all.length <= keep) return all;
    const rest = all.slice(keep - 1);
    // Taken as attended: what may happen in any of them may happen in it.
    return [...all.slice(0, keep - 1), { start: rest[0]!.start, end: rest.at(-1)!.end, attended: true }];
  }

  private program(aim: Aim, columns: Column[] = []): LinearProgramBuilder {
    const { problem, stretches, groups } = this;
    const builder = new LinearProgramBuilder(aim === 'tonight' ? 'maximise' : 'minimise');
    const { weights } = problem.shop;
    const latenessWeight = aim === 'total' ? weights.lateness : aim === 'lateness' ? 1 : 0;

    const flowWeight = aim === 'total' ? weights.flow : 0;

    const whole = groups.map(() => builder.equal(1));
    groups.forEach((group, g) => {
      const isLast = group.step === problem.shop.jobs[group.job]!.route.length - 1;
      const late = (time: number) =>
        isLast
          ? (latenessWeight *
              problem.jobWeight[group.job]! *
              group.share *
              Math.max(0, time - problem.due[group.job]!)) /
            60
          : 0;
      const flow = (time: number) => (flowWeight * group.runs.length * Math.max(0, time - problem.now)) / 60;
      group.options.forEach((option, o) => {
        stretches.forEach((stretch, s) => {
          if (stretch.end <= group.earliest || this.openMinutes(option.machine, s) === 0) return;
          if (problem.isBench[option.machine] === 1 && !stretch.attended) return;
          const isBench = problem.isBench[option.machine] === 1;
          // What is cut in a stretch is off after it began; with nobody to take it off, after it ended.
          const off =
            stretch.attended || group.handsAfter === 0 ? Math.max(stretch.start, group.earliest) : stretch.end;
          const gain = isBench ? 0 : (option.cut / 60) * this.goodShare(group) * this.gainIn(s, aim);
          const cost = late(off) + (isBench ? 0 : flow(Math.max(stretch.start, group.earliest))) - gain;
          const index = builder.column(aim === 'tonight' ? -cost : cost);
          builder.term(whole[g]!, index, 1);
          columns.push({ group: g, option: o, stretch: s, index });
        });
      });
      // What does not fit is left out and counts as finished at the horizon.
      const left = late(problem.horizon) + flow(problem.horizon);
      builder.term(whole[g]!, builder.column(aim === 'tonight' ? 0 : left), 1);
    });
    this.limitMachines(builder, columns);
    this.limitHands(builder, columns);
    this.limitPlaces(builder, columns);
    this.limitPallets(builder, columns);
    this.keepRoutes(builder, columns);
    if (aim === 'total') this.priceFinish(builder, columns);
    return builder;
  }

  /** Of hours cut in an unattended stretch no more than this share is to be expected, whatever comes before them. */
  private goodShare({ runs }: Group): number {
    const { block, loss } = this.problem;
    return (1 - block[runs[0]!]!) * (1 - loss[runs[0]!]!);
  }

  /** Gain per hour to expect in a stretch. */
  private gainIn(s: number, aim: Aim): number {
    const { weights } = this.problem.shop;
    const { tonight } = this.problem;
    const stretch = this.stretches[s]!;
    if (aim === 'lateness') return 0;
    const isTonight = tonight !== null && !stretch.attended && stretch.end === tonight.end;
    if (aim === 'tonight') return isTonight ? 1 : 0;
    if (isTonight) return weights.tonight;
    // In stretches taken together some hours may be night hours, so all count as such.
    const mayBeNight = !stretch.attended || s === this.stretches.length - 1;
    return mayBeNight && (tonight === null || stretch.start >= tonight.end) ? weights.laterNights : 0;
  }

  private isTonight(s: number): boolean {
    const stretch = this.stretches[s]!;
    return !stretch.attended && stretch.end === this.problem.tonight?.end;
  }

  private storeName(machine: number): string {
    const { id, cell } = this.problem.shop.machines[machine]!;
    return cell === null ? `place machine ${id}` : `place cell ${cell}`;
  }

  private openMinutes(machine: number, s: number): number {
    const { first, start, end } = this.problem.open;
    const stretch = this.stretches[s]!;
    let minutes = 0;
    for (let k = first[machine]!; k < first[machine + 1]!; k++) {
      minutes += Math.max(0, Math.min(end[k]!, stretch.end) - Math.max(start[k]!, stretch.start));
    }
    return minutes;
  }

  private limitMachines(builder: LinearProgramBuilder, columns: readonly Column[]): void {
    const rows = new Map<number, number>();
    for (const { group, option, stretch, index } of columns) {
      const { machine, cut } = this.groups[group]!.options[option]!;
      const key = machine * this.stretches.length + stretch;
      const row = rows.get(key) ?? builder.atMost(this.openMinutes(machine, stretch));
      rows.set(key, row);
      builder.term(row, index, cut);
    }
  }

  /**
   * Hands pooled by skill: what has been loaded by the end of a stretch took minutes up to then. A running total per
   * stretch keeps the program sparse.
   */
  private limitHands(builder: LinearProgramBuilder, columns: readonly Column[]): void {
    const { problem, stretches, groups } = this;
    const crews = new Set(groups.flatMap((group) => group.options.map((option) => option.crew)));
    const rowOf = new Map<number, number>();
    for (const crew of crews) {
      const people = problem.crews.items.subarray(problem.crews.start[crew]!, problem.crews.start[crew + 1]!);
      let before = NONE;
      stretches.forEach((stretch, s) => {
        if (!stretch.attended) return;
        const total = builder.column(0, { upper: this.handMinutes(people, stretch.end) });
        const row = builder.equal(0);
        builder.term(row, total, -1);
        if (before !== NONE) builder.term(row, before, 1);
        before = total;
        rowOf.set(crew * stretches.length + s, row);
      });
    }
    for (const column of columns) {
      const group = groups[column.group]!;
      const option = group.options[column.option]!;
      const hands = problem.isBench[option.machine] === 1 ? option.cut : group.handsBefore;
      // What is cut with nobody there was loaded before: it counts in the last attended stretch.
      let s = column.stretch;
      while (s >= 0 && !stretches[s]!.attended) s--;
      const row = rowOf.get(option.crew * stretches.length + s);
      if (hands > 0 && row !== undefined) builder.term(row, column.index, hands);
    }
  }

  private handMinutes(people: Int32Array, until: number): number {
    const { first, start, end } = this.problem.free;
    let minutes = 0;
    for (const person of people) {
      for (let k = first[person]!; k < first[person + 1]!; k++) {
        minutes += Math.max(0, Math.min(end[k]!, until) - start[k]!);
      }
    }
    return minutes;
  }

  /** Nothing is loaded while nobody is there: all that is cut then stood in a place when the last person left. */
  private limitPlaces(builder: LinearProgramBuilder, columns: readonly Column[]): void {
    const { problem, stretches, groups } = this;
    const rows = new Map<string, number>();
    for (const { group, option, stretch, index } of columns) {
      if (stretches[stretch]!.attended) continue;
      const { machine } = groups[group]!.options[option]!;
      const places = problem.machinePlaces[machine]!;
      const isTable = problem.isTable[machine] === 1;
      if (places === NONE && !isTable) continue;
      // A run that needs no hands can come and go with nobody there.
      if (groups[group]!.handsAfter === 0) continue;
      const key = `${isTable ? 'table' : 'places'}/${isTable ? machine : places}/${stretch}`;
      let row = rows.get(key);
      if (row === undefined) {
        row = builder.atMost(isTable ? 1 : problem.placeLimit[places]!);
        rows.set(key, row);
        if (this.isTonight(stretch) && !isTable) this.scarce.push({ what: this.storeName(machine), row, by: 1 });
      }
      builder.term(row, index, groups[group]!.runs.length);
    }
  }

  private limitPallets(builder: LinearProgramBuilder, columns: readonly Column[]): void {
    const { problem, stretches, groups } = this;
    const { pallets } = problem.shop;
    // One withdrawn with a load on it still carries that.
    const isThere = (inUse: boolean, pallet: number) => inUse || problem.heldPallet.includes(pallet);
    const rows = new Map<string, { runs: number; minutes: number }>();
    for (const { group, option, stretch, index } of columns) {
      const { fixture, cut } = groups[group]!.options[option]!;
      if (fixture === NONE) continue;
      const key = `${fixture}/${stretch}`;
      let row = rows.get(key);
      if (row === undefined) {
        const count = pallets.filter((p, i) => p.fixture === pallets[fixture]!.fixture && isThere(p.inUse, i)).length;
        const { start, end } = stretches[stretch]!;
        row = {
          runs: stretches[stretch]!.attended ? NONE : builder.atMost(count),
          minutes: builder.atMost(count * (end - start)),
        };
        rows.set(key, row);
        const what = `pallet ${pallets[fixture]!.fixture}`;
        if (this.isTonight(stretch)) {
          this.scarce.push({ what, row: row.runs, by: 1 }, { what, row: row.minutes, by: end - start });
        }
      }
      if (row.runs !== NONE && groups[group]!.handsAfter > 0) builder.term(row.runs, index, groups[group]!.runs.length);
      builder.term(row.minutes, index, cut);
    }
  }

  /**
   * No more parts of a step can have been cut than the step before had finished in time to be taken off and loaded.
   * Running totals of each step's share of the parts keep the program sparse.
   */
  private keepRoutes(builder: LinearProgramBuilder, columns: readonly Column[]): void {
    const { stretches, groups } = this;
    const totals = new Map<string, number[]>();
    const rows = new Map<string, number[]>();
    for (const key of this.stepGroups.keys()) {
      totals.set(
        key,
        stretches.map(() => builder.column(0)),
      );
      rows.set(
        key,
        stretches.map(() => builder.equal(0)),
      );
      stretches.forEach((_, s) => {
        const row = rows.get(key)![s]!;
        builder.term(row, totals.get(key)![s]!, -1);
        if (s > 0) builder.term(row, totals.get(key)![s - 1]!, 1);
      });
    }
    for (const { group, stretch, index } of columns) {
      const { job, step, share } = groups[group]!;
      builder.term(rows.get(`${job}/${step}`)![stretch]!, index, share);
    }
    for (const [key, members] of this.stepGroups) {
      const { job, step, lag } = groups[members[0]!]!;
      const previous = this.stepGroups.get(`${job}/${step - 1}`);
      if (previous === undefined) continue;
      const alreadyDone = Math.max(0, 1 - previous.reduce((sum, g) => sum + groups[g]!.share, 0)) + 1e-9;
      const needsHands = members.every((g) => groups[g]!.handsBefore > 0);
      stretches.forEach((stretch, s) => {
        const latest = (stretch.attended || !needsHands ? stretch.end : stretch.start) - lag;
        const row = builder.atMost(alreadyDone);
        builder.term(row, totals.get(key)![s]!, 1);
        const before = stretches.findLastIndex(({ start }) => start < latest);
        if (before >= 0) builder.term(row, totals.get(`${job}/${step - 1}`)![before]!, -1);
      });
    }
  }

  /** The last job is off no sooner than the mean of any job's last step. */
  private priceFinish(builder: LinearProgramBuilder, columns: readonly Column[]): void {
    const { problem, stretches, groups } = this;
    const finish = builder.column(problem.shop.weights.finish / 60, { lower: earliestFinish(problem) - problem.now });
    const rows = new Map<number, number>();
    for (const { group, stretch, index } of columns) {
      const { job, step, share } = groups[group]!;
      if (step !== problem.shop.jobs[job]!.route.length - 1) continue;
      const row = rows.get(job) ?? builder.atLeast(0);
      if (!rows.has(job)) builder.term(row, finish, 1);
      rows.set(job, row);
      const after = Math.max(0, stretches[stretch]!.start - problem.now);
      if (after > 0) builder.term(row, index, -share * after);
    }
  }

  private orderOf(solution: LinearSolution, columns: readonly Column[]): Int32Array {
    const { problem, groups, stretches } = this;
    const mean = new Float64Array(problem.runCount);
    const shareSeen = new Float64Array(problem.runCount);
    for (const { group, stretch, index } of columns) {
      const value = solution.values[index]!;
      if (value < 1e-9) continue;
      const middle = (stretches[stretch]!.start + stretches[stretch]!.end) / 2;
      const runs = groups[group]!.runs;
      // The first runs of a group are those the allocation cuts first.
      let amount = value * runs.length;
      for (const run of runs) {
        const take = Math.min(amount, 1 - shareSeen[run]!);
        if (take <= 0) continue;
        mean[run]! += take * middle;
        shareSeen[run]! += take;
        amount -= take;
      }
    }
    for (let run = 0; run < mean.length; run++) mean[run]! += (1 - shareSeen[run]!) * problem.horizon;
    return Int32Array.from({ length: problem.runCount }, (_, run) => run).sort(
      (a, b) => mean[a]! - mean[b]! || problem.due[problem.runJob[a]!]! - problem.due[problem.runJob[b]!]! || a - b,
    );
  }
}
