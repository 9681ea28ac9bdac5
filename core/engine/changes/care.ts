import { NONE } from '../../problem';
import type { View } from './view';

/** Changes that aim at the attendances to tools. */
export class CareChanges {
  constructor(private readonly view: View) {}

  /**
   * Takes one out, alone or with the runs beside it on its machine, the later one first or not: what is short without it
   * gets another where that costs least by now.
   */
  rethink(): boolean {
    const { view } = this;
    const { board, random, repair, chosen } = view;
    const care = this.anyCare();
    if (care === NONE) return false;
    const { schedule, slots } = board;
    const bookings = slots.machines[schedule.careMachine[care]!]!;
    const from = schedule.careStart[care]!;
    const at = bookings.firstEndingAfter(from);
    chosen.length = 0;
    const how = random.next();
    if (how < 0.7) {
      for (let i = at + 1; i < Math.min(bookings.count, at + 2 + random.below(3)); i++) view.choose(bookings.run[i]!);
      if (at > 0 && how < 0.4) view.choose(bookings.run[at - 1]!);
    }
    repair.removeCare(care);
    view.liftChosen();
    return true;
  }

  private anyCare(): number {
    const { careMachine } = this.view.board.schedule;
    const first = this.view.random.below(Math.max(1, careMachine.length));
    for (let i = 0; i < careMachine.length; i++) {
      const care = (first + i) % careMachine.length;
      if (careMachine[care] !== NONE) return care;
    }
    return NONE;
  }
}
