import { NONE } from '../problem';

/** How runs are to be put: the search changes these, and they stay with a run until they are changed again. */
export interface Wishes {
  /** The option each run must take, or NONE for the one that is through first. */
  readonly choice: Int32Array;
  /** The minute before which each run does not begin to cut: a long cut may be worth more in the night. */
  readonly notBefore: Int32Array;
  /** Minutes each run stays on after its cut at least: while it waits, a load may keep another machine going. */
  readonly linger: Int32Array;
  /** Who loads each run, or works on it at a bench, if the skill is there; NONE for whoever can first. */
  readonly loader: Int32Array;
  /** Who does its first-piece check, in the same way. */
  readonly checker: Int32Array;
  /** Who takes it off, in the same way. */
  readonly unloader: Int32Array;
}

/** No wish for any of so many runs. */
export function noWishes(count: number): Wishes {
  const column = () => new Int32Array(count);
  const wishes: Wishes = {
    choice: column(),
    notBefore: column(),
    linger: column(),
    loader: column(),
    checker: column(),
    unloader: column(),
  };
  for (let run = 0; run < count; run++) forgetWishes(wishes, run);
  return wishes;
}

export function copyWishes(from: Wishes, to: Wishes, run: number): void {
  to.choice[run] = from.choice[run]!;
  to.notBefore[run] = from.notBefore[run]!;
  to.linger[run] = from.linger[run]!;
  to.loader[run] = from.loader[run]!;
  to.checker[run] = from.checker[run]!;
  to.unloader[run] = from.unloader[run]!;
}

export function forgetWishes(wishes: Wishes, run: number): void {
  wishes.choice[run] = wishes.loader[run] = wishes.checker[run] = wishes.unloader[run] = NONE;
  wishes.notBefore[run] = wishes.linger[run] = 0;
}
