import { createRequire } from 'node:module';
import { dirname } from 'node:path';
import { Worker } from 'node:worker_threads';

/** The solvers the package brings along; none is a native program. */
export type MiniZincSolver = 'chuffed' | 'gecode' | 'highs' | 'cbc';

export interface MiniZincSearch {
  readonly solver: MiniZincSolver;
  /** Whether the solver may leave the order of search that the model proposes. */
  readonly isFree: boolean;
}

export interface MiniZincSolution {
  /** Since the model was given, loading and flattening included. */
  readonly seconds: number;
  /** The model's variables by name. */
  readonly values: Readonly<Record<string, unknown>>;
}

export interface MiniZincAnswer {
  /** Each better than the one before. */
  readonly solutions: readonly MiniZincSolution[];
  /** Whether the last is proved best. */
  readonly isProved: boolean;
  /** What the solver says no solution beats, in the model's objective; null where it says nothing. */
  readonly bound: number | null;
  readonly seconds: number;
}

/**
 * The package's worker is written for a browser; this is the little of one that it needs. In Node it reads its files by
 * `require`, which code that is evaluated does not have of itself.
 */
const BOOT = `
  const { parentPort, workerData } = require('node:worker_threads');
  Object.assign(globalThis, {
    self: globalThis,
    require,
    __dirname: workerData.folder,
    postMessage: (message) => parentPort.postMessage(message),
    addEventListener: (type, listener) => parentPort.on(type, (data) => listener({ data })),
  });
  require('node:vm').runInThisContext(require('node:fs').readFileSync(workerData.script, 'utf8'));
`;

/** Beyond the time it is given, for a solver to say what it has proved. */
const GRACE_SECONDS = 1;

const require = createRequire(import.meta.url);

/** Solves a model in WebAssembly within the seconds given; throws an Error with the compiler's words for a bad model. */
export async function solveByMiniZinc(
  model: string,
  data: Readonly<Record<string, unknown>>,
  { solver, isFree }: MiniZincSearch,
  seconds: number,
): Promise<MiniZincAnswer> {
  const started = performance.now();
  const now = () => (performance.now() - started) / 1000;
  const script = require.resolve('minizinc/minizinc-worker.js');
  const worker = new Worker(BOOT, {
    eval: true,
    workerData: { script, folder: dirname(script) },
    // What the package writes besides its messages; where nothing satisfies a model, that is a trace of its own.
    stderr: true,
  });
  const solutions: MiniZincSolution[] = [];
  let [isProved, bound]: [boolean, number | null] = [false, null];
  const done = new Promise<void>((finish, fail) => {
    worker.on('error', fail);
    worker.on('message', (message: Message) => {
      switch (message.type) {
        case 'ready':
          worker.postMessage({
            jsonStream: true,
            files: { 'model.mzn': model, 'data.json': JSON.stringify(data) },
            args: [
              ...['--intermediate', '--statistics', '--output-mode', 'json', '--output-objective'],
              ...['--solver', solver, ...(isFree ? ['--free-search'] : [])],
              ...['--time-limit', String(Math.round(1000 * (seconds - now()))), 'model.mzn', 'data.json'],
            ],
          });
          break;
        case 'solution':
          solutions.push({ seconds: now(), values: message.output?.json ?? {} });
          break;
        case 'statistics':
          if (typeof message.statistics?.objectiveBound === 'number') bound = message.statistics.objectiveBound;
          break;
        case 'status':
          isProved = message.status === 'OPTIMAL_SOLUTION';
          break;
        case 'error':
          fail(new Error(`${message.what ?? 'error'}: ${message.message ?? ''}`));
          break;
        case 'exit':
          finish();
          break;
        default:
      }
    });
    worker.postMessage({
      wasmURL: require.resolve('minizinc/minizinc.wasm'),
      dataURL: require.resolve('minizinc/minizinc.data'),
    });
  });
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<void>((finish) => {
    timer = setTimeout(finish, 1000 * (seconds + GRACE_SECONDS));
  });
  try {
    await Promise.race([done, late]);
  } finally {
    clearTimeout(timer);
    await worker.terminate();
  }
  return { solutions, isProved, bound, seconds: now() };
}

/** What the compiler writes to its stream. */
interface Message {
  readonly type: string;
  readonly output?: { readonly json?: Record<string, unknown> };
  readonly statistics?: Readonly<Record<string, unknown>>;
  readonly status?: string;
  readonly what?: string;
  readonly message?: string;
}
