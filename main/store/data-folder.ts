import { homedir } from 'node:os';
import { isAbsolute, join, resolve } from 'node:path';

type Env = Readonly<Record<string, string | undefined>>;

/**
 * The folder that holds the shop of this user: `chosen`, else `NIGHTLOAD_DATA`, else where the platform keeps a
 * program's data (on Linux the XDG Base Directory Specification; a relative XDG_DATA_HOME is to be ignored by it).
 */
export function dataFolder(chosen: string | null, env: Env, platform: NodeJS.Platform, home = homedir()): string {
  const named = chosen ?? env.NIGHTLOAD_DATA;
  if (named !== undefined && named !== '') return resolve(named);
  switch (platform) {
    case 'win32':
      return join(env.APPDATA ?? join(home, 'AppData', 'Roaming'), 'Nightload');
    case 'darwin':
      return join(home, 'Library', 'Application Support', 'Nightload');
    default: {
      const xdg = env.XDG_DATA_HOME;
      return join(xdg !== undefined && isAbsolute(xdg) ? xdg : join(home, '.local', 'share'), 'nightload');
    }
  }
}
