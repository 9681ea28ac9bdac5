import { NONE, type Problem } from '../problem';
import type { Plan } from '../shop';
import type { Interval } from '../time';
import { AloneRule } from './alone';
import { giveBack, giveBackCare, take, takeCare } from './book';
import { Bookings } from './bookings';
import { actsOf, CareKept } from './care-kept';
import { Placement } from './placement';
import { type Relaxation, relaxedProblem } from './relax';
import { canRepeat } from './repeat';
import { RoomFinder } from './room';
import { earliestOn, type Schedule } from './schedule';
import { NEVER, Slots } from './slots';
import type { Stay } from './stay';
import { type LedgerAct, ToolLedger } from './tool-ledger';
import { noWishes } from './wishes';

/**
 * A schedule with one run taken out, seen with some of what is scarce taken away, to be asked where that run could be. It
 * shares the bookings of the schedule's slots: what is taken there is taken here.
 */
export class LooseView {
  readonly problem: Problem;
  readonly slots: Slots;
  /** The tool that was the first to be short where the last search looked, as an index of the shop's tools, or NONE. */
  shortTool = NONE;
  private readonly tools: { readonly kept: CareKept; readonly ledger: ToolLedger } | null;

  private readonly finder: RoomFinder;
  private readonly alone: AloneRule;
  private readonly wishes;

  constructor(
    private readonly own: Slots,
    private readonly schedule: Schedule,
    readonly relaxed: ReadonlySet<Relaxation>,
    plan: Plan,
  ) {
    this.problem = relaxedProblem(own.problem, relaxed);
    this.slots = new Slots(this.problem);
    share(own.machines, this.slots.machines);
    share(own.people, this.slots.people);
    share(own.pallets, this.slots.pallets);
    share(own.places, this.slots.places);
    share(own.stations, this.slots.stations);
    this.finder = new RoomFinder(this.problem, this.slots, schedule);
    this.alone = new AloneRule(this.problem, this.slots, schedule);
    this.wishes = noWishes(this.problem.runCount);
    const { tools } = this.problem;
    this.tools = null;
    if (tools === null || relaxed.has('tool')) return;
    const ledger = new ToolLedger(this.problem, tools, this.slots, schedule);
    const acts = actsOf(this.problem, tools, plan);
    this.tools = { ledger, kept: new CareKept(this.problem, tools, this.slots, schedule, ledger, acts) };
  }

  /** Does something while the machine, its store and its tools are as relaxed as this view has them. */
  loosened<T>(machine: number, act: () => T): T {
    const { own, slots, relaxed } = this;
    const { machinePlaces, machineStations } = this.problem;
    const one = [
      relaxed.has('place') && machinePlaces[machine] !== NONE ? own.places[machinePlaces[machine]!]! : null,
      relaxed.has('station') && machineStations[machine] !== NONE ? own.stations[machineStations[machine]!]! : null,
    ];
    const cares = relaxed.has('tool') ? this.caresOn(machine) : [];
    for (const care of cares) giveBackCare(own, this.schedule, care);
    // One fewer taken at any time is one more to take.
    for (const more of one) more?.remove(-NEVER, NEVER);
    if (relaxed.has('machine')) slots.machines[machine] = new Bookings();
    try {
      return act();
    } finally {
      slots.machines[machine] = own.machines[machine]!;
      for (const more of one) more?.add(-NEVER, NEVER);
      for (const care of cares) takeCare(own.problem, own, this.schedule, care);
    }
  }

  /**
   * The earliest room of a run that is not booked on the option, its cut beginning inside `within`, that leaves all others
   * legal where they are; null if there is none. `from`: the machine it was taken from, or NONE.
   */
  search(run: number, option: number, within: Interval, from: number, wentFrom: readonly Left[]): Stay | null {
    const { finder, wishes } = this;
    wishes.choice[run] = option;
    this.shortTool = NONE;
    for (let start = within.start; ; ) {
      wishes.notBefore[run] = start;
      const { room } = finder;
      if (!finder.find(run, wishes) || room.option !== option || room.start >= within.end) return null;
      if (this.suits(run, room, from, wentFrom)) return room;
      const next = this.nextChance(room);
      if (next === null) return null;
      start = next;
    }
  }

  /** True if the run, which is not booked, could be just there, all others staying where they are. */
  allows(run: number, stay: Stay, from: number, wentFrom: readonly Left[]): boolean {
    const { problem, slots, schedule } = this;
    const on = earliestOn(problem, schedule, run);
    return (
      canRepeat(problem, slots, stay, run, on, Math.max(on, this.finder.earliestCut(run))) &&
      this.alone.soonest(run, stay.option, stay.start, stay.end) === stay.start &&
      this.suits(run, stay, from, wentFrom)
    );
  }

