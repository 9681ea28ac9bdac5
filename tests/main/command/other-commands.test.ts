import { execFile } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readShopText, writeShopText } from '../../../core/exchange';
import { command, startCommand } from '../../support/command-for-test';
import { smallShop } from '../../support/small-shop';
import { tempFolder } from '../../support/temp-folder';

function fileWith(name: string, text: string): string {
  const file = join(tempFolder(), name);
  writeFileSync(file, text);
  return file;
}

describe('jobshop', () => {
  // Own instance: two jobs, two machines; both machines are busy from 0, and 7 = 3 + 4 is the load of machine 0.
  const text = '2 2\n0 3 1 2\n1 2 0 4\n';

  it('prints name, makespan, bound and operations counted from 0', async () => {
    const { code, out } = await command('jobshop', fileWith('two.txt', text), '--seconds', '1', '--json');
    expect(code).toBe(0);
    const result = JSON.parse(out);
    expect(Object.keys(result)).toEqual(['name', 'makespan', 'lower', 'seconds', 'operations']);
    expect(result).toMatchObject({ name: 'two', makespan: 7, lower: 7 });
    expect(result.operations).toEqual([
      { job: 0, index: 0, machine: 0, start: 0, end: 3 },
      { job: 0, index: 1, machine: 1, start: 3, end: 5 },
      { job: 1, index: 0, machine: 1, start: 0, end: 2 },
      { job: 1, index: 1, machine: 0, start: 3, end: 7 },
    ]);
  });

  it('without --json says it in a line', async () => {
    const { out } = await command('jobshop', fileWith('two.txt', text), '--seconds', '1');
    expect(out).toMatch(/^two: 2 jobs on 2 machines, done at 7 \(no plan ends sooner\)/);
  });

  it('with one operator takes as long as all the work together', async () => {
    const file = fileWith('two.txt', text);
    const { code, out } = await command('jobshop', file, '--operators', '1', '--seconds', '1', '--json');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ makespan: 11, lower: 11 });
    const refused = await command('jobshop', file, '--operators', '1.5');
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(/--operators "1.5" must be a whole number/);
  });

  it('refuses a file that is no job shop, with line and remedy', async () => {
    const { code, err } = await command('jobshop', fileWith('bad.txt', '2 2\n0 3 1\n'));
    expect(code).toBe(2);
    expect(err).toMatch(/bad\.txt: Job-shop file/);
  });
});

describe('schema', () => {
  it('prints the JSON Schema of the shop file', async () => {
    const { code, out } = await command('schema');
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({
      $schema: 'https://json-schema.org/draft/2020-12/schema',
      required: expect.arrayContaining(['format', 'version', 'name', 'zone']),
    });
  });
});

describe('export and import', () => {
  it('carry the stored shop out and in, and keep a backup of the one before', async () => {
    const data = tempFolder();
    const imported = await command('import', fileWith('small.json', writeShopText(smallShop())), '--data', data);
    expect(imported).toMatchObject({ code: 0, out: expect.stringMatching(/^Small shop is now the stored shop/) });
    expect(readdirSync(join(data, 'backups')).some((name) => name.endsWith('before-import.sqlite'))).toBe(true);
    const file = join(tempFolder(), 'out.json');
    expect((await command('export', file, '--data', data)).code).toBe(0);
    expect(readShopText(readFileSync(file, 'utf8'))).toEqual({ ok: true, value: smallShop() });
  });

  it('never overwrite a file unless forced', async () => {
    const data = tempFolder();
    const file = fileWith('mine.json', 'mine');
    const { code, err } = await command('export', file, '--data', data);
    expect(code).toBe(2);
    expect(err).toMatch(/mine\.json is there already and was kept.*--force/);
    expect(readFileSync(file, 'utf8')).toBe('mine');
    expect((await command('export', file, '--data', data, '--force')).code).toBe(0);
    expect(readFileSync(file, 'utf8')).not.toBe('mine');
  });

  it('refuse a bad file and a foreign database, and change nothing', async () => {
    const data = tempFolder();
    await command('import', fileWith('small.json', writeShopText(smallShop())), '--data', data);
    const bad = await command('import', fileWith('bad.json', '{"format":'), '--data', data);
    expect(bad.code).toBe(2);
    expect(bad.err).toMatch(/bad\.json: /);
    const out = join(tempFolder(), 'out.json');
    await command('export', out, '--data', data);
    expect(readFileSync(out, 'utf8')).toBe(writeShopText(smallShop()));

    const foreign = tempFolder();
    writeFileSync(join(foreign, 'shop.sqlite'), 'somebody else’s');
    const refused = await command('export', join(foreign, 'out.json'), '--data', foreign);
    expect(refused.code).toBe(2);
    expect(existsSync(join(foreign, 'out.json'))).toBe(false);
    expect(readFileSync(join(foreign, 'shop.sqlite'), 'utf8')).toBe('somebody else’s');
  });
});

describe('serve', () => {
  it('prints the address with its key and ends cleanly', async () => {
    const screens = tempFolder();
    writeFileSync(join(screens, 'index.html'), '<!doctype html>');
    const running = startCommand(['serve', '--port', '0', '--data', tempFolder()], screens);
    await expect.poll(running.out, { timeout: 10_000 }).toMatch(/http:\/\/127\.0\.0\.1:\d+\/\?key=\S{32}/);
    const address = /http:\S+/.exec(running.out())?.[0] ?? '';
    expect((await fetch(address)).status).toBe(200);
    running.stop();
    expect((await running.ended).code).toBe(0);
    await expect(fetch(address)).rejects.toThrow();
  });

  it('says when the screens are not built, or the port or the time is none', async () => {
    expect(await command('serve')).toMatchObject({ code: 2, err: expect.stringMatching(/not built yet/) });
    const screens = tempFolder();
    writeFileSync(join(screens, 'index.html'), '');
    const port = await startCommand(['serve', '--port', 'http'], screens).ended;
    expect(port).toMatchObject({ code: 2, err: expect.stringMatching(/--port "http" must be a whole number/) });
    const time = await startCommand(['serve', '--at', 'noon'], screens).ended;
    expect(time).toMatchObject({ code: 2, err: expect.stringMatching(/--at "noon" is no date and time/) });
  });
});

describe('the command line as a process', () => {
  const script = fileURLToPath(new URL('../../../main/nightload.mjs', import.meta.url));
  const run = (...args: string[]): Promise<{ code: unknown; stdout: string; stderr: string }> =>
    new Promise((resolve) => {
      execFile(process.execPath, [script, ...args], (error, stdout, stderr) => {
        resolve({ code: error === null ? 0 : error.code, stdout, stderr });
      });
    });

  it('keeps results on standard output, sentences on standard error, and gives exit codes', async () => {
    const [good, bad] = await Promise.all([
      run('plan', 'demo', '--seconds', '0.1', '--json'),
      run('plan', 'no-such.json'),
    ]);
    expect([good.code, good.stderr]).toEqual([0, '']);
    expect(JSON.parse(good.stdout)).toMatchObject({ format: 'nightload-plan' });
    expect(bad).toEqual({
      code: 2,
      stdout: '',
      stderr: 'There is no file no-such.json; check its name and folder.\n',
    });
  });
});
