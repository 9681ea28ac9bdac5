import type { Schedule } from './schedule';

/** What the board builds a schedule from. */
export interface Recipe {
  /** Runs in the order in which they choose their room. */
  readonly order: Int32Array;
  /** The option each run must take, or NONE for the one that is through first. */
  readonly choice: Int32Array;
  /** The earlier schedule whose room each run takes if it can, or NONE for none. */
  readonly anchor: Int32Array;
  /** The earlier schedule whose attendances to tools are kept where they can be, or null. */
  readonly cares: Schedule | null;
}
