import { NONE } from '../../problem';
import type { View } from './view';

/** Changes that aim at fewer rounds: what a hand does alone goes where it does something else. */
export class HandChanges {
  constructor(private readonly view: View) {}

  /** Lets a run wait, before its cut or after it, until its hand has something else to do as well; or no longer. */
  joinRounds(): boolean {
    const { view } = this;
    const { random, board, repair } = view;
    const { schedule } = board;
    const run = view.anyRun();
    if (random.next() < 0.4) return this.lingerNoLonger(run);
    if (!view.isPlaced(run) || !repair.canLift(run)) return false;
    const isLoad = random.next() < 0.4;
    const person = isLoad ? schedule.loadPerson[run]! : schedule.unloadPerson[run]!;
    if (person === NONE) return false;
    const attendances = board.slots.people[person]!;
    const own = isLoad ? schedule.loadStart[run]! + view.problem.load[run]! : schedule.off[run]!;
    const next = attendances.firstEndingAfter(own) + random.below(2);
    if (next >= attendances.count) return false;
    repair.touch(run);
    // A load goes just before its cut, so a later cut brings the load to the next attendance.
    if (isLoad) repair.wishes.notBefore[run] = attendances.end[next]! + view.problem.load[run]!;
    else repair.wishes.linger[run] = attendances.end[next]! - schedule.end[run]!;
    const other = attendances.run[next]!;
    repair.lift(run);
    // Where the run stays longer, what the hand does meanwhile may have to take another pallet.
    if (other !== run && random.next() < 0.5) repair.lift(other);
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
