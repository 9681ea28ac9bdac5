import type { Problem } from '../../problem';
import type { Board } from '../board';
import type { Pricer } from '../cost';
import type { Nearness } from '../nearness';
import type { Random } from '../random';
import type { Repair } from '../repair';
import { Settler } from '../settle';
import { CareChanges } from './care';
import { HandChanges } from './hands';
import { LatenessChanges } from './lateness';
import { NearChanges } from './near';
import { NightChanges } from './night';
import { OrderChanges } from './order';
import { View } from './view';

/** One kind of change: lifts runs and wishes something for them. False where there is nothing for it to do. */
type Change = () => boolean;

/** Kinds drawn before a change is given up because none had anything to do. */
const DRAWS = 4;

/**
 * The changes the search tries. Each aims at one part of what a plan costs and looks at the schedule as it stands to see
 * where it may help.
 */
export class Changes {
  /** Kinds with the chance of each, in hundredths. */
  private readonly kinds: readonly (readonly [chance: number, change: Change])[];
  private readonly near: NearChanges | null;

  constructor(
    problem: Problem,
    board: Board,
    pricer: Pricer,
    private readonly random: Random,
    private readonly repair: Repair,
    /** What the plan is to stay near to, if that goes before its cost. */
    nearness: Nearness | null,
  ) {
    const view = new View(problem, board, random, repair);
    const order = new OrderChanges(view);
    const lateness = new LatenessChanges(view, pricer);
    const night = new NightChanges(view);
    const hands = new HandChanges(view, new Settler(problem, board.slots, board.schedule, pricer));
    const care = new CareChanges(view);
    this.near = nearness === null ? null : new NearChanges(view, nearness);
    const forTools = problem.tools === null ? 0 : 10;
    // Dear, and where tools wear the small changes alone stay caught. Elsewhere they get on better without it.
    const forJobs = problem.tools === null ? 0 : 5;
    const forOdds = problem.block.some((odds) => odds > 0) ? 3 : 0;
    this.kinds = [
      [forTools, () => care.rethink()],
      [forOdds, () => night.orderByOdds()],
      [15, () => order.moveElsewhere()],
      [17 - forTools - forOdds, () => order.reorder()],
      [10, () => order.reorderAcross()],
      [7, () => order.swap()],
      [5, () => order.moveOperation()],
      [16 - forJobs, () => lateness.hurry()],
      [forJobs, () => lateness.hurryJob()],
      [10, () => night.keepForNight()],
      [8, () => night.fillNight()],
      [5, () => hands.joinRounds()],
      [3, () => hands.handOver()],
      [4, () => hands.settle()],
    ];
  }

  /** Makes one change of a kind drawn by chance; false if it must be taken back. */
  make(): boolean {
    this.repair.begin();
    if (this.near?.bringBack() === true) return this.repair.mend();
    for (let draw = 0; draw < DRAWS; draw++) if (this.draw()()) break;
    return this.repair.mend();
  }

  private draw(): Change {
    let left = this.random.below(100);
    for (const [chance, change] of this.kinds) {
      left -= chance;
      if (left < 0) return change;
    }
    throw new Error('the chances do not add up to a hundred');
  }
}
