import { BrowserWindow, type Session } from 'electron';

/** The window's own scheme: pages come through it with their content policy, never as files. */
export const PAGE_SCHEME = 'nightload';
export const PAGE_ORIGIN = `${PAGE_SCHEME}://shop`;

/** The one window: sandboxed, isolated, and going nowhere but its own pages. */
export function openWindow(preload: string): BrowserWindow {
  const window = new BrowserWindow({
    width: 1440,
    height: 900,
    minWidth: 960,
    minHeight: 600,
    title: 'Nightload',
    autoHideMenuBar: true,
    webPreferences: {
      preload,
      sandbox: true,
      contextIsolation: true,
      nodeIntegration: false,
      webviewTag: false,
      spellcheck: false,
    },
  });
  const { webContents } = window;
  webContents.setWindowOpenHandler(() => ({ action: 'deny' }));
  webContents.on('will-navigate', stayHere);
  webContents.on('will-redirect', stayHere);
  webContents.on('will-attach-webview', (event) => event.preventDefault());
  refusePermissions(webContents.session);
  return window;
}

function stayHere(event: { readonly url: string; preventDefault(): void }): void {
  if (!event.url.startsWith(`${PAGE_ORIGIN}/`)) event.preventDefault();
}

/** Camera, place, notifications and the rest: the screens need none. Writing the clipboard is the copy key. */
function refusePermissions(session: Session): void {
  const allowed = (permission: string): boolean => permission === 'clipboard-sanitized-write';
  session.setPermissionRequestHandler((_, permission, grant) => grant(allowed(permission)));
  session.setPermissionCheckHandler((_, permission) => allowed(permission));
}
