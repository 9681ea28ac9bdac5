// The `electron` module for plain Node: each BrowserWindow is a page of a headless Chromium with the real preload, the
// page scheme answered by the real handler (so its content policy holds) and IPC bridged. It says on standard output
// where a test can join: {"window": url, "webPreferences": ...}. What it does not prove: the sandbox and the isolation
// of the preload's world.
import { EventEmitter } from 'node:events';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright-core';

const handlers = new Map();
export const ipcMain = {
  handle(channel, handler) {
    if (handlers.has(channel)) throw new Error(`a second handler for ${channel}`);
    handlers.set(channel, handler);
  },
};

export const app = Object.assign(new EventEmitter(), {
  whenReady: () => Promise.resolve(),
  requestSingleInstanceLock: () => true,
  setPath() {},
  quit() {
    const event = { prevented: false, preventDefault: () => Object.assign(event, { prevented: true }) };
    app.emit('will-quit', event);
    if (!event.prevented) app.exit(0);
  },
  exit: (code) => process.exit(code),
});

const schemes = new Map();
export const protocol = { registerSchemesAsPrivileged() {}, handle: (scheme, handler) => schemes.set(scheme, handler) };
export const dialog = { showErrorBox: (title, content) => console.error(`${title}: ${content}`) };

/** Chromium alone knows no private schemes: `nightload://shop/` is shown as `https://nightload.shop.invalid/`. */
const shownAs = (url) => url.replace(/^(\w+):\/\/([^/]+)/, 'https://$1.$2.invalid');
const meantBy = (url) => url.replace(/^https:\/\/(\w+)\.([^/]+)\.invalid/, '$1://$2');

async function answer(route) {
  const url = meantBy(route.request().url());
  const handler = schemes.get(new URL(url).protocol.slice(0, -1));
  if (handler === undefined) return route.abort();
  const response = await handler(new Request(url));
  return route.fulfill({
    status: response.status,
    headers: Object.fromEntries(response.headers),
    body: Buffer.from(await response.arrayBuffer()),
  });
}

/** The preload's half of electron, run in the page itself. */
const preloaded = (source) => `{
  const listeners = [];
  globalThis.__ipcEvent = (channel, ...data) => {
    for (const one of [...listeners]) if (one.channel === channel) one.listener({}, ...data);
  };
  const electron = {
    contextBridge: { exposeInMainWorld: (name, value) => { globalThis[name] = value; } },
    ipcRenderer: {
      invoke: (channel, ...sent) => globalThis.__ipcInvoke(channel, sent),
      on: (channel, listener) => { listeners.push({ channel, listener }); },
      off: (channel, listener) => { listeners.splice(listeners.findIndex((one) => one.listener === listener), 1); },
    },
  };
  const module = { exports: {} };
  const require = (name) => { if (name !== 'electron') throw new Error('a sandboxed preload cannot require ' + name); return electron; };
  (function (exports, require, module) { ${source} })(module.exports, require, module);
}`;

const windows = [];
let context = null;

export class BrowserWindow extends EventEmitter {
  page = null;
  mainFrame = { url: '' };
  webContents = Object.assign(new EventEmitter(), {
    mainFrame: this.mainFrame,
    session: { setPermissionRequestHandler() {}, setPermissionCheckHandler() {} },
    setWindowOpenHandler() {},
    send: (channel, ...data) =>
      void this.page?.evaluate(([name, args]) => globalThis.__ipcEvent(name, ...args), [channel, data]).catch(() => {}),
  });

  constructor(options) {
    super();
    this.options = options;
    windows.push(this);
  }

  isDestroyed() {
    return !windows.includes(this);
  }

  focus() {}

  async loadURL(url) {
    context ??= await chromium.launchPersistentContext(mkdtempSync(join(tmpdir(), 'fake-electron-')), {
      executablePath: process.env.NIGHTLOAD_CHROMIUM ?? '/usr/bin/chromium',
      args: [
        '--no-sandbox',
        '--disable-gpu',
        '--disable-quic',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
        `--remote-debugging-port=${process.env.FAKE_ELECTRON_CDP_PORT ?? 0}`,
      ],
    });
    this.page = context.pages()[0] ?? (await context.newPage());
    this.mainFrame.url = url;
    await this.page.exposeBinding('__ipcInvoke', (_source, channel, sent) => {
      const handler = handlers.get(channel);
      if (handler === undefined) throw new Error(`no handler for ${channel}`);
      return handler({ sender: this.webContents, senderFrame: this.mainFrame }, ...sent);
    });
    await this.page.addInitScript({ content: preloaded(readFileSync(this.options.webPreferences.preload, 'utf8')) });
    await this.page.route('https://*.invalid/**', answer);
    this.page.once('close', () => {
      windows.splice(windows.indexOf(this), 1);
      this.emit('closed');
      if (windows.length === 0) app.emit('window-all-closed');
    });
    await this.page.goto(shownAs(url));
    console.log(JSON.stringify({ window: url, webPreferences: this.options.webPreferences }));
  }
}
