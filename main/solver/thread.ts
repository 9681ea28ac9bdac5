import { Worker } from 'node:worker_threads';
import type { FromSolver, ToSolver } from './messages';

/**
 * A search leaves little garbage, and a young generation of the usual size would keep tens of megabytes of it. Measured
 * with 50 machines, 2,000 runs and 8 threads: 475 MB for the whole program in place of 700, and no slower.
 */
const resourceLimits = { maxYoungGenerationSizeMb: 4 };

/** A planning thread: started with the first message and kept, because starting one takes longer than the first plan. */
export class Thread {
  /** Told what the thread says; one that dies has failed. */
  hear: (message: FromSolver) => void = () => undefined;
  private worker: Worker | null = null;

  constructor(private readonly url: URL) {}

  send(message: ToSolver): void {
    this.worker ??= this.started();
    this.worker.postMessage(message);
  }

  /** Ends the thread in the middle of what it does; the next message starts another. */
  end(): void {
    void this.close();
  }

  async close(): Promise<void> {
    const ended = this.worker;
    this.worker = null;
    await ended?.terminate();
  }

  private started(): Worker {
    const started = startWorker(this.url);
    const died = (say: string): void => {
      // After an error comes an exit, by when another thread may have taken this one's place.
      if (this.worker !== started) return;
      this.worker = null;
      this.hear({ type: 'failed', say });
    };
    started.on('message', (message: FromSolver) => {
      if (this.worker === started) this.hear(message);
    });
    started.on('error', (error) => died(error instanceof Error ? error.message : String(error)));
    started.on('exit', () => died('the planning thread ended'));
    return started;
  }
}

/** A thread of this program, in a bundle or from source. */
export function startWorker(url: URL): Worker {
  if (!url.pathname.endsWith('.ts')) return new Worker(url, { resourceLimits });
  // A worker does not inherit the hooks that read TypeScript, so from source it registers them itself.
  const boot = `import('tsx/esm/api').then((tsx) => { tsx.register(); return import(${JSON.stringify(url.href)}); });`;
  return new Worker(boot, { eval: true, resourceLimits });
}
