import { describe, expect, it } from 'vitest';
import { benchWith } from '../../support/services-for-test';

async function planned() {
  const bench = await benchWith();
  const done = bench.next('plan.done');
  await bench.ask('plan.start', { seconds: 1, seed: 1, near: false });
  await bench.solver.finish();
  return { bench, id: (await done).id };
}

describe('tonight', () => {
  it('plays ten thousand nights of a stored plan, and reads its tools', async () => {
    const { bench, id } = await planned();
    const view = await bench.ask('tonight.read', { id });
    expect(view).toMatchObject({ id, outcome: { nights: 10_000 }, presets: { total: 0 } });
    expect(view.checks.map(({ say }) => say)).toContain('Filter clean');
    // A second look asks for nothing to be worked out again.
    expect(await bench.ask('tonight.read', { id })).toBe(view);
  });

  it('prices what would buy more, one thing after the other', async () => {
    const { bench, id } = await planned();
    const bought: string[] = [];
    bench.services.listen((name, event) => {
      if (name === 'tonight.bought') bought.push((event as { purchase: { say: string } }).purchase.say);
    });
    const ended = bench.next('tonight.done');
    await bench.ask('tonight.buy', { id, visitAt: null });
    expect(await ended).toEqual({ id, say: null });
    expect(new Set(bought).size).toBe(bought.length);
  }, 60_000);

  it('refuses a plan that is not there, and a visit at no time', async () => {
    const { bench, id } = await planned();
    expect(await bench.refused('tonight.read', { id: 99 })).toMatchObject([{ code: 'no-such-plan' }]);
    expect(await bench.refused('tonight.buy', { id, visitAt: 'at two' })).toMatchObject([{ code: 'bad-input' }]);
  });
});

describe('a release', () => {
  it('stays with the plan, and the next plan starts from it', async () => {
    const { bench, id } = await planned();
    const view = await bench.ask('plan.release', { id, checked: ['usual Filter clean'] });
    expect(view.released).toEqual({ at: '2026-11-25T08:00', checked: ['usual Filter clean'] });
    expect((await bench.ask('plan.current', null))?.released).toEqual(view.released);
    const done = bench.next('plan.done');
    await bench.ask('plan.start', { seconds: 1, seed: 1, near: false });
    expect(bench.solver.jobs.at(-1)?.released).toEqual(view.plan);
    await bench.solver.finish();
    await done;
    expect((await bench.ask('plan.current', null))?.released).toBeNull();
  });

  it('is gone with the plans when another shop takes their place', async () => {
    const { bench, id } = await planned();
    await bench.ask('plan.release', { id, checked: [] });
    await bench.ask('shop.reset', { to: 'demo' });
    expect(await bench.ask('plan.current', null)).toBeNull();
  });
});
