import { type LinearProgram, LinearProgramBuilder } from '../linear';
import { type CoverCase, type CoverTool, newTool } from './presets-case';

/** Cuts that one tool can take whole, by number. */
type Load = readonly number[];

/**
 * Loads of all tools together up to which the program is built. 24 cuts of which three go into one tool make some
 * 1,500; a queue that has more is no queue of one night.
 */
const MOST_LOADS = 6_000;

/** Steps of the search for loads, so that a queue of very small cuts ends it soon. */
const MOST_STEPS = 400_000;

/**
 * The fewest new tools that cover cuts each taken whole: choose one load for each tool there is and loads for new ones,
 * so that every cut is in one. By loads there is nothing to tell new tools apart by, so no solution comes twice. Null if
 * there are too many loads to write down.
 */
export function wholeProgram(cover: CoverCase): LinearProgram | null {
  const builder = new LinearProgramBuilder('minimise');
  const covered = cover.cuts.map((_, i) => builder.atLeast(1, `cut ${i} is covered`));
  const budget = { loads: MOST_LOADS, steps: MOST_STEPS };
  const add = (tool: CoverTool, cost: number, name: string): number[] | null =>
    fullestLoads(cover, tool, budget)?.map((load) => {
      const column = builder.column(cost, { integer: true, name: `${name} takes ${load.join(' ')}` });
      for (const cut of load) builder.term(covered[cut]!, column, 1);
      return column;
    }) ?? null;
  if (add(newTool(cover), 1, 'new') === null) return null;
  for (const [i, tool] of cover.held.entries()) {
    const columns = add(tool, 0, `held ${i}`);
    if (columns === null) return null;
    const once = builder.atMost(1, `held ${i} once`);
    for (const column of columns) builder.term(once, column, 1);
  }
  return builder.build();
}

/** The loads to which no cut can be added; a cut covered twice does no harm, so the others are not needed. */
function fullestLoads(cover: CoverCase, tool: CoverTool, budget: { loads: number; steps: number }): Load[] | null {
  const { cuts } = cover;
  const found: Load[] = [];
  const taken: number[] = [];
  const isFull = (): boolean =>
    cuts.every(
      (_, i) =>
        taken.includes(i) ||
        !isBearable(
          cover,
          tool,
          [...taken, i].sort((a, b) => a - b),
        ),
    );
  const search = (cut: number): boolean => {
    budget.steps -= 1;
    if (budget.steps < 0) return false;
    if (cut === cuts.length) {
      if (taken.length === 0 || !isFull()) return true;
      found.push([...taken]);
      budget.loads -= 1;
      return budget.loads >= 0;
    }
    taken.push(cut);
    const isComplete = !isBearable(cover, tool, taken) || search(cut + 1);
    taken.pop();
    return isComplete && search(cut + 1);
  };
  return search(0) ? found : null;
}

/** Whether a tool can take these cuts, in order, each whole. */
function isBearable({ cuts, reserve, every }: CoverCase, tool: CoverTool, load: Load): boolean {
  let { left } = tool;
  let ground = 0;
  let dressings = 0;
  for (const index of load) {
    const { minutes, alone } = cuts[index]!;
    const due = tool.dressedBefore.filter((cut) => cut <= index).length;
    if (due > dressings) [dressings, ground] = [due, 0];
    left -= minutes;
    ground += minutes;
    if (left < (alone ? reserve : 0) || (every !== null && ground > every)) return false;
  }
  return true;
}
