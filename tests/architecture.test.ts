import { cruise, type ICruiseResult, type IModule } from 'dependency-cruiser';
import { beforeAll, describe, expect, it } from 'vitest';
import compilerOptions from '../tsconfig.json';

/** The rooms of core, left to right; each may import only from rooms to its left, unless the table below says less. */
const CORE = [
  'time',
  'shop',
  'problem',
  'linear',
  'engine',
  'referee',
  'night',
  'measure',
  'explain',
  'exchange',
  'contract',
];

/** Rooms that may import less than everything to their left. */
const ONLY: Readonly<Record<string, readonly string[]>> = {
  referee: ['time', 'shop'],
};

/** The words of reports stand in the contract, to the right of the rooms that make them: as types only. */
const TYPES_FROM_CONTRACT = ['measure', 'explain'];

/** The rooms of main, left to right. */
const MAIN = ['store', 'solver', 'sheet', 'services', 'pages', 'server', 'command'];

/** What the screens may use of core; everything else they ask for through the contract. */
const FOR_SCREENS = ['time', 'shop', 'contract', 'measure', 'explain'];

const CORE_PACKAGES = ['date-fns', '@date-fns/tz', 'zod', 'javascript-lp-solver', 'highs'];

interface Import {
  readonly from: string;
  readonly to: string;
  readonly typeOnly: boolean;
}

let modules: IModule[] = [];
let imports: Import[] = [];

beforeAll(async () => {
  const result = await cruise(
    ['core', 'main', 'renderer'],
    {
      tsPreCompilationDeps: true,
      doNotFollow: { path: 'node_modules' },
      exclude: { path: '\\.(css|md|html|svg|png)$' },
    },
    {},
    { tsConfig: { options: compilerOptions } },
  );
  modules = (result.output as ICruiseResult).modules.filter((module) => !module.source.includes('node_modules'));
  imports = modules.flatMap((module) =>
    module.dependencies.map((dependency) => ({
      from: module.source,
      to: dependency.couldNotResolve || dependency.coreModule ? dependency.module : dependency.resolved,
      typeOnly: dependency.dependencyTypes.includes('type-only'),
    })),
  );
}, 120_000);

/** `core/time` of `core/time/clock.ts`; the house's top room otherwise. */
function roomOf(path: string, house: string): string | null {
  const [top, room, ...rest] = path.split('/');
  return top === house && room !== undefined && rest.length > 0 ? room : null;
}

/** `zod` of `node_modules/zod/v4/index.js`. */
function packageOf(path: string): string | null {
  const match = /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(path);
  return match?.[1]?.replace(/^@types\//, '') ?? null;
}

function sentences(broken: readonly Import[]): string[] {
  return broken.map(({ from, to }) => `${from} imports ${to}`);
}

describe('the house', () => {
  it('is read as a whole: core, main and renderer each have modules and imports', () => {
    for (const house of ['core/', 'main/', 'renderer/']) {
      expect(modules.filter((module) => module.source.startsWith(house)).length, house).toBeGreaterThan(5);
      expect(imports.filter((one) => one.from.startsWith(house)).length, house).toBeGreaterThan(5);
    }
  });

  it('has in core only the rooms of the plan', () => {
    const rooms = new Set(modules.flatMap((module) => roomOf(module.source, 'core') ?? []));
    expect([...rooms].filter((room) => !CORE.includes(room))).toEqual([]);
  });

  it('lets a room of core import only from rooms to its left', () => {
    const broken = imports.filter(({ from, to, typeOnly }) => {
      const [here, there] = [roomOf(from, 'core'), roomOf(to, 'core')];
      if (here === null || there === null || here === there) return false;
      if (there === 'contract' && typeOnly && TYPES_FROM_CONTRACT.includes(here)) return false;
      return !(ONLY[here] ?? CORE.slice(0, CORE.indexOf(here))).includes(there);
    });
    expect(sentences(broken)).toEqual([]);
  });

  it('lets a room of main import only from rooms to its left', () => {
    const broken = imports.filter(({ from, to }) => {
      const [here, there] = [roomOf(from, 'main'), roomOf(to, 'main')];
      if (here === null || there === null || here === there) return false;
      return MAIN.includes(here) && MAIN.indexOf(there) >= MAIN.indexOf(here);
    });
    expect(sentences(broken)).toEqual([]);
  });

  it('keeps core away from Node, Electron, React, the database and the rooms around it', () => {
    const broken = imports.filter(({ from, to }) => {
      if (!from.startsWith('core/') || to.startsWith('core/')) return false;
      const name = packageOf(to);
      return name === null || !CORE_PACKAGES.includes(name);
    });
    expect(sentences(broken)).toEqual([]);
  });

  it('lets the screens use no more of core than words, times and reports, and nothing of main', () => {
    const broken = imports.filter(({ from, to }) => {
      if (!from.startsWith('renderer/')) return false;
      const there = roomOf(to, 'core');
      return to.startsWith('main/') || (there !== null && !FOR_SCREENS.includes(there));
    });
    expect(sentences(broken)).toEqual([]);
  });

  it('keeps main from importing screens', () => {
    expect(sentences(imports.filter(({ from, to }) => from.startsWith('main/') && to.startsWith('renderer/')))).toEqual(
      [],
    );
  });

  it('enters a room of core by its index only', () => {
    const broken = imports.filter(({ from, to }) => {
      const there = roomOf(to, 'core');
      return there !== null && roomOf(from, 'core') !== there && to !== `core/${there}/index.ts`;
    });
    expect(sentences(broken)).toEqual([]);
  });

  it('has no file that leads back to itself', () => {
    // A cycle that only types close is gone once the code runs.
    const circular = modules.flatMap(({ source, dependencies }) =>
      dependencies
        .filter(
          ({ circular, cycle = [] }) => circular && !cycle.some((step) => step.dependencyTypes.includes('type-only')),
        )
        .map(({ cycle = [] }) => [source, ...cycle.map((step) => step.name)].join(' -> ')),
    );
    expect(circular).toEqual([]);
  });
});
