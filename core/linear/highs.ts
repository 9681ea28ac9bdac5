import type { Highs, Model, ModelData, ModelStatusCode } from 'highs';
import { isFeasible } from './certificate';
import { ended, noBound, tidied } from './endings';
import type { LinearProgram } from './program';
import type { LinearOptions, LinearSolution } from './solution';

let loading: Promise<Highs> | null = null;

/** Loaded once, when first needed: the WebAssembly takes a tenth of a second to start. */
function load(): Promise<Highs> {
  loading ??= import('highs').then(({ default: start }) => start());
  return loading;
}

/** Solves by HiGHS, which stops the thread until it is done. */
export async function solveByHighs(program: LinearProgram, options: LinearOptions): Promise<LinearSolution> {
  try {
    const highs = await load();
    return highs.withModel(dataOf(highs, program), (model) => solve(highs, model, program, options));
  } catch (error) {
    // After a trap inside WebAssembly (out of memory, an abort) its state can't be trusted: the next call starts anew.
    loading = null;
    throw error;
  }
}

function dataOf(highs: Highs, program: LinearProgram): ModelData {
  const { maximize, minimize } = highs.constants.objectiveSense;
  return {
    numCols: program.columns,
    numRows: program.rows,
    sense: program.direction === 'maximise' ? maximize : minimize,
    colCost: program.cost,
    colLower: program.lower,
    colUpper: program.upper,
    rowLower: program.rowLower,
    rowUpper: program.rowUpper,
    matrix: {
      format: 'csr',
      numRows: program.rows,
      numCols: program.columns,
      starts: program.rowStart,
      indices: program.termColumn,
      values: program.termValue,
    },
    ...(isInteger(program) ? { integrality: Int32Array.from(program.integer) } : {}),
  };
}

function solve(highs: Highs, model: Model, program: LinearProgram, options: LinearOptions): LinearSolution {
  model.options.set({ output_flag: false, mip_rel_gap: options.gap ?? 0 });
  if (options.seconds !== undefined) model.options.set('time_limit', options.seconds);
  const status = highs.constants.modelStatus;
  switch (run(highs, model)) {
    case status.optimal:
      return optimum(model, program);
    case status.empty:
      return withoutColumns(program);
    case status.infeasible:
      return ended(program, 'infeasible', 'highs');
    case status.unbounded:
      return ended(program, 'unbounded', 'highs');
    case status.unboundedOrInfeasible:
      return unboundedOrInfeasible(highs, model, program);
    default:
      return atLimit(highs, model, program);
  }
}

/** Runs, and once more without presolve where HiGHS ends with an error: its point failed its own check. */
function run(highs: Highs, model: Model): ModelStatusCode {
  const { presolveError, solveError, postsolveError, unknown } = highs.constants.modelStatus;
  const errors: readonly ModelStatusCode[] = [presolveError, solveError, postsolveError, unknown];
  // The raw call leaves such an error in the status; the other would throw.
  model.raw.run();
  if (!errors.includes(model.getModelStatus())) return model.getModelStatus();
  return runWithoutPresolve(model);
}

function runWithoutPresolve(model: Model): ModelStatusCode {
  model.clearSolver();
  model.options.set('presolve', 'off');
  model.raw.run();
  return model.getModelStatus();
}

/**
 * Integer programs may end as "one of the two". Without an objective only the question of feasibility is left (which
 * presolve of HiGHS 1.15 gets wrong for some integer programs whose objective is zero).
 */
function unboundedOrInfeasible(highs: Highs, model: Model, program: LinearProgram): LinearSolution {
  for (let j = 0; j < program.columns; j++) model.changeColCost(j, 0);
  const { optimal, infeasible } = highs.constants.modelStatus;
  const status = runWithoutPresolve(model);
  const ending = status === optimal ? 'unbounded' : status === infeasible ? 'infeasible' : 'limit';
  return ended(program, ending, 'highs');
}

function optimum(model: Model, program: LinearProgram): LinearSolution {
  const { colValue, rowDual } = model.getSolution();
  const { values, objective } = tidied(program, colValue);
  const found = { ending: 'optimal', values, objective, solver: 'highs' } as const;
  // HiGHS, too, gives a row's dual as the rise of the objective per unit of its limits in either direction.
  if (!isInteger(program)) return { ...found, bound: objective, duals: rowDual.map((dual) => dual + 0) };
  // The bound was proved for the point before its columns were rounded to whole numbers.
  const furthest = program.direction === 'maximise' ? Math.max : Math.min;
  return { ...found, bound: furthest(objective, boundProved(model, program)), duals: null };
}

/** Without columns every row is 0, and HiGHS leaves it at "empty". */
function withoutColumns(program: LinearProgram): LinearSolution {
  const values = new Float64Array(0);
  if (!isFeasible(program, values)) return ended(program, 'infeasible', 'highs');
  return { ending: 'optimal', objective: 0, bound: 0, values, duals: new Float64Array(program.rows), solver: 'highs' };
}

function atLimit(highs: Highs, model: Model, program: LinearProgram): LinearSolution {
  const bound = boundProved(model, program);
  const known = model.info.get('primal_solution_status') === highs.constants.solutionStatus.feasible;
  if (!known) return { ...ended(program, 'limit', 'highs'), bound };
  const { values, objective } = tidied(program, model.getSolution().colValue);
  return { ending: 'limit', objective, bound, values, duals: null, solver: 'highs' };
}

/** Only an integer search proves something on its way. */
function boundProved(model: Model, program: LinearProgram): number {
  return isInteger(program) ? Number(model.info.get('mip_dual_bound')) : noBound(program);
}

function isInteger(program: LinearProgram): boolean {
  return program.integer.includes(1);
}
