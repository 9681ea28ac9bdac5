import { resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { dataFolder } from '../../../main/store';

describe('the data folder', () => {
  it('is the one chosen, before the one of the environment', () => {
    expect(dataFolder('here', { NIGHTLOAD_DATA: '/there' }, 'linux', '/home/ida')).toBe(resolve('here'));
    expect(dataFolder(null, { NIGHTLOAD_DATA: '/there' }, 'linux', '/home/ida')).toBe('/there');
  });

  it('is where each platform keeps the data of programs', () => {
    expect(dataFolder(null, {}, 'linux', '/home/ida')).toBe('/home/ida/.local/share/nightload');
    expect(dataFolder(null, { XDG_DATA_HOME: '/data' }, 'linux', '/home/ida')).toBe('/data/nightload');
    expect(dataFolder(null, {}, 'darwin', '/Users/ida')).toBe('/Users/ida/Library/Application Support/Nightload');
    expect(dataFolder(null, { APPDATA: '/roaming' }, 'win32', '/ida')).toBe('/roaming/Nightload');
  });

  it('ignores a relative XDG_DATA_HOME, as the specification asks', () => {
    expect(dataFolder(null, { XDG_DATA_HOME: 'data' }, 'linux', '/home/ida')).toBe('/home/ida/.local/share/nightload');
  });
});
