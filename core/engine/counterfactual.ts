import { FREE, LOCKED, NO_MINUTE, NONE, type Problem, RUNNING } from '../problem';
import { actMinutes, type Plan, type PlannedRun } from '../shop';
import type { Interval, Minute } from '../time';
import { giveBack, take, takeCare } from './book';
import { type Left, LooseView } from './loose';
import { readRun, readWhole, writeRunTo } from './read';
import type { Relaxation } from './relax';
import { rowsBy } from './rows';
import { emptySchedule, optionOn, type Schedule } from './schedule';
import { Slots } from './slots';
import { Stay } from './stay';
import type { LedgerAct } from './tool-ledger';
import { writeCares, writeRun } from './write';

/**
 * Asks of a plan where one of its runs could be instead if every other run stayed exactly where it is, with the rules as
 * they are or with some of what is scarce taken away. What it answers is legal in the shop so relaxed, by the same room
 * finder that makes plans; that finder takes hands and places in turn, so an answer of none is its word and no proof.
 */
export class Counterfactual {
  private readonly slots: Slots;
  private readonly schedule: Schedule;
  private readonly runs: ReadonlyMap<string, number>;
  private readonly names: { pallets: ReadonlyMap<string, number>; people: ReadonlyMap<string, number> };
  /** Runs that wait for each run's first-piece check. */
  private readonly waiting;
  private readonly views = new Map<string, LooseView>();
  /** Locks overlap somewhere: what is held cannot be taken out alone. */
  private readonly hasMerged: boolean;

  /** `problem` must be that of the plan's own shop and moment, and the referee must have passed the plan. */
  constructor(
    private readonly problem: Problem,
    private readonly plan: Plan,
  ) {
    const indexOf = (ids: readonly string[]) => new Map(ids.map((id, index) => [id, index]));
    this.runs = indexOf(problem.runIds);
    this.names = { pallets: indexOf(problem.palletIds), people: indexOf(problem.personIds) };
    this.schedule = readWhole(problem, plan);
    this.slots = new Slots(problem);
    this.waiting = rowsBy(problem.firstPieceRun, problem.runCount);
    for (let run = 0; run < problem.runCount; run++) {
      if (this.schedule.placed[run] === 1) take(problem, this.slots, this.schedule, run);
    }
    for (const [care, machine] of this.schedule.careMachine.entries()) {
      if (machine !== NONE) takeCare(problem, this.slots, this.schedule, care);
    }
    const { machines, people, pallets } = this.slots;
    this.hasMerged = [...machines, ...people, ...pallets].some((bookings) => bookings.hasMerged);
    this.viewWith([]).noteShort();
  }

  /** True if the run is on its machine already, or stands where it cannot be lifted out of the plan alone. */
  isFixed(run: string): boolean {
    const index = this.runs.get(run)!;
    const { state, heldStart } = this.problem;
    if (state[index]! >= RUNNING) return true;
    return this.hasMerged && state[index] !== FREE && (state[index] !== LOCKED || heldStart[index] !== NO_MINUTE);
  }

  /**
   * The run where it would begin to cut soonest inside `within` on the machine; null if it cannot. It may be planned
   * elsewhere or be left out; the machine must be one of its operation's, and the run not {@link isFixed}. A hand or a
   * pallet that the shop does not have is named by `EXTRA_HAND` and `EXTRA_PALLET`.
   */
  earliest(run: string, machine: string, within: Interval, relaxed: readonly Relaxation[] = []): PlannedRun | null {
    const index = this.runs.get(run)!;
    const option = optionOn(this.problem, index, this.problem.machineIds.indexOf(machine));
    const view = this.viewWith(relaxed);
    if (option === NONE || !this.isPreceded(view, index)) return null;
    const held = view.problem.heldStart[index]!;
    const window =
      held === NO_MINUTE ? within : { start: Math.max(within.start, held), end: Math.min(within.end, held + 1) };
    if (window.start >= window.end) return null;
    return this.without(index, (from, wentFrom) => {
      const here = this.problem.optionMachine[option]!;
      // Who stays behind must have the tools still: of two tools in turn the next cut may now take the wrong one.
      if (relaxed.includes('machine') && !relaxed.includes('tool') && !this.viewWith([]).lasts(here)) return null;
      return view.loosened(here, () => {
        const room = view.search(index, option, window, from, wentFrom);
        if (room === null || !this.holdsFollowers(view, index, room)) return null;
        return view.putting(index, room, () => writeRun(view.problem, this.schedule, index));
      });
    });
  }

  /** The tool that keeps the run from where {@link earliest}, asked the same, looked for room inside `within` first, or null. */
  shortTool(run: string, machine: string, within: Interval, relaxed: readonly Relaxation[] = []): string | null {
    const view = this.viewWith(relaxed);
    view.shortTool = NONE;
    this.earliest(run, machine, within, relaxed);
    return view.shortTool === NONE ? null : this.problem.shop.tools[view.shortTool]!.id;
  }

  /** True if the run could be just there with nothing relaxed and every other run where it is. */
  allows(planned: PlannedRun): boolean {
    const index = this.runs.get(planned.run)!;
    const view = this.viewWith([]);
    const there = emptySchedule(this.problem);
    readRun(this.problem, there, index, planned, 0, this.names);
    if (there.placed[index] === 0 || !this.isPreceded(view, index)) return false;
    const stay = new Stay();
    stay.readFrom(there, index);
    return this.without(
      index,
      (from, wentFrom) => view.allows(index, stay, from, wentFrom) && this.holdsFollowers(view, index, stay),
    );
  }

