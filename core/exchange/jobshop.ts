import { accept, type Result, refuse } from '../shop';
import { type NumberLine, numberLines } from './number-lines';

/** A job shop as instance files give it: who may do each operation and how long it takes there. */
export interface JobShop {
  readonly name: string;
  /** Number of machines; they are numbered from 0, whatever the file does. */
  readonly machines: number;
  /** Each job is its operations in order; an operation with one alternative has no choice of machine. */
  readonly jobs: readonly (readonly JobShopOperation[])[];
}

export interface JobShopOperation {
  readonly alternatives: readonly { readonly machine: number; readonly minutes: number }[];
}

/** Operations before it is known whether the file counts machines from 0 or from 1. */
type RawJob = { line: number; alternatives: { machine: number; minutes: number }[] }[];

/** A reading that failed, and the line that broke it (0: the whole file). */
interface Misread {
  readonly line: number;
  readonly say: string;
}

/**
 * A job shop in the text format of the public instance collections. First line: number of jobs, number of machines
 * and, in flexible instances, sometimes the mean number of alternatives. Then one line a job. Classical: pairs
 * `machine duration`. Flexible: number of operations, then for each the number of alternatives and so many pairs.
 * Which of the two it is and whether machines count from 0 or 1 is told from the numbers. Jobs may differ in length
 * and visit a machine again. Blank lines, text before the first line and comments after `#`, `;`, `%` or `//` are
 * skipped.
 */
export function readJobShop(text: string, name: string): Result<JobShop> {
  const lines = numberLines(text);
  if (!lines.ok) return lines;
  const [header, ...body] = lines.value;
  const size = header === undefined ? null : sizeOf(header);
  if (header === undefined || size === null) {
    return misread(header?.line ?? 0, 'expected the number of jobs and the number of machines, such as "6 6"');
  }
  const broken = body.flatMap(({ line, numbers }) => {
    const bad = numbers.find((n) => !Number.isSafeInteger(n) || n < 0);
    return bad === undefined ? [] : [{ line, say: `${bad} is not a whole number of 0 or more` }];
  });
  if (broken[0] !== undefined) return misread(broken[0].line, broken[0].say);
  const jobs = readBody(size, body, header.numbers.length === 3);
  if ('say' in jobs) return misread(jobs.line, jobs.say);
  return numberedFromZero(name, size.machines, jobs);
}

function misread<T>(line: number, say: string): Result<T> {
  const place = line === 0 ? 'Job-shop file' : `Job-shop file, line ${line}`;
  const remedy = 'Correct the file, or choose another.';
  return refuse({
    code: 'bad-job-shop',
    at: line === 0 ? [] : [line],
    say: `${place}: ${say}. ${remedy}`,
    level: 'error',
  });
}

interface Size {
  readonly jobs: number;
  readonly machines: number;
}

function sizeOf({ numbers }: NumberLine): Size | null {
  const [jobs, machines] = numbers;
  if (jobs === undefined || machines === undefined || numbers.length > 3) return null;
  const whole = Number.isSafeInteger(jobs) && Number.isSafeInteger(machines);
  return whole && jobs > 0 && machines > 0 ? { jobs, machines } : null;
}

/**
 * Short files can be read both ways. A third number in the first line speaks for flexible; without it, lines that
 * each visit every machine once are classical, whatever else they could mean.
 */
function readBody(size: Size, body: readonly NumberLine[], third: boolean): RawJob[] | Misread {
  const classical = readClassical(size, body);
  const flexible = readFlexible(size, body);
  if ('say' in classical && 'say' in flexible) return third ? flexible : furthest(classical, flexible);
  if ('say' in classical) return flexible;
  if ('say' in flexible) return classical;
  return third || !classical.every((job) => visitsAllOnce(size, job)) ? flexible : classical;
}

/** The reading that got further is the one that was meant. */
function furthest(a: Misread, b: Misread): Misread {
  return (a.line || Number.POSITIVE_INFINITY) >= (b.line || Number.POSITIVE_INFINITY) ? a : b;
}

function visitsAllOnce(size: Size, job: RawJob): boolean {
  const visited = new Set(job.flatMap((operation) => operation.alternatives.map((a) => a.machine)));
  return job.length === size.machines && visited.size === size.machines;
}

