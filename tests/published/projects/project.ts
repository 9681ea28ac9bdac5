import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { jobShopAsShop } from '../../../core/exchange';
import { type Shop, shopSchema } from '../../../core/shop';
import { WEEKDAYS } from '../../../core/time';

/** A project as published, its two dummy activities left out; activities are numbered from 0. */
export interface Project {
  readonly name: string;
  readonly capacities: readonly number[];
  readonly activities: readonly Activity[];
}

export interface Activity {
  readonly duration: number;
  /** Units of each resource it needs throughout. */
  readonly demands: readonly number[];
  readonly successors: readonly number[];
}

/** A published instance from its copy; durations, demands and successors as numbers in a row (Patterson's format). */
export function projectOf(name: string): Project {
  const file = fileURLToPath(new URL(`./instances/${name}.rcp`, import.meta.url));
  const numbers = readFileSync(file, 'utf8').trim().split(/\s+/).map(Number);
  const take = (count: number) => numbers.splice(0, count);
  const [count = 0, resources = 0] = take(2);
  const capacities = take(resources);
  const all = Array.from({ length: count }, () => {
    const [duration = 0] = take(1);
    const demands = take(resources);
    const [successors = 0] = take(1);
    return { duration, demands, successors: take(successors) };
  });
  // The first and the last are dummies, and the file counts from 1.
  const activities = all.slice(1, -1).map((activity) => ({
    ...activity,
    successors: activity.successors.filter((number) => number < count).map((number) => number - 2),
  }));
  return { name, capacities, activities };
}

/** What is left of a project where people do it, one at each activity. */
export interface StaffedProject {
  readonly name: string;
  /** People by skill; nobody has two. */
  readonly people: readonly number[];
  /** Each is done in order. */
  readonly chains: readonly (readonly Task[])[];
}

export interface Task {
  readonly duration: number;
  readonly skill: number;
}

/**
 * A variant of our own. A published project does not fit the shop: its activities need several units of a resource at
 * once, where an attendance is one person, and follow several others, where a route is a chain. So each activity here
 * needs one person, with the skill that stands for the one resource it asks for; the people of a skill are as many as
 * its average activity could be done side by side; and each activity keeps the first of its successors that no
 * other has kept.
 */
export function staffed({ name, capacities, activities }: Project): StaffedProject {
  const skills = activities.map(({ demands }) => demands.findIndex((units) => units > 0));
  const people = capacities.map((capacity, k) => {
    const asked = activities.flatMap(({ demands }) => (demands[k]! > 0 ? demands[k]! : []));
    return asked.length === 0 ? 1 : Math.max(1, Math.floor((capacity * asked.length) / asked.reduce((a, b) => a + b)));
  });
  const kept = new Map<number, number>();
  const taken = new Set<number>();
  for (const [a, { successors }] of activities.entries()) {
    const next = successors.find((b) => !taken.has(b));
    if (next === undefined) continue;
    kept.set(a, next);
    taken.add(next);
  }
  const chains = activities.flatMap((_, a) => {
    if (taken.has(a)) return [];
    const chain: Task[] = [];
    for (let at: number | undefined = a; at !== undefined; at = kept.get(at)) {
      chain.push({ duration: activities[at]!.duration, skill: skills[at]! });
    }
    return [chain];
  });
  return { name, people, chains };
}

/** Each chain is a job at a bench of its own, so that only people are scarce; they are there round the clock. */
export function shopOf({ name, people, chains }: StaffedProject): Shop {
  const plain = jobShopAsShop({
    name,
    machines: chains.length,
    jobs: chains.map((chain, machine) =>
      chain.map(({ duration }) => ({ alternatives: [{ machine, minutes: duration }] })),
    ),
  });
  return shopSchema.parse({
    ...plain,
    machines: plain.machines.map(({ id }) => ({ id, kind: 'bench' })),
    people: people.flatMap((count, skill) =>
      Array.from({ length: count }, (_, i) => ({
        id: `R${skill + 1}-${i + 1}`,
        skills: [`R${skill + 1}`],
        hours: [{ days: [...WEEKDAYS], from: '00:00', to: '24:00' }],
      })),
    ),
    jobs: plain.jobs.map((job, j) => ({
      ...job,
      route: job.route.map((operation, s) => ({ ...operation, skill: `R${chains[j]![s]!.skill + 1}` })),
    })),
  });
}
