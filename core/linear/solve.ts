import { solveByHighs } from './highs';
import type { LinearProgram } from './program';
import type { LinearOptions, LinearSolution } from './solution';
import { solveByTableau, tableauCells } from './tableau';

/**
 * Up to here javascript-lp-solver is chosen. Measured on allocations of runs to machines and stretches: 13,000 cells
 * (220 columns) took it 16 ms, 38,000 (470) 19, 110,000 (930) 140, 230,000 (1,400) 70; HiGHS 5, 11, 19 and 23, and 110
 * more to load the first time. So from 100,000 cells on HiGHS is ahead even where it has to be loaded, and below once it
 * is; this lies between.
 */
const SMALL = 50_000;

/** Its integer search branches without cuts: 20 columns take milliseconds, some programs of 200 take minutes. */
const FEW_INTEGERS = 20;

/** Work for javascript-lp-solver before HiGHS takes over: about a tenth of a second. */
const QUICK = 3e7;

/** The same where javascript-lp-solver is asked for by name: up to half a minute. */
const PATIENT = 1e10;

/**
 * Solves the program. With `auto` an answer of javascript-lp-solver is taken if it is a checked optimum; "infeasible"
 * and "unbounded", which its rounding can feign, are asked of HiGHS again. Where javascript-lp-solver has no answer that
 * stands the check, also if it was asked for by name, HiGHS answers; `solver` in the solution says whose it is.
 *
 * HiGHS stops the thread until it is done: solve what may take long in a worker. Rejects only if a solver breaks down
 * (out of memory); HiGHS is then loaded anew for the next program.
 */
export async function solveLinear(program: LinearProgram, options: LinearOptions = {}): Promise<LinearSolution> {
  switch (options.solver ?? 'auto') {
    case 'highs':
      return solveByHighs(program, options);
    case 'javascript-lp-solver':
      return solveByTableau(program, PATIENT) ?? solveByHighs(program, options);
    case 'auto': {
      const quick = isSmall(program) ? solveByTableau(program, QUICK) : null;
      return quick?.ending === 'optimal' ? quick : solveByHighs(program, options);
    }
  }
}

function isSmall(program: LinearProgram): boolean {
  const integers = program.integer.reduce((sum, flag) => sum + flag, 0);
  return integers <= FEW_INTEGERS && tableauCells(program) <= SMALL;
}
