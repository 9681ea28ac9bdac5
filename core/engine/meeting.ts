import type { Schedule } from './schedule';

/** The best that a search has found, for another search of the same shop, moment and earlier plans to go on from. */
export interface Finding {
  readonly total: number;
  readonly schedule: Schedule;
}

/** How often searches side by side meet on their way to the limit. */
export const MEETINGS = 19;

/** When a search meets the others: at equal shares of its limit, so that with a limit in steps the moments are the same each time. */
export class Meetings {
  private next = 1;

  /** `share`: how far the search has come towards its limit, 0 to 1. */
  isDue(share: number): boolean {
    return this.next <= MEETINGS && share * (MEETINGS + 1) >= this.next;
  }

  /** One is held; those missed before it - a linear program may take long - are left out. */
  hold(share: number): void {
    this.next = Math.floor(share * (MEETINGS + 1)) + 1;
  }
}
