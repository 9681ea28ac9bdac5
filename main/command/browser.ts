import { spawn } from 'node:child_process';

/** Opens an address in this computer's browser where there is a screen to show it on; silent where there is none. */
export function openBrowser(address: string, platform: NodeJS.Platform, env: NodeJS.ProcessEnv): void {
  const opener = openerFor(platform, env);
  if (opener === null) return;
  const [program, ...args] = opener;
  const child = spawn(program, [...args, address], { stdio: 'ignore', detached: true });
  // The address is printed in any case, so a missing opener needs no words.
  child.on('error', () => undefined);
  child.unref();
}

function openerFor(platform: NodeJS.Platform, env: NodeJS.ProcessEnv): [string, ...string[]] | null {
  switch (platform) {
    case 'darwin':
      return ['open'];
    case 'win32':
      return ['rundll32', 'url.dll,FileProtocolHandler'];
    default:
      return (env.DISPLAY ?? '') === '' && (env.WAYLAND_DISPLAY ?? '') === '' ? null : ['xdg-open'];
  }
}
