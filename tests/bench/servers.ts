import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import type { Shop } from '../../core/shop';
import type { Problem } from './catalogue';
import { BadRequest } from './refusal';
import { oneServerShop, type ServedJob } from './server-shop';

const minutes = z.number().int().nonnegative();
const common = { name: z.string().min(1), machines: z.number().int().positive() };

const fixedSequences = z.object({
  instances: z.array(
    z.object({
      ...common,
      lower: minutes,
      upper: minutes,
      /** By machine its jobs in order, each its set-up and the minutes it then runs alone. */
      sequences: z.array(z.array(z.tuple([minutes, minutes])).min(1)),
    }),
  ),
});
type FixedSequences = z.infer<typeof fixedSequences>['instances'][number];

const loadUnload = z.object({
  instances: z.array(
    z.object({
      ...common,
      /** Least makespan where a job must be taken off the moment it ends: more than this model asks. */
      computedOptimal: minutes,
      loading: z.array(minutes).min(1),
      processing: z.array(minutes),
      unloading: z.array(minutes),
    }),
  ),
});
type LoadUnload = z.infer<typeof loadUnload>['instances'][number];

const FIXED = 'single-server-fixed-sequence.json';
const UNLOAD = 'single-server-load-unload.json';

/** Machines attended by a single person, from a folder that holds one or both of the two files. */
export function serverProblems(folder: string): Problem[] {
  const found = [
    ...(read(folder, FIXED, fixedSequences)?.instances.map(fixedProblem) ?? []),
    ...(read(folder, UNLOAD, loadUnload)?.instances.map(unloadProblem) ?? []),
  ];
  if (found.length === 0) throw new BadRequest(`There is neither ${FIXED} nor ${UNLOAD} in ${folder}.`);
  return found;
}

function read<T>(folder: string, name: string, schema: z.ZodType<T>): T | null {
  const file = join(folder, name);
  if (!existsSync(file)) return null;
  const parsed = schema.safeParse(json(file));
  if (parsed.success) return parsed.data;
  const issue = parsed.error.issues[0];
  throw new BadRequest(`${file}: ${issue?.path.join('/') ?? ''}: ${issue?.message ?? 'it cannot be read'}`);
}

function json(file: string): unknown {
  try {
    return JSON.parse(readFileSync(file, 'utf8'));
  } catch {
    throw new BadRequest(`${file} is no JSON.`);
  }
}

function fixedProblem(instance: FixedSequences): Problem {
  const { name, lower, upper, machines, sequences } = instance;
  if (sequences.length !== machines)
    throw new BadRequest(`${name} has ${sequences.length} sequences, not ${machines}.`);
  // A bound anyone can compute: no published word is needed for it.
  const isTrivial = trivialBound(sequences) === upper;
  return {
    ...{ name, operators: 0, lower, upper, evidence: isTrivial ? 'trivial' : 'table' },
    set: `server, fixed ${/^[^-]*/.exec(name)?.[0] ?? ''}`,
    shop: () => fixedShop(name, sequences),
  };
}

/**
 * The job order of a machine is a route through that machine again and again: each step is on only after the one before
 * is off (rule 6). A set-up is loading on the table, which takes the person and the machine; the cut begins with its end
 * and runs alone; nothing is taken off by hand. So a legal plan is a schedule of the published model and the other way
 * round, with the same makespan (a schedule that waits between set-up and run is no shorter than one that does not).
 */
function fixedShop(name: string, sequences: FixedSequences['sequences']): Shop {
  const jobs = sequences.map((sequence, m) =>
    sequence.map(([load, cut]): ServedJob => ({ machines: [m], load, cut, unload: 0 })),
  );
  return oneServerShop(name, sequences.length, jobs);
}

/** The busiest machine; or all set-ups in a row and the shortest run that can follow the last. */
function trivialBound(sequences: FixedSequences['sequences']): number {
  const busiest = Math.max(...sequences.map((sequence) => sum(sequence.flat())));
  const setUps = sum(sequences.flatMap((sequence) => sequence.map(([setUp]) => setUp)));
  return Math.max(busiest, setUps + Math.min(...sequences.map((sequence) => sequence.at(-1)![1])));
}

/**
 * Not the published model to the letter: there a job is taken off the moment it ends, here a finished part may wait on
 * its table for the person. Each published schedule is a legal plan, so `upper` can be reached; a plan may be shorter.
 * What no plan can beat is computed here, for two machines.
 */
function unloadProblem(instance: LoadUnload): Problem {
  const { name, machines, computedOptimal, loading, processing, unloading } = instance;
  const count = loading.length;
  if (processing.length !== count || unloading.length !== count || machines !== 2) {
    throw new BadRequest(`${name} is no instance of two machines, each job with loading, processing and unloading.`);
  }
  return {
    ...{ name, operators: 0, upper: computedOptimal, evidence: 'trivial' },
    lower: waitingBound(instance),
    set: 'server, load and unload',
    shop: () =>
      oneServerShop(
        name,
        machines,
        loading.map((load, j) => [{ machines: [0, 1], load, cut: processing[j]!, unload: unloading[j]! }]),
      ),
  };
}

/**
 * Of two machines one begins at least the shortest loading after the other and one ends at least the shortest
 * unloading before the other, as the person does one at a time; the rest of twice the makespan holds all the work.
 */
function waitingBound({ loading, processing, unloading }: LoadUnload): number {
  const work = sum(loading) + sum(processing) + sum(unloading);
  return Math.ceil((work + Math.min(...loading) + Math.min(...unloading)) / 2);
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
