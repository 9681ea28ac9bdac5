import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import {
  app,
  type BrowserWindow,
  errorBoxes,
  handlers,
  paths,
  privileges,
  schemes,
  windows,
} from '../../support/fake-electron';

const folder = mkdtempSync(join(tmpdir(), 'nightload-'));
let window: BrowserWindow;

beforeAll(async () => {
  vi.stubEnv('NIGHTLOAD_DATA', folder);
  await import('../../../main/electron');
  window = await vi.waitFor(() => {
    const [opened] = windows;
    if (opened === undefined || opened.webContents.mainFrame.url === '') throw new Error('not open yet');
    return opened;
  });
});

afterAll(async () => {
  const exited = new Promise((resolve) => vi.spyOn(app, 'exit').mockImplementation((code) => resolve(code)));
  app.emit('will-quit', { preventDefault: () => undefined });
  expect(await exited).toBe(0);
  vi.unstubAllEnvs();
  rmSync(folder, { recursive: true, force: true });
});

const event = () => ({ senderFrame: window.webContents.mainFrame });
const call = async (from: unknown, ...sent: unknown[]) => handlers.get('nightload:call')?.(from, ...sent);

describe('the Electron window', () => {
  it('is sandboxed and isolated, without Node in its pages', () => {
    expect(window.options.webPreferences).toMatchObject({
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webviewTag: false,
      preload: expect.stringMatching(/preload\.cjs$/),
    });
    expect(window.options.webPreferences).not.toHaveProperty('webSecurity');
  });

  it('shows its own pages, by a scheme of its own', () => {
    expect(window.webContents.mainFrame.url).toBe('nightload://shop/');
    expect(privileges).toEqual([
      { scheme: 'nightload', privileges: { standard: true, secure: true, supportFetchAPI: true } },
    ]);
  });

  it('keeps its profile beside the shop, so that two data folders can be open at once', () => {
    expect(paths.get('userData')).toBe(join(folder, 'window'));
  });

  it('goes nowhere else and opens no other window', () => {
    for (const name of ['will-navigate', 'will-redirect']) {
      for (const [url, refused] of [
        ['https://example.org/', true],
        ['file:///etc/passwd', true],
        ['nightload://shop.example/', true],
        ['nightload://shop/', false],
      ]) {
        const preventDefault = vi.fn();
        window.webContents.emit(name, { url, preventDefault });
        expect([name, url, preventDefault.mock.calls.length > 0]).toEqual([name, url, refused]);
      }
    }
    expect(window.webContents.openHandler({ url: 'https://example.org/' })).toEqual({ action: 'deny' });
    const preventDefault = vi.fn();
    window.webContents.emit('will-attach-webview', { preventDefault });
    expect(preventDefault).toHaveBeenCalledOnce();
  });

  it('refuses every permission but the copy key', () => {
    for (const permission of ['media', 'geolocation', 'notifications', 'clipboard-read', 'fullscreen']) {
      const grant = vi.fn();
      window.webContents.request(null, permission, grant);
      expect(grant).toHaveBeenCalledWith(false);
      expect(window.webContents.check(null, permission)).toBe(false);
    }
    expect(window.webContents.check(null, 'clipboard-sanitized-write')).toBe(true);
  });

  it('serves pages with the content policy, and nothing outside them', async () => {
    const serve = schemes.get('nightload');
    for (const path of ['no-such.js', '..%2f..%2fpackage.json']) {
      const response = await serve?.(new Request(`nightload://shop/${path}`));
      expect(response?.status).toBe(404);
      expect(response?.headers.get('content-security-policy')).toMatch(/^default-src 'none'/);
    }
  });
});

describe('calls from the window', () => {
  it('go through one channel to the services', async () => {
    expect([...handlers.keys()]).toEqual(['nightload:call']);
    const reply = await call(event(), 'shop.read', null);
    expect(reply).toMatchObject({ ok: true, value: { shop: { name: 'Demo shop' } } });
    expect(await call(event(), 'shop.burn', null)).toMatchObject({ ok: false });
  });

  it('are refused from any other frame or page', async () => {
    await expect(call({ senderFrame: null }, 'shop.read', null)).rejects.toThrow(/refused/);
    await expect(call({ senderFrame: { url: 'nightload://shop/' } }, 'shop.read', null)).rejects.toThrow(/refused/);
    const { mainFrame } = window.webContents;
    mainFrame.url = 'https://example.org/';
    await expect(call(event(), 'shop.read', null)).rejects.toThrow(/refused/);
    mainFrame.url = 'nightload://shop/';
  });

  it('are answered by events too', async () => {
    await call(event(), 'shop.reset', { to: 'empty' });
    expect(window.webContents.sent).toContainEqual(['nightload:event', 'shop.changed', { revision: 2 }]);
  });

  it('plan in the thread, as in the browser', async () => {
    await call(event(), 'shop.reset', { to: 'demo' });
    expect(await call(event(), 'plan.start', { seconds: 0.1, seed: 1, near: false })).toEqual({
      ok: true,
      value: null,
    });
    await vi.waitFor(
      () => expect(window.webContents.sent).toContainEqual(['nightload:event', 'plan.done', { id: 1 }]),
      30_000,
    );
    expect(await call(event(), 'plan.current', null)).toMatchObject({ ok: true, value: { id: 1, outdated: false } });
  });

  it('show no error box while all is well', () => {
    expect(errorBoxes).toEqual([]);
  });
});
