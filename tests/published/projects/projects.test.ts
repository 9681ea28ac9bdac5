import { beforeAll, describe, expect, it } from 'vitest';
import { type Planned, planned } from '../sequencing/plan';
import { leastMakespan } from './exact';
import { projectOf, shopOf, staffed } from './project';

/**
 * People alone are scarce here. The instances are variants of our own, derived from published projects as `staffed`
 * says; the optima are those of our exact model, not published ones.
 */
describe.each([
  { name: 'j30_1_1', optimum: 27, simple: 26 },
  { name: 'j30_18_1', optimum: 34, simple: 29 },
  { name: 'j30_20_1', optimum: 40, simple: 38 },
  { name: 'j30_34_1', optimum: 42, simple: 41 },
])('people at the 30 activities of $name, one at each', ({ name, optimum, simple }) => {
  const project = staffed(projectOf(name));
  let result: Planned;

  beforeAll(async () => {
    // The best of three short searches: one may end a minute late.
    const searches = [1, 2, 3].map((seed) => planned(shopOf(project), { steps: 20_000, seed }));
    const results = await Promise.all(searches);
    for (const { verdict } of results) expect(verdict.breaches).toEqual([]);
    result = results.toSorted((a, b) => a.makespan - b.makespan)[0]!;
  });

  it(`are done after ${optimum} minutes, as soon as an exact model can be`, async () => {
    const { plan, makespan } = result;
    expect(plan.runs).toHaveLength(30);
    expect(makespan).toBe(optimum);
    // A legal plan bounds the model's horizon.
    const { ending, objective } = await leastMakespan(project, makespan);
    expect(ending).toBe('optimal');
    expect(Math.round(objective)).toBe(optimum);
  }, 60_000);

  it(`take longer than the longest chain and the busiest skill, ${simple} minutes, and no bound of ours is above the optimum`, () => {
    const minutes = (tasks: readonly { readonly duration: number }[]) => tasks.reduce((sum, t) => sum + t.duration, 0);
    const tasks = project.chains.flat();
    const busiest = project.people.map((people, skill) =>
      Math.ceil(minutes(tasks.filter((task) => task.skill === skill)) / people),
    );
    expect(Math.max(...project.chains.map(minutes), ...busiest)).toBe(simple);
    expect(result.plan.bound!.finish * 60).toBeLessThanOrEqual(optimum + 1e-6);
  });
});

describe('a published project', () => {
  it.each(['j30_1_1', 'j30_18_1', 'j30_20_1', 'j30_34_1'])('is no shop as it stands: %s', (name) => {
    const { activities } = projectOf(name);
    expect(activities).toHaveLength(30);
    expect(activities.some(({ demands }) => Math.max(...demands) > 1)).toBe(true);
    const followers = activities.flatMap(({ successors }) => successors);
    expect(new Set(followers).size).toBeLessThan(followers.length);
  });
});
