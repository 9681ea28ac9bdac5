import { type LinearSolver, solveLinear } from '../linear';
import type { CoverCase } from './presets-case';
import { sharedProgram } from './presets-shared';
import { wholeProgram } from './presets-whole';

/** The fewest new tools with which every cut is covered, whichever tools each takes. Null if it is too large a question. */
export async function fewestToCover(cover: CoverCase, solver: LinearSolver | 'auto' = 'auto'): Promise<number | null> {
  const program = cover.whole ? wholeProgram(cover) : sharedProgram(cover);
  if (program === null) return null;
  const { ending, objective } = await solveLinear(program, { solver });
  return ending === 'optimal' ? Math.round(objective) : null;
}