  /** The soonest that somebody could begin to check or to take off the run where it is, which is not booked. */
  soonestHand(run: number, stay: Stay, role: 'check' | 'unload'): number {
    const { problem, slots } = this;
    const machine = problem.optionMachine[stay.option]!;
    const own = {
      person: stay.loadPerson,
      start: stay.loadStart,
      end: stay.loadStart + problem.load[run]!,
      spot: problem.loadSpot[machine]!,
    };
    if (role === 'check') {
      const hold = stay.start + Math.min(problem.holdAfter[run]!, problem.optionCut[stay.option]!);
      const crew = problem.optionCrew[stay.option]!;
      const spot = problem.workSpot[machine]!;
      return slots.crewFrom(crew, Math.max(hold, problem.now), problem.checkMinutes[run]!, spot, NONE, own, NONE);
    }
    const at = new Placement(problem, slots, this.schedule);
    stay.copyTo(at);
    return at.takeOff(run, Math.max(stay.end, problem.now)) ? at.unloadStart : NEVER;
  }

  /** Puts the run there, does something, and takes it out again. */
  putting<T>(run: number, stay: Stay, act: () => T): T {
    const { problem, slots, schedule } = this;
    stay.writeTo(schedule, run);
    take(problem, slots, schedule, run);
    const done = act();
    giveBack(problem, slots, schedule, run);
    schedule.placed[run] = 0;
    return done;
  }

  private suits(run: number, stay: Stay, from: number, wentFrom: readonly Left[]): boolean {
    const machine = this.problem.optionMachine[stay.option]!;
    return this.putting(run, stay, () => this.canWalk(wentFrom) && this.haveTools(machine, from));
  }

  /** Where a way over a third spot is shorter than the straight one, taking an attendance out may leave a walk too short. */
  private canWalk(wentFrom: readonly Left[]): boolean {
    const { walk, spotCount } = this.problem;
    return wentFrom.every(({ person, start }) => {
      const at = this.slots.people[person]!;
      const next = at.firstEndingAfter(start);
      if (next === 0 || next === at.count) return true;
      return at.end[next - 1]! + walk[at.spot[next - 1]! * spotCount + at.spot[next]!]! <= at.start[next]!;
    });
  }

  private haveTools(machine: number, from: number): boolean {
    return this.lasts(machine) && (from === NONE || from === machine || this.lasts(from));
  }

  /** True if the tools of a machine last through its queue, what is done to them staying as it is or chosen anew. */
  lasts(machine: number): boolean {
    if (this.tools === null || this.tools.kept.holds(machine)) return true;
    const { kind } = this.tools.kept;
    if (this.tools.ledger.read(machine)) return true;
    if (this.shortTool === NONE && kind !== NONE) this.shortTool = this.problem.tools!.tool[kind]!;
    return false;
  }

  /** What has to be done to the tools of a machine in place of what the plan does, or null if that can stay. */
  careAnew(machine: number): readonly LedgerAct[] | null {
    if (this.tools === null || this.tools.kept.holds(machine)) return null;
    this.tools.ledger.read(machine, true);
    return [...this.tools.ledger.acts];
  }

  /** What is held and short of a tool takes what there is: the plan reports it. */
  noteShort(): void {
    if (this.tools === null) return;
    const { ledger } = this.tools;
    for (let machine = 0; machine < this.problem.machineCount; machine++) {
      while (!ledger.read(machine) && this.schedule.isShort[ledger.run] === 0) this.schedule.isShort[ledger.run] = 1;
    }
  }

  /**
   * The next moment at which tools may last: the place in the queue is another one, or somebody comes, and they need not
   * last the night.
   */
  private nextChance(room: Stay): number | null {
    const { problem, slots } = this;
    const bookings = slots.machines[problem.optionMachine[room.option]!]!;
    const next = bookings.firstEndingAfter(room.start);
    const queue = next < bookings.count ? bookings.end[next]! : NEVER;
    const day = problem.attended.find(({ start }) => start > room.start)?.start ?? NEVER;
    const soonest = Math.min(queue, day);
    return soonest === NEVER ? null : Math.max(room.start + 1, soonest);
  }

  private caresOn(machine: number): number[] {
    const { careMachine } = this.schedule;
    return Array.from(careMachine.keys()).filter((care) => careMachine[care] === machine);
  }
}

/** An attendance the run had where it was taken out. */
export interface Left {
  readonly person: number;
  readonly start: number;
}

function share<T>(from: readonly T[], to: T[]): void {
  for (const [i, one] of from.entries()) to[i] = one;
}
