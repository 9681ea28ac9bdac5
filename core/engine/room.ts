import { FREE, LOADED, LOCKED, NONE, type Problem } from '../problem';
import { Placement } from './placement';
import { boundMachine, earliestOn, optionOn, type Schedule } from './schedule';
import { NEVER, type Slots } from './slots';
import { Stay } from './stay';
import type { Wishes } from './wishes';

/** Finds the room in which a run is through first, given what the slots hold already. */
export class RoomFinder {
  /** The room found last. */
  readonly room = new Stay();
  private readonly trial: Placement;

  constructor(
    private readonly problem: Problem,
    slots: Slots,
    private readonly schedule: Schedule,
  ) {
    this.trial = new Placement(problem, slots, schedule);
  }

  /** The minute from which it may cut as far as a first-piece check and the run it is locked behind go, which are placed. */
  earliestCut(run: number): number {
    const { problem, schedule } = this;
    const firstPiece = problem.firstPieceRun[run]!;
    const first = problem.follows[run]!;
    const behind = first === NONE || schedule.placed[first] === 0 ? 0 : schedule.end[first]!;
    if (firstPiece === NONE || schedule.checkStart[firstPiece] === NONE) return behind;
    return Math.max(behind, schedule.checkStart[firstPiece]! + problem.checkMinutes[firstPiece]!);
  }

  /**
   * Leaves the room in {@link room}; false if there is none before the horizon. With no option wished it takes the one
   * that is through first.
   */
  find(run: number, wishes: Wishes): boolean {
    const { problem, trial, room } = this;
    const on = earliestOn(problem, this.schedule, run);
    const cut = Math.max(on, this.earliestCut(run), wishes.notBefore[run]!);
    const state = problem.state[run]!;
    const pallet = state === FREE ? NONE : problem.heldPallet[run]!;
    const held = state === LOCKED || state === LOADED ? problem.heldOption[run]! : NONE;
    const bound = held === NONE ? boundMachine(problem, this.schedule, run) : NONE;
    const wished = bound === NONE ? wishes.choice[run]! : optionOn(problem, run, bound);
    const only = held !== NONE ? held : wished;
    const first = only === NONE ? problem.optionFirst[run]! : only;
    const last = only === NONE ? problem.optionFirst[run + 1]! : only + 1;
    trial.linger = wishes.linger[run]!;
    trial.loader = wishes.loader[run]!;
    trial.checker = wishes.checker[run]!;
    trial.unloader = wishes.unloader[run]!;
    trial.latestEnd = NEVER - 1;
    let isFound = false;
    for (let option = first; option < last; option++) {
      if (!trial.find(run, option, on, cut, pallet, state === LOADED)) continue;
      if (isFound && (trial.end > room.end || (trial.end === room.end && trial.off >= room.off))) continue;
      trial.copyTo(room);
      trial.latestEnd = room.end;
      isFound = true;
    }
    return isFound;
  }
}
