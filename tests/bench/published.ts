import { type CommandName, isWanted, type Request } from './arguments';
import { attendedProblems } from './attended';
import { type Instance, jobShopProblems, type Problem } from './catalogue';
import { BadRequest } from './refusal';
import type { Print, Report, SetResult } from './report';
import { measure, type Run } from './run';
import { serverProblems } from './servers';
import { distance, mean } from './statistics';
import { type Column, figure, heading, line } from './table';

const COLUMNS: readonly Column[] = [
  { title: 'instance', width: 19, align: 'left' },
  { title: 'best known', width: 11, align: 'right' },
  { title: 'found', width: 6, align: 'right' },
  { title: '% above', width: 7, align: 'right' },
  { title: 'our bound', width: 9, align: 'right' },
  { title: 's to best', width: 9, align: 'right' },
  { title: 's in all', width: 8, align: 'right' },
  { title: 'ending', width: 7, align: 'left' },
];

const SET_COLUMNS: readonly Column[] = [
  { title: 'set', width: 24, align: 'left' },
  { title: 'instances', width: 9, align: 'right' },
  { title: 'mean % above', width: 12, align: 'right' },
  { title: 'best known reached', width: 18, align: 'right' },
];

interface Row {
  readonly instance: string;
  readonly operators: number;
  readonly set: string;
  readonly evidence: string;
  readonly lower: number;
  readonly upper: number;
  readonly found: number;
  /** Percent above the best known makespan. */
  readonly distance: number;
  readonly bound: number | null;
  readonly secondsToBest: number;
  readonly seconds: number;
  readonly steps: number;
  readonly memory: number;
  readonly ending: string;
}

/** Commands that plan instances with published bounds. */
export type PublishedCommand = Exclude<CommandName, 'nights' | 'simulate' | 'compare'>;

/** Plans published instances and compares their makespans with the best known. */
export async function benchPublished(command: PublishedCommand, request: Request, print: Print): Promise<Report> {
  const instances = problemsOf(command, request.data).filter(
    ({ name, operators }) => isWanted(request.only, name) && (operators === 0 || request.operators.includes(operators)),
  );
  if (instances.length === 0) throw new BadRequest(`No instance of ${command} has such a name.`);
  print(
    `${command}: ${instances.length} instances, ${request.seconds} s each, ${request.workers} workers, seed ${request.seed}\n`,
  );
  print(heading(COLUMNS));
  const rows: Row[] = [];
  const failures: string[] = [];
  for (const instance of instances) {
    const run = await measure(instance.shop(), request.seconds, request.seed, request.workers);
    const wrong = [...illegal(run), ...outsideBounds(instance, run)].map((say) => `${labelOf(instance)}: ${say}`);
    if (wrong.length === 0) {
      const row = rowOf(instance, run);
      rows.push(row);
      print(lineOf(instance, row));
    } else {
      print(`${labelOf(instance)}  not counted`);
    }
    for (const say of wrong) print(`  ! ${say}`);
    failures.push(...wrong);
  }
  const sets = setsOf(rows);
  print(`\n${heading(SET_COLUMNS)}`);
  for (const { set, instances: count, distance: above, reached } of sets) {
    print(line(SET_COLUMNS, [set, String(count), figure(above, 3), String(reached)]));
  }
  const below = rows.filter((row) => row.found < row.lower);
  for (const { instance: name, operators, found, lower } of below) {
    const plan = `${labelOf({ name, operators })}: ${found}`;
    print(`\n${plan} is below the published bound ${lower}, which no refereed paper vouches for.`);
  }
  return { rows: rows.map((row) => ({ ...row })), sets, failures };
}

function problemsOf(command: PublishedCommand, data: string | null): Problem[] {
  if (command !== 'servers' && command !== 'attended') return jobShopProblems(command, data);
  if (data === null) {
    throw new BadRequest(
      `The instances of ${command} came without a licence; name a folder that has them with --data.`,
    );
  }
  return command === 'servers' ? serverProblems(data) : attendedProblems(data);
}

function labelOf({ name, operators }: Pick<Instance, 'name' | 'operators'>): string {
  return operators > 0 ? `${name} p=${operators}` : name;
}

function illegal({ breaches, plan }: Run): string[] {
  const left = plan.left.length === 0 ? [] : [`${plan.left.length} operations are left out`];
  return [...breaches, ...left];
}

/** What bounds from refereed papers or of plain counting, and a plan of our own, show to be impossible. */
function outsideBounds({ lower, upper, evidence }: Instance, { plan }: Run): string[] {
  const [found, bound] = [makespanOf(plan), boundOf(plan)];
  const wrong: string[] = [];
  if (bound !== null && bound > found) wrong.push(`our bound ${bound} is above our own plan of ${found}`);
  const isVouchedFor = evidence === 'literature' || evidence === 'trivial';
  if (isVouchedFor && found < lower) wrong.push(`a plan of ${found} is below ${lower}, proved to be the least`);
  if (evidence === 'literature' && bound !== null && bound > upper)
    wrong.push(`our bound ${bound} is above ${upper}, which is known to be possible`);
  return wrong;
}

function makespanOf({ cost }: Run['plan']): number {
  return Math.round(cost.finish * 60);
}

function boundOf({ bound }: Run['plan']): number | null {
  // A bound in hours; the hair's breadth is for what is lost in the division.
  return bound === null ? null : Math.ceil(bound.finish * 60 - 1e-6);
}

function rowOf(instance: Problem, { plan, moments, seconds, memory }: Run): Row {
  const found = makespanOf(plan);
  return {
    instance: instance.name,
    operators: instance.operators,
    set: instance.set,
    evidence: instance.evidence,
    lower: instance.lower,
    upper: instance.upper,
    found,
    distance: distance(found, instance.upper) ?? 0,
    bound: boundOf(plan),
    secondsToBest: moments.at(-1)?.seconds ?? seconds,
    seconds,
    steps: plan.search.steps,
    memory,
    ending: plan.search.ending,
  };
}

function lineOf(instance: Instance, row: Row): string {
  const { lower, upper } = row;
  return line(COLUMNS, [
    labelOf(instance),
    lower === upper ? String(upper) : `${lower}-${upper}`,
    String(row.found),
    figure(row.distance, 2),
    figure(row.bound, 0),
    figure(row.secondsToBest, 2),
    figure(row.seconds, 2),
    row.ending,
  ]);
}

function setsOf(rows: readonly Row[]): SetResult[] {
  return [...new Set(rows.map(({ set }) => set))].map((set) => {
    const members = rows.filter((row) => row.set === set);
    return {
      set,
      instances: members.length,
      distance: mean(members.map((row) => row.distance)),
      reached: members.filter(({ found, upper }) => found <= upper).length,
    };
  });
}
