/** What a schedule is built from: the search changes these, and the board makes the schedule. */
export interface Recipe {
  /** Runs in the order in which they choose their room. */
  readonly order: Int32Array;
  /** The option each run must take, or NONE for the one that is through first. */
  readonly choice: Int32Array;
  /** The earlier schedule whose room each run takes if it can, or NONE for none. */
  readonly anchor: Int32Array;
  /** The minute before which each run does not begin to cut: a long cut may be worth more in the night. */
  readonly notBefore: Int32Array;
  /** Minutes each run stays on after its cut at least: while it waits, a load may keep another machine going. */
  readonly linger: Int32Array;
}

export function cloneRecipe(recipe: Recipe): Recipe {
  return {
    order: recipe.order.slice(),
    choice: recipe.choice.slice(),
    anchor: recipe.anchor.slice(),
    notBefore: recipe.notBefore.slice(),
    linger: recipe.linger.slice(),
  };
}

export function copyRecipe(from: Recipe, to: Recipe): void {
  to.order.set(from.order);
  to.choice.set(from.choice);
  to.anchor.set(from.anchor);
  to.notBefore.set(from.notBefore);
  to.linger.set(from.linger);
}
