import { EventEmitter } from 'node:events';
import { mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** Stands in for the `electron` module under vitest: does nothing, remembers everything. */

type Handler = (event: unknown, ...sent: unknown[]) => unknown;

export const handlers = new Map<string, Handler>();
export const ipcMain = {
  handle(channel: string, handler: Handler): void {
    if (handlers.has(channel)) throw new Error(`a second handler for ${channel}`);
    handlers.set(channel, handler);
  },
};

export const paths = new Map<string, string>([['userData', mkdtempSync(join(tmpdir(), 'fake-electron-'))]]);
export const app = Object.assign(new EventEmitter(), {
  whenReady: () => Promise.resolve(),
  requestSingleInstanceLock: () => true,
  setPath: (name: string, path: string) => void paths.set(name, path),
  quit: () => undefined,
  exit: (_code: number): void => undefined,
});

type PageHandler = (request: Request) => Promise<Response>;
export const schemes = new Map<string, PageHandler>();
export const privileges: unknown[] = [];
export const protocol = {
  registerSchemesAsPrivileged: (list: unknown[]) => void privileges.push(...list),
  handle: (scheme: string, handler: PageHandler) => void schemes.set(scheme, handler),
};

export const errorBoxes: { title: string; content: string }[] = [];
export const dialog = { showErrorBox: (title: string, content: string) => void errorBoxes.push({ title, content }) };

type OpenHandler = (details: { url: string }) => { action: string };
type PermissionRequest = (contents: unknown, permission: string, grant: (allowed: boolean) => void) => void;
type PermissionCheck = (contents: unknown, permission: string) => boolean;

class FakeContents extends EventEmitter {
  openHandler: OpenHandler = () => ({ action: 'allow' });
  request: PermissionRequest = (_contents, _permission, grant) => grant(true);
  check: PermissionCheck = () => true;
  readonly sent: unknown[][] = [];
  readonly mainFrame = { url: '' };
  readonly session = {
    setPermissionRequestHandler: (handler: PermissionRequest) => {
      this.request = handler;
    },
    setPermissionCheckHandler: (handler: PermissionCheck) => {
      this.check = handler;
    },
  };
  setWindowOpenHandler(handler: OpenHandler): void {
    this.openHandler = handler;
  }
  send(...message: unknown[]): void {
    this.sent.push(message);
  }
}

export const windows: BrowserWindow[] = [];
export class BrowserWindow extends EventEmitter {
  readonly webContents = new FakeContents();
  readonly options: { readonly webPreferences: Readonly<Record<string, unknown>> };
  constructor(options: BrowserWindow['options']) {
    super();
    this.options = options;
    windows.push(this);
  }
  async loadURL(url: string): Promise<void> {
    this.webContents.mainFrame.url = url;
  }
  isDestroyed(): boolean {
    return false;
  }
  focus(): void {}
}