function readClassical(size: Size, body: readonly NumberLine[]): RawJob[] | Misread {
  const lines = body.length === size.jobs ? body : rewrapped(size, body);
  if (lines === null) {
    const say = `the first line says ${size.jobs} jobs, and ${body.length} lines of jobs follow`;
    return { line: 0, say };
  }
  const jobs: RawJob[] = [];
  for (const { line, numbers } of lines) {
    if (numbers.length % 2 === 1) {
      return { line, say: `a job is pairs of machine and duration, and this line has ${numbers.length} numbers` };
    }
    const job: RawJob = [];
    for (let i = 0; i < numbers.length; i += 2) {
      const [machine = 0, minutes = 0] = numbers.slice(i, i + 2);
      if (machine > size.machines) return { line, say: `there is no machine ${machine} among ${size.machines}` };
      job.push({ line, alternatives: [{ machine, minutes }] });
    }
    jobs.push(job);
  }
  return jobs;
}

/** Jobs that visit each machine once may be broken over lines anyhow, as long as the count is right. */
function rewrapped(size: Size, body: readonly NumberLine[]): NumberLine[] | null {
  const flat = body.flatMap(({ line, numbers }) => numbers.map((number) => ({ line, number })));
  const length = 2 * size.machines;
  if (flat.length !== size.jobs * length) return null;
  return Array.from({ length: size.jobs }, (_, j) => {
    const part = flat.slice(j * length, (j + 1) * length);
    return { line: part[0]?.line ?? 0, numbers: part.map((p) => p.number) };
  });
}

function readFlexible(size: Size, body: readonly NumberLine[]): RawJob[] | Misread {
  const flat = body.flatMap(({ line, numbers }) => numbers.map((number) => ({ line, number })));
  let next = 0;
  const take = (): { line: number; number: number } | null => flat[next++] ?? null;
  const short: Misread = { line: flat.at(-1)?.line ?? 0, say: 'the file ends before the last job is complete' };
  const jobs: RawJob[] = [];
  while (jobs.length < size.jobs) {
    const operations = take();
    if (operations === null) return short;
    if (operations.number === 0) return { line: operations.line, say: 'the job has no operation' };
    const job: RawJob = [];
    while (job.length < operations.number) {
      const count = take();
      if (count === null) return short;
      const { line } = count;
      const most = count.number;
      if (most === 0 || most > size.machines) {
        return { line, say: `an operation has ${most} alternatives, and there are ${size.machines} machines` };
      }
      const alternatives: { machine: number; minutes: number }[] = [];
      while (alternatives.length < most) {
        const [machine, minutes] = [take(), take()];
        if (machine === null || minutes === null) return short;
        if (machine.number > size.machines) {
          return { line: machine.line, say: `there is no machine ${machine.number} among ${size.machines}` };
        }
        alternatives.push({ machine: machine.number, minutes: minutes.number });
      }
      job.push({ line, alternatives });
    }
    jobs.push(job);
  }
  const over = flat[next];
  if (over !== undefined) return { line: over.line, say: `numbers are left over after job ${size.jobs}` };
  return jobs;
}

/** Machine 0 is only there if counting starts at 0, machine `machines` only if it starts at 1. */
function numberedFromZero(name: string, machines: number, raw: readonly RawJob[]): Result<JobShop> {
  const all = raw.flat().flatMap(({ line, alternatives }) => alternatives.map((a) => ({ line, ...a })));
  const zero = all.some((a) => a.machine === 0);
  const last = all.find((a) => a.machine === machines);
  if (zero && last !== undefined) {
    return misread(last.line, `machines count from 0 elsewhere, so there is no machine ${machines}`);
  }
  // With neither of the two the numbers do not tell; the flexible collections count from 1, the classical from 0.
  const flexible = raw.some((job) => job.some((operation) => operation.alternatives.length > 1));
  const base = last !== undefined || (!zero && flexible) ? 1 : 0;
  const empty = raw.findIndex((job) => job.length === 0);
  if (empty >= 0) return misread(0, `job ${empty + 1} has no operation`);
  return accept({
    name,
    machines,
    jobs: raw.map((job) =>
      job.map(({ alternatives }) => ({
        alternatives: alternatives.map(({ machine, minutes }) => ({ machine: machine - base, minutes })),
      })),
    ),
  });
}
