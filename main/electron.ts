import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { app, type BrowserWindow, dialog, ipcMain, protocol } from 'electron';
import { CALL_CHANNEL, EVENT_CHANNEL } from './channels';
import { pageAt } from './pages';
import { messageOf } from './refusal';
import { openSeat, type Seat } from './seat';
import { workerBeside } from './solver';
import { dataFolder } from './store';
import { openWindow, PAGE_ORIGIN, PAGE_SCHEME } from './window';

/** The program in a window of its own: pages through a private scheme, the contract over one IPC channel. */
const beside = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

let window: BrowserWindow | null = null;

// Before the lock, which goes by this folder: two data folders are two shops, and may be open side by side.
app.setPath('userData', join(dataFolder(null, process.env, process.platform), 'window'));
protocol.registerSchemesAsPrivileged([
  { scheme: PAGE_SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true } },
]);

if (app.requestSingleInstanceLock()) {
  app.on('second-instance', () => window?.focus());
  app.on('window-all-closed', () => app.quit());
  // Not awaited: Electron is ready only after this module has been read to its end.
  void app.whenReady().then(open).catch(giveUp);
} else {
  app.quit();
}

async function open(): Promise<void> {
  const seat = await openSeat({ data: null, at: null, worker: workerBeside(import.meta.url) });
  app.once('will-quit', (event) => {
    event.preventDefault();
    void seat.close().finally(() => app.exit(0));
  });
  protocol.handle(PAGE_SCHEME, async (request) => {
    const { status, headers, body } = await pageAt(beside('../renderer'), new URL(request.url).pathname);
    return new Response(typeof body === 'string' ? body : new Uint8Array(body), { status, headers });
  });
  carryIpc(seat);
  window = openWindow(beside('../preload/preload.cjs'));
  await window.loadURL(`${PAGE_ORIGIN}/`);
}

function carryIpc({ services }: Seat): void {
  ipcMain.handle(CALL_CHANNEL, (event, name: unknown, sent: unknown) => {
    const frame = event.senderFrame;
    const ours = frame !== null && frame === window?.webContents.mainFrame && frame.url.startsWith(`${PAGE_ORIGIN}/`);
    if (!ours) throw new Error('A call from outside the window was refused.');
    return services.call(name, sent);
  });
  services.listen((event, data) => {
    if (window !== null && !window.isDestroyed()) window.webContents.send(EVENT_CHANNEL, event, data);
  });
}

function giveUp(error: unknown): void {
  dialog.showErrorBox('Nightload can’t start', messageOf(error));
  app.exit(1);
}