  /**
   * The plan with the run where an answer has it, and attendances to tools as they then are. Its cost is that of the plan
   * before. Under the relaxations of the answer it is legal.
   */
  planWith(planned: PlannedRun, relaxed: readonly Relaxation[] = []): Plan {
    const index = this.runs.get(planned.run)!;
    const view = this.viewWith(relaxed);
    const option = optionOn(this.problem, index, this.problem.machineIds.indexOf(planned.machine));
    const here = this.problem.optionMachine[option]!;
    const there = emptySchedule(view.problem);
    const pallet = planned.pallet === null ? NONE : view.problem.palletIds.indexOf(planned.pallet);
    writeRunTo(there, index, option, pallet, planned, 0, (hand) =>
      hand === null ? NONE : view.problem.personIds.indexOf(hand.person),
    );
    const stay = new Stay();
    stay.readFrom(there, index);
    const care = this.without(index, (from) => {
      // Where tools never wear nobody sees to them.
      if (view.relaxed.has('tool')) return this.plan.care.filter(({ machine }) => machine !== planned.machine);
      // With the machine to itself it has no part in the queue there.
      if (view.relaxed.has('machine')) return this.careIn(this.viewWith([]), [from]);
      return view.loosened(here, () => view.putting(index, stay, () => this.careIn(view, [here, from])));
    });
    const others = this.plan.runs.filter(({ run }) => run !== planned.run);
    return {
      ...this.plan,
      runs: [...others, planned].sort((a, b) => a.start - b.start || (a.run < b.run ? -1 : 1)),
      care,
      left: this.plan.left.filter(({ run }) => run !== planned.run),
    };
  }

  /**
   * The soonest that somebody, everything else where it is, can begin the first-piece check or the unload of the run, as
   * it is planned; null if it has none.
   */
  soonestHand(run: string, role: 'check' | 'unload', relaxed: readonly Relaxation[] = []): Minute | null {
    const index = this.runs.get(run)!;
    if (this.isFixed(run) && this.hasMerged) return null;
    const stay = new Stay();
    stay.readFrom(this.schedule, index);
    const person = role === 'check' ? stay.checkPerson : stay.unloadPerson;
    if (person === NONE) return null;
    const view = this.viewWith(relaxed);
    const machine = this.problem.optionMachine[stay.option]!;
    return this.without(index, () => view.loosened(machine, () => view.soonestHand(index, stay, role)));
  }

  /** As the plan has it, or, on the machines named, chosen anew where it must be: each as long as what is done in it. */
  private careIn(view: LooseView, machines: readonly number[]): Plan['care'] {
    const { problem } = this;
    const anew = new Map<string, readonly LedgerAct[]>();
    for (const machine of machines) {
      const acts = machine === NONE ? null : view.careAnew(machine);
      if (acts !== null) anew.set(problem.machineIds[machine]!, acts);
    }
    const minutesOf = (id: string, act: 'replace' | 'dress') =>
      actMinutes(problem.shop.tools.find((tool) => tool.id === id)!, act);
    const chosen = writeCares(problem, this.schedule, [...anew.values()].flat()).map((care) => ({
      ...care,
      end: care.acts.reduce((end, { tool, act }) => end + minutesOf(tool, act), care.start),
    }));
    const kept = this.plan.care.filter(({ machine }) => !anew.has(machine));
    return [...kept, ...chosen].sort((a, b) => a.start - b.start || (a.machine < b.machine ? -1 : 1));
  }

  /** Its predecessors on its parts and the first piece it waits for are in the plan. */
  private isPreceded({ problem }: LooseView, run: number): boolean {
    const { placed } = this.schedule;
    const { start, items } = problem.before;
    const firstPiece = problem.firstPieceRun[run]!;
    return (
      (firstPiece === NONE || placed[firstPiece] === 1) &&
      items.subarray(start[run]!, start[run + 1]!).every((previous) => placed[previous] === 1)
    );
  }

  /** What comes after it on its parts, or waits for its first piece, need not move. */
  private holdsFollowers({ problem }: LooseView, run: number, stay: Stay): boolean {
    const { schedule, waiting } = this;
    const { after, lag } = this.problem;
    const next = after.items.subarray(after.start[run]!, after.start[run + 1]!);
    const passed = stay.checkStart + problem.checkMinutes[run]!;
    const waits =
      problem.checkMinutes[run] === 0 ? [] : waiting.items.subarray(waiting.start[run]!, waiting.start[run + 1]!);
    return (
      next.every((one) => schedule.placed[one] === 0 || stay.off + lag[one]! <= schedule.on[one]!) &&
      waits.every((one) => schedule.placed[one] === 0 || passed <= schedule.start[one]!)
    );
  }

  /** Takes the run out of the plan, does something, and puts it back. */
  private without<T>(run: number, act: (from: number, wentFrom: readonly Left[]) => T): T {
    const { problem, slots, schedule } = this;
    if (schedule.placed[run] === 0) return act(NONE, []);
    const was = new Stay();
    was.readFrom(schedule, run);
    giveBack(problem, slots, schedule, run);
    schedule.placed[run] = 0;
    try {
      return act(problem.optionMachine[was.option]!, leftBy(was));
    } finally {
      was.writeTo(schedule, run);
      take(problem, slots, schedule, run);
    }
  }

  private viewWith(relaxed: readonly Relaxation[]): LooseView {
    const key = [...relaxed].sort().join();
    let view = this.views.get(key);
    if (view === undefined) {
      view = new LooseView(this.slots, this.schedule, new Set(relaxed), this.plan);
      this.views.set(key, view);
    }
    return view;
  }
}

function leftBy(was: Stay): Left[] {
  const hands = [
    { person: was.loadPerson, start: was.loadStart },
    { person: was.checkPerson, start: was.checkStart },
    { person: was.workPerson, start: was.start },
    { person: was.unloadPerson, start: was.unloadStart },
  ];
  return hands.filter(({ person }) => person !== NONE);
}
