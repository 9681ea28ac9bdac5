import { describe, expect, it } from 'vitest';
import { readPdf } from '../../support/read-pdf';
import { benchWith } from '../../support/services-for-test';

async function planned() {
  const bench = await benchWith();
  const done = bench.next('plan.done');
  await bench.ask('plan.start', { seconds: 1, seed: 1, near: false });
  await bench.solver.finish();
  return { bench, id: (await done).id };
}

describe('the run sheet of a stored plan', () => {
  it('has a page for each machine of the shop, and what is usual to see to before going home', async () => {
    const { bench, id } = await planned();
    const { shop } = await bench.ask('plan.read', { id });
    const sheet = await bench.ask('sheet.read', { id });
    expect(sheet).toMatchObject({ shop: shop.name, plan: id, standing: 'not released' });
    const titles = sheet.pages.filter((page) => page.of === 'machine').map(({ title }) => title);
    expect(titles).toEqual(shop.machines.map((machine) => machine.id));
    expect(sheet.pages.at(-1)?.checks.map(({ say }) => say)).toContain('Filter clean');
  });

  it('says that it is released once it is, on the sheet and on its PDF', async () => {
    const { bench, id } = await planned();
    await bench.ask('plan.release', { id, checked: [] });
    expect((await bench.ask('sheet.read', { id })).standing).toBe('released Wed 25 Nov 08:00');
    const { fileName, base64 } = await bench.ask('sheet.pdf', { id, paper: 'A4' });
    expect(fileName).toMatch(/^[a-z0-9-]+-run-sheet-plan-\d+\.pdf$/);
    const pages = readPdf(Buffer.from(base64, 'base64'));
    for (const { text } of pages) expect(text).toContain('released Wed 25 Nov 08:00');
  });

  it('is refused for a plan that is not there, and for a paper nobody has', async () => {
    const { bench, id } = await planned();
    expect(await bench.refused('sheet.read', { id: 99 })).toMatchObject([{ code: 'no-such-plan' }]);
    expect(await bench.refused('sheet.pdf', { id, paper: 'A3' })).toMatchObject([
      { code: 'bad-input', say: 'sheet.pdf, paper: must be A4 or Letter.' },
    ]);
  });
});
