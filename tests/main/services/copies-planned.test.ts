import { describe, expect, it } from 'vitest';
import type { Events } from '../../../core/contract';
import { benchWith } from '../../support/services-for-test';

async function benchWithCopies(...names: string[]) {
  const bench = await benchWith();
  for (const name of names) await bench.ask('copy.make', { name });
  const said: Events['copy.said'][] = [];
  bench.services.listen((name, event) => {
    if (name === 'copy.said') said.push(event as Events['copy.said']);
  });
  return { ...bench, said };
}

describe('copies of the shop', () => {
  it('are planned without the call waiting for the plans', async () => {
    const { ask, solver } = await benchWithCopies('One', 'Two');
    expect(await ask('copy.plan', { ids: ['1', '2'], seconds: 60, seed: 1 })).toBeNull();
    await expect.poll(() => solver.jobs.length).toBe(1);
    expect((await ask('copy.list', null)).map(({ planning }) => planning)).toEqual([true, false]);
  });

  it('say each for itself why they were not planned, and the next is planned all the same', async () => {
    const { ask, said, solver } = await benchWithCopies('One', 'Two');
    await ask('copy.call', { copy: '1', call: 'shop.remove', sent: { table: 'machines', id: 'M1' } });
    await ask('copy.plan', { ids: ['1', '9', '2'], seconds: 1, seed: 1 });
    await expect.poll(() => solver.jobs.length).toBe(1);
    const failed = said.filter(({ event }) => event === 'plan.failed').map(({ copy }) => copy);
    expect(failed).toEqual(['1', '9']);
  });

  it('cannot be discarded while they are planned from inside', async () => {
    const { ask, refused, solver, said } = await benchWithCopies('One');
    await ask('copy.call', { copy: '1', call: 'plan.start', sent: { seconds: 60, seed: 1, near: false } });
    await expect.poll(() => solver.jobs.length).toBe(1);
    expect(said.every(({ event }) => event !== 'plan.failed')).toBe(true);
    expect((await refused('copy.discard', { id: '1' }))[0]?.say).toContain('stop it first');
  });

  it('are not what people work by: a plan of one cannot be released', async () => {
    const { refused } = await benchWithCopies('One');
    const [fault] = await refused('copy.call', { copy: '1', call: 'plan.release', sent: { id: 1, checked: [] } });
    expect(fault?.say).toBe('plan.release is not asked of a copy of the shop.');
  });

  it('never get the number of one that was discarded, on which a screen may still be open', async () => {
    const { ask } = await benchWithCopies('One', 'Two');
    await ask('copy.discard', { id: '2' });
    expect((await ask('copy.make', { name: 'Three' })).map(({ id }) => id)).toEqual(['1', '3']);
  });
});
