import solver from 'javascript-lp-solver';
import { isFeasible, isProvedBest } from './certificate';
import { ended, tidied } from './endings';
import type { LinearProgram } from './program';
import type { LinearSolution } from './solution';

type Model = InstanceType<typeof solver.Model>;
type Tableau = Model['tableau'];
type Variable = ReturnType<Model['addVariable']>;
type Constraint = ReturnType<Model['smallerThan']>;

/** A column as the tableau has it: `origin + sign * (plus - minus)`, both from 0 up. */
interface Piece {
  readonly origin: number;
  readonly sign: number;
  readonly plus: Variable | null;
  readonly minus: Variable | null;
}

interface Row {
  readonly index: number;
  readonly constraint: Constraint;
}

/** What a step costs beside its cells, in cells; it also keeps a small integer program from a search without end. */
const STEP = 5_000;

/**
 * Solves by javascript-lp-solver: a dense tableau, quick while it is small. `work` bounds its steps, in tableau cells
 * touched, since the solver has no limit of its own for linear programs and its first phase can circle for ever.
 *
 * An optimum is given out only where it has been checked: the point against every row, for a program without integer
 * columns also the objective against what the duals prove. Null stands for "no answer that could be trusted": work
 * used up, or a check failed (its rules against circling end with "optimal" whether or not it is).
 */
export function solveByTableau(program: LinearProgram, work: number): LinearSolution | null {
  for (let j = 0; j < program.columns; j++) {
    if (program.lower[j]! > program.upper[j]!) return ended(program, 'infeasible', 'javascript-lp-solver');
  }
  const model = new solver.Model();
  // Its presolve changes costs and its detection of circling answers "infeasible": neither can be relied on.
  model.usePresolve = false;
  model.checkForCycles = false;
  if (program.direction === 'maximise') model.maximize();
  const pieces = addColumns(model, program);
  const rows = addRows(model, program, pieces);
  const { tableau } = model;
  if (!runWithin(work, model)) return null;

  if (!tableau.feasible) return ended(program, 'infeasible', 'javascript-lp-solver');
  if (!tableau.bounded) return ended(program, 'unbounded', 'javascript-lp-solver');
  const { values, objective } = tidied(program, readValues(tableau, pieces));
  if (!isFeasible(program, values)) return null;
  const duals = model.integerVariables.length > 0 ? null : readDuals(model, program, rows);
  if (duals !== null && !isProvedBest(program, objective, duals)) return null;
  return { ending: 'optimal', objective, bound: objective, values, duals, solver: 'javascript-lp-solver' };
}

/** Cells of the dense tableau the program becomes: what one step of javascript-lp-solver costs. */
export function tableauCells(program: LinearProgram): number {
  let width = 1;
  let height = 1;
  for (let j = 0; j < program.columns; j++) {
    const low = program.lower[j]! > -Infinity;
    const high = program.upper[j]! < Infinity;
    width += low || high ? 1 : 2;
    if (low && high) height += 1;
  }
  for (let i = 0; i < program.rows; i++) {
    height += Number(program.rowLower[i]! > -Infinity) + Number(program.rowUpper[i]! < Infinity);
  }
  return width * height;
}

/**
 * The solver knows columns from 0 up only (its own "unrestricted" ones leave the ratio test at the wrong bound), so
 * others are shifted, mirrored or split, and an upper bound is one more row.
 */
function addColumns(model: Model, program: LinearProgram): Piece[] {
  return Array.from({ length: program.columns }, (_, j) => {
    const lower = program.lower[j]!;
    const upper = program.upper[j]!;
    const cost = program.cost[j]!;
    const whole = program.integer[j] === 1;
    if (lower === upper) return { origin: lower, sign: 1, plus: null, minus: null };
    if (lower > -Infinity) {
      const plus = model.addVariable(cost, null, whole);
      if (upper < Infinity) model.smallerThan(upper - lower).addTerm(1, plus);
      return { origin: lower, sign: 1, plus, minus: null };
    }
    if (upper < Infinity) {
      return { origin: upper, sign: -1, plus: model.addVariable(-cost, null, whole), minus: null };
    }
    return {
      origin: 0,
      sign: 1,
      plus: model.addVariable(cost, null, whole),
      minus: model.addVariable(-cost, null, whole),
    };
  });
}

function addRows(model: Model, program: LinearProgram, pieces: readonly Piece[]): Row[] {
  const rows: Row[] = [];
  for (let i = 0; i < program.rows; i++) {
    const start = program.rowStart[i]!;
    const end = program.rowStart[i + 1]!;
    let origin = 0;
    for (let t = start; t < end; t++) origin += program.termValue[t]! * pieces[program.termColumn[t]!]!.origin;
    const lower = program.rowLower[i]! - origin;
    const upper = program.rowUpper[i]! - origin;
    const constraints: Constraint[] = [];
    if (upper < Infinity) constraints.push(model.smallerThan(upper));
    if (lower > -Infinity) constraints.push(model.greaterThan(lower));
    for (const constraint of constraints) {
      rows.push({ index: i, constraint });
      for (let t = start; t < end; t++) {
        const { sign, plus, minus } = pieces[program.termColumn[t]!]!;
        const coefficient = sign * program.termValue[t]!;
        if (plus !== null) constraint.addTerm(coefficient, plus);
        if (minus !== null) constraint.addTerm(-coefficient, minus);
      }
    }
  }
  return rows;
}

class OutOfWork extends Error {}

/** False if the solver needed more. */
function runWithin(work: number, model: Model): boolean {
  const { tableau } = model;
  const pivot = tableau.pivot.bind(tableau);
  let left = work;
  tableau.pivot = (row, column) => {
    left -= STEP + tableau.width * tableau.height;
    if (left < 0) throw new OutOfWork();
    pivot(row, column);
  };
  try {
    model.solve();
    return true;
  } catch (error) {
    if (error instanceof OutOfWork) return false;
    throw error;
  }
}

function readValues(tableau: Tableau, pieces: readonly Piece[]): Float64Array {
  const amount = (variable: Variable | null): number => {
    const row = variable === null ? -1 : tableau.rowByVarIndex[variable.index]!;
    return row === -1 ? 0 : tableau.matrix[row * tableau.width + tableau.rhsColumn]!;
  };
  return Float64Array.from(pieces, ({ origin, sign, plus, minus }) => origin + sign * (amount(plus) - amount(minus)));
}

/**
 * The cost row under a row's slack is its dual, if the slack is out of the basis. The tableau minimises and holds
 * every row as an upper limit, hence the two signs.
 */
function readDuals({ tableau }: Model, program: LinearProgram, rows: readonly Row[]): Float64Array {
  const duals = new Float64Array(program.rows);
  const sense = program.direction === 'maximise' ? -1 : 1;
  for (const { index, constraint } of rows) {
    const column = tableau.colByVarIndex[constraint.slack.index]!;
    if (column === -1) continue;
    const price = tableau.matrix[tableau.costRowIndex * tableau.width + column]!;
    duals[index]! += (constraint.isUpperBound ? sense : -sense) * price;
  }
  return duals;
}
