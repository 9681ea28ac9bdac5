import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readPlanText, writeShopText } from '../../../core/exchange';
import { command, startCommand } from '../../support/command-for-test';
import { smallShop } from '../../support/small-shop';
import { tempFolder } from '../../support/temp-folder';

function shopFile(text = writeShopText(smallShop())): string {
  const file = join(tempFolder(), 'shop.json');
  writeFileSync(file, text);
  return file;
}

function planFile(text: string): string {
  const file = join(tempFolder(), 'plan.json');
  writeFileSync(file, text);
  return file;
}

describe('plan', () => {
  it('prints the numbers first, then runs by machine, rounds, what stands and what is late', async () => {
    const { code, out, err } = await command('plan', 'demo', '--at', '2026-11-30T13:00', '--steps', '3000');
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(
      /^Demo shop: plan as of Mon 30 Nov, 13:00\n\n {2}Tonight +\d+\.\d h to expect of at most \d+\.\d h, \d+\.\d h loaded/,
    );
    const sections = out.split('\n\n').map((section) => section.split('\n')[0]);
    expect(sections.slice(2)).toEqual([
      'M1  Mill 1',
      'M2  Mill 2',
      'MG1  Mill-grinder 1',
      'G1  Grinder 1',
      'B1  Bench',
      'Rounds',
      'What stands, and why',
      'Late',
    ]);
    expect(out).toMatch(/^ {2}Mon \d\d:\d\d-\d\d:\d\d +J-\d+\/\d+\/\d+ {2}P-\d\d {2}load Mon \d\d:\d\d/m);
    expect(out).toMatch(/^ {4}\d\d:\d\d {2}\S+ +(Load|Unload|Check)/m);
    expect(out).toMatch(/Dry until/);
  });

  it('stays within 100 columns', async () => {
    const { out } = await command('plan', 'demo', '--seconds', '0.1');
    expect(out.split('\n').filter((line) => line.length > 100)).toEqual([]);
  });

  it('with --json prints a plan file that check finds legal', async () => {
    const demo = await command('plan', 'demo', '--seconds', '0.1', '--json');
    expect(await command('check', 'demo', planFile(demo.out))).toMatchObject({
      code: 0,
      out: expect.stringMatching(/^Legal: \d+ runs planned/),
    });
    const shop = shopFile();
    const own = await command('plan', shop, '--seconds', '0.1', '--json');
    expect(readPlanText(own.out)).toMatchObject({ ok: true, value: { shop: 'Small shop' } });
    expect(await command('check', shop, planFile(own.out))).toMatchObject({ code: 0 });
  });

  it('plans from the moment and with the seed it is given', async () => {
    const given = ['--at', '2026-11-26T07:00', '--seed', '5', '--seconds', '0.1', '--json'];
    const { code, out } = await command('plan', shopFile(), ...given);
    expect(code).toBe(0);
    const plan = JSON.parse(out);
    expect(plan.search.seed).toBe(5);
    expect(Math.min(...plan.runs.map((run: { start: number }) => run.start))).toBeGreaterThanOrEqual(plan.now);
  });

  it('searches with as many workers as it is told', async () => {
    const shop = shopFile();
    for (const workers of ['1', '3']) {
      const given = ['--workers', workers, '--seed', '5', '--seconds', '0.1', '--json'];
      const { code, out } = await command('plan', shop, ...given);
      expect([code, JSON.parse(out).search.seed]).toEqual([0, 5]);
      expect(await command('check', shop, planFile(out))).toMatchObject({ code: 0 });
    }
  });

  it('gives the same plan again for the same seed, number of workers and steps', async () => {
    const given = ['plan', shopFile(), '--steps', '200', '--workers', '2', '--seed', '5', '--json'];
    const plans = [await command(...given), await command(...given)].map(({ out }) => JSON.parse(out));
    const [once, again] = plans.map(({ search: { seconds: _, ...search }, ...plan }) => ({ ...plan, search }));
    expect(once).toEqual(again);
    expect(once.search).toMatchObject({ seed: 5, steps: 400 });
  });

  it('counts what moves away from a released plan', async () => {
    const shop = shopFile();
    const before = await command('plan', shop, '--seconds', '0.1', '--json');
    const released = planFile(before.out);
    const after = await command('plan', shop, '--seconds', '0.1', '--released', released, '--json');
    expect(JSON.parse(after.out).cost.moved).toBe(0);
    expect((await command('check', shop, planFile(after.out), '--released', released)).code).toBe(0);
  });

  it('stopped by Ctrl-C prints the best plan it has', async () => {
    const running = startCommand(['plan', 'demo', '--seconds', '600', '--json']);
    const insisting = setInterval(running.stop, 50);
    const { code, out } = await running.ended;
    clearInterval(insisting);
    expect(code).toBe(0);
    expect(JSON.parse(out).search.ending).toBe('stopped');
  });

  it('refuses a shop whose faults stop planning, with a sentence for each', async () => {
    const { code, out, err } = await command('plan', shopFile(writeShopText(smallShop({ pallets: [] }))));
    expect([code, out]).toEqual([2, '']);
    expect(err).toMatch(/^Job A, operation 10, fixture: .+\nJob B, operation 10, fixture: /);
  });

  it('refuses a due time in the past unless the job is said to be overdue', async () => {
    const late = (overdue: boolean): string => {
      const jobs = smallShop().jobs.map((job) => ({ ...job, due: '2026-11-20T12:00', overdue }));
      return shopFile(writeShopText({ ...smallShop(), jobs }));
    };
    const { code, err } = await command('plan', late(false), '--seconds', '0.1');
    expect([code, err]).toEqual([2, expect.stringMatching(/^Job A, due: 2026-11-20 12:00 is past/)]);
    expect((await command('plan', late(true), '--seconds', '0.1')).code).toBe(0);
  });
});

