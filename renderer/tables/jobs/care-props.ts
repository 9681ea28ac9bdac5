import type { Operation } from '../../../core/shop';

/** What each part of an operation's panel is about. */
export interface CareProps {
  readonly operation: Operation;
  /** Place of the operation in the route, from 0. */
  readonly at: number;
}
