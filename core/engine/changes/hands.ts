import { NONE } from '../../problem';
import type { Attendances } from '../attendances';
import type { Settler } from '../settle';
import type { View } from './view';

/** Changes that aim at fewer rounds: what a hand does alone goes where it does something else. */
export class HandChanges {
  constructor(
    private readonly view: View,
    private readonly settler: Settler,
  ) {}

  /** Lets a run wait, before its cut or after it, until its hand has something else to do as well; or no longer. */
  joinRounds(): boolean {
    const { view } = this;
    const { random, board, repair } = view;
    const { schedule } = board;
    const run = view.anyRun();
    if (random.next() < 0.4) return this.lingerNoLonger(run);
    if (!view.isPlaced(run) || !repair.canLift(run)) return false;
    if (schedule.checkPerson[run] !== NONE && random.next() < 0.4) return this.checkWith(run);
    const isLoad = random.next() < 0.4;
    const person = isLoad ? schedule.loadPerson[run]! : schedule.unloadPerson[run]!;
    if (person === NONE) return false;
    const attendances = board.slots.people[person]!;
    const own = isLoad ? schedule.loadStart[run]! + view.problem.load[run]! : schedule.off[run]!;
    const next = this.nextAfter(own, attendances);
    if (next === NONE) return false;
    repair.touch(run);
    // A load goes just before its cut, so a later cut brings the load to the next attendance.
    if (isLoad) repair.wishes.notBefore[run] = attendances.end[next]! + view.problem.load[run]!;
    else repair.wishes.linger[run] = attendances.end[next]! - schedule.end[run]!;
    const other = attendances.run[next]!;
    repair.lift(run);
    // Where the run stays longer, what the hand does meanwhile may have to take another pallet.
    if (other > NONE && other !== run && random.next() < 0.5) repair.lift(other);
    return true;
  }

  /** Lets a run begin so much later that its first-piece check comes after another attendance of the same person. */
  private checkWith(run: number): boolean {
    const { problem, board, repair } = this.view;
    const { schedule } = board;
    const attendances = board.slots.people[schedule.checkPerson[run]!]!;
    const own = schedule.checkStart[run]! + problem.checkMinutes[run]!;
    const next = this.nextAfter(own, attendances);
    if (next === NONE) return false;
    repair.touch(run);
    repair.wishes.notBefore[run] = attendances.end[next]! - problem.holdAfter[run]!;
    repair.lift(run);
    return true;
  }

  /** One of the next two attendances after a minute by chance, as an index, or NONE. */
  private nextAfter(minute: number, attendances: Attendances): number {
    const next = attendances.firstEndingAfter(minute) + this.view.random.below(2);
    return next < attendances.count ? next : NONE;
  }

  /** Lets somebody drawn by chance load a run, check it or take it off; or whoever can first. */
  handOver(): boolean {
    const { view } = this;
    const { random, board, repair, problem } = view;
    const { schedule } = board;
    const run = view.anyRun();
    if (!view.isPlaced(run) || !repair.canLift(run)) return false;
    const crew = problem.optionCrew[schedule.option[run]!]!;
    const { start, items } = problem.crews;
    const size = start[crew + 1]! - start[crew]!;
    if (size < 2) return false;
    const { loader, checker, unloader } = repair.wishes;
    const part = random.below(3);
    const who = part === 0 ? loader : part === 1 ? checker : unloader;
    const pick = random.below(size + 1);
    repair.touch(run);
    who[run] = pick === size ? NONE : items[start[crew]! + pick]!;
    repair.lift(run);
    return true;
  }

  /** Settles the hands of a run where it is: that makes fewer rounds, or the same with more time to spare. */
  settle(): boolean {
    const { view } = this;
    const run = view.anyRun();
    if (!view.isPlaced(run) || !view.repair.canLift(run) || view.board.conflicts.length > 0) return false;
    view.repair.touch(run);
    this.settler.settle(run);
    return true;
  }

  private lingerNoLonger(from: number): boolean {
    const { repair } = this.view;
    const { linger } = repair.wishes;
    for (let i = 0; i < linger.length; i++) {
      const run = (from + i) % linger.length;
      if (linger[run] === 0) continue;
      repair.touch(run);
      linger[run] = 0;
      repair.lift(run);
      return true;
    }
    return false;
  }
}
