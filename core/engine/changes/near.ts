import { NONE } from '../../problem';
import type { Nearness } from '../nearness';
import { optionOn } from '../schedule';
import type { View } from './view';

/** Share of the changes that bring a run back, as long as one is away. */
const SHARE = 0.6;

/** Runs that make way for one that comes back, at most. */
const MOST_IN_WAY = 12;

/** Minutes before its place in the plan at which a run may be put, at most; mostly it is fewer. */
const MOST_EARLY = 1440;

/** Changes that bring a plan nearer to the one it is to stay near to. */
export class NearChanges {
  constructor(
    private readonly view: View,
    private readonly nearness: Nearness,
  ) {}

  /**
   * Puts a run that is away back to its place, or somewhat before it, on its machine or another one; what stands there,
   * and sometimes what follows on it, goes back after it, each as near to its own place as it can. False where it is not
   * the turn of such a change, or nothing is away.
   */
  bringBack(): boolean {
    const { view, nearness } = this;
    const { problem, random, repair, board, chosen } = view;
    if (random.next() >= SHARE) return false;
    const run = this.anyAway();
    if (run === NONE) return false;
    const { times } = nearness;
    const isEarly = random.next() < 0.4;
    const from = times.start[run]! - (isEarly ? Math.floor(MOST_EARLY * random.next() ** 2) : 0);
    const home = optionOn(problem, run, times.machine[run]!);
    const first = problem.optionFirst[run]!;
    const isElsewhere = home === NONE || random.next() < 0.3;
    const option = isElsewhere ? first + random.below(problem.optionFirst[run + 1]! - first) : home;
    repair.touch(run);
    repair.wishes.choice[run] = option;
    repair.wishes.notBefore[run] = Math.max(problem.now, from);
    const bookings = board.slots.machines[problem.optionMachine[option]!]!;
    const length = problem.optionCut[option]! * (random.next() < 0.5 ? 1 : 1 + random.below(4));
    view.chooseWithin(bookings, from, from + length, run);
    chosen.length = Math.min(chosen.length, MOST_IN_WAY);
    // The last ones first where those before them may well go after them.
    if (random.next() < 0.3) chosen.reverse();
    if (random.next() < 0.2) chosen.length = 0;
    repair.lift(run);
    view.liftChosen();
    return true;
  }

  /** The first run from a random one on that is away and can move, or NONE. */
  private anyAway(): number {
    const { problem, repair } = this.view;
    const first = this.view.anyRun();
    for (let i = 0; i < problem.runCount; i++) {
      const run = (first + i) % problem.runCount;
      if (this.nearness.isAway(run) && repair.canLift(run)) return run;
    }
    return NONE;
  }
}