describe('check', () => {
  it('says each broken rule in a line and ends with 1', async () => {
    const shop = shopFile();
    const { out } = await command('plan', shop, '--seconds', '0.1', '--json');
    const plan = JSON.parse(out);
    const broken = { ...plan, runs: plan.runs.map((run: object) => ({ ...run, pallet: 'P1', start: 480, end: 600 })) };
    const file = planFile(JSON.stringify(broken));
    const told = await command('check', shop, file);
    expect(told.code).toBe(1);
    expect(told.out).toMatch(/^Rule \d+: .+\./);
    const json = await command('check', shop, file, '--json');
    expect(json.code).toBe(1);
    expect(JSON.parse(json.out)).toMatchObject({ legal: false, breaches: expect.any(Array) });
  });
});

describe('bad input', () => {
  const text = writeShopText(smallShop());

  it('of a file ends with 2 and a sentence that names the file', async () => {
    const folder = tempFolder();
    mkdirSync(join(folder, 'inner'));
    writeFileSync(join(folder, 'image.json'), Buffer.from([0xff, 0xd8, 0xff, 0xe0]));
    const cases: [string, RegExp][] = [
      [join(folder, 'missing.json'), /There is no file .*missing\.json/],
      [join(folder, 'inner'), /inner is a folder/],
      [join(folder, 'image.json'), /image\.json is no text file/],
      [shopFile(text.slice(0, 300)), /shop\.json: .*cut off/],
      [shopFile(text.replace('"version": 1', '"version": 2')), /shop\.json: .*version 2/],
      [shopFile(''), /shop\.json: .*empty/],
      [shopFile(text.replace('"cycle": 120', '"cycle": "long"')), /shop\.json: Job A, operation 10.*cycle/],
    ];
    for (const [file, sentence] of cases) {
      const { code, out, err } = await command('plan', file);
      expect([code, out]).toEqual([2, '']);
      expect(err).toMatch(sentence);
    }
  });

  it('of a command or an option ends with 2, a sentence and what there is', async () => {
    const cases: [string[], RegExp][] = [
      [['plna'], /There is no command "plna"\. There are plan, check/],
      [['plan'], /plan needs a shop file, or demo/],
      [['plan', 'demo', 'again'], /"again" is one word too many/],
      [['plan', 'demo', '--sed', '4'], /--sed is no option of plan\. It knows --at/],
      [['plan', 'demo', '--seconds'], /--seconds needs a value/],
      [['plan', 'demo', '--seconds', 'two'], /--seconds "two" must be a number from 0\.1/],
      [['plan', 'demo', '--seed', '1.5'], /--seed "1\.5" must be a whole number/],
      [['plan', 'demo', '--workers', '0'], /--workers "0" must be a whole number from 1 to 8/],
      [['plan', 'demo', '--workers', '1.5'], /--workers "1\.5" must be a whole number from 1 to 8/],
      [['jobshop', 'two.txt', '--workers', '65'], /--workers "65" must be a whole number from 1 to 8/],
      [['plan', 'demo', '--at', 'tonight'], /--at "tonight" is no date and time/],
      [['plan', 'demo', '--json=yes'], /--json takes no value/],
      [['schema', '--json'], /It takes no options/],
      [['check', 'demo'], /check needs a plan file/],
      [['help', 'plna'], /There is no command "plna"/],
    ];
    for (const [args, sentence] of cases) {
      const { code, out, err } = await command(...args);
      expect([args, code, out]).toEqual([args, 2, '']);
      expect(err).toMatch(sentence);
    }
  });

  it('of a plan file in place of a shop file says so', async () => {
    const { out } = await command('plan', shopFile(), '--seconds', '0.1', '--json');
    const { code, err } = await command('plan', planFile(out));
    expect(code).toBe(2);
    expect(err).toMatch(/This is a plan file, not a shop file/);
  });
});

describe('help', () => {
  it('lists every command, or tells of one', async () => {
    for (const args of [[], ['help'], ['--help']]) {
      const { code, out } = await command(...args);
      expect(code).toBe(0);
      for (const name of ['plan', 'check', 'jobshop', 'schema', 'serve', 'export', 'import']) {
        expect(out).toMatch(new RegExp(`^  ${name}`, 'm'));
      }
    }
    const { out } = await command('plan', '--help');
    expect(out).toMatch(/--released PLAN\.json/);
    expect(out).not.toMatch(/jobshop/);
  });
});
