import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { command } from '../../support/command-for-test';
import { tempFolder } from '../../support/temp-folder';

const MOMENT = '2026-11-30T13:00';
let text = '';

beforeAll(async () => {
  const { out } = await command('plan', 'demo', '--at', MOMENT, '--steps', '300', '--workers', '1', '--json');
  text = out;
}, 60_000);

function planFile(): string {
  const file = join(tempFolder(), 'plan.json');
  writeFileSync(file, text);
  return file;
}

describe('night', () => {
  it('says the two numbers first, then the machines, what stops first, the weakest and the best exchange', async () => {
    const { code, out, err } = await command('night', 'demo', planFile(), '--nights', '300');
    expect([code, err]).toEqual([0, '']);
    expect(out).toMatch(
      /^\d+\.\d h loaded, \d+\.\d h to expect \(± \d+\.\d\d\), \d+\.\d h or less in one night of ten\n/,
    );
    expect(out).toContain('Mon 22:00-Tue 06:00, 300 nights, seed 1');
    for (const title of ['Machines', 'First stops, the dearest first', 'Weakest', 'Best exchange']) {
      expect(out).toContain(`\n${title}\n`);
    }
  });

  it('prints the same outcome for the same seed, for programs', async () => {
    const file = planFile();
    const [one, same, other] = await Promise.all(
      ['4', '4', '5'].map((seed) => command('night', 'demo', file, '--nights', '100', '--seed', seed, '--json')),
    );
    const outcome = JSON.parse(one!.out);
    expect(JSON.parse(same!.out)).toEqual(outcome);
    expect(JSON.parse(other!.out).expected).not.toBe(outcome.expected);
    expect(outcome).toMatchObject({ nights: 100, seed: 4 });
    expect(outcome.expected).toBeLessThanOrEqual(outcome.loaded);
    expect(outcome.badNight).toBeLessThanOrEqual(outcome.loaded);
  });

  it('refuses a plan that breaks a rule, and says which', async () => {
    const plan = JSON.parse(text);
    plan.cost.tonight += 1;
    const wrong = join(tempFolder(), 'wrong.json');
    writeFileSync(wrong, JSON.stringify(plan));
    const { code, out, err } = await command('night', 'demo', wrong);
    expect([code, out]).toEqual([1, '']);
    expect(err).toMatch(/not legal for this shop.*\n? *Rule 0: The plan's cost is not what it says: tonight/s);
  });

  it('refuses nights that cannot be counted, and a file that is no plan', async () => {
    expect(await command('night', 'demo', planFile(), '--nights', '0')).toMatchObject({ code: 2 });
    const shop = join(tempFolder(), 'shop.json');
    writeFileSync(shop, '{"format": "nightload-shop", "version": 1}');
    const { code, err } = await command('night', 'demo', shop);
    expect(code).toBe(2);
    expect(err).toContain('This is a shop file, not a plan file');
  });
});
