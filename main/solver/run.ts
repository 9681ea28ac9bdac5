import type { PlanProgress } from '../../core/contract';
import type { Finding } from '../../core/engine';
import { meetsBound, type Plan } from '../../core/shop';
import type { FromSolver, PlanningJob } from './messages';
import { Sides } from './sides';
import type { Thread } from './thread';

/** No oftener: more only keeps the screens busy. */
const PROGRESS_EVERY_MS = 40;

/** How long a worker has to answer a stop; while a linear program is being solved it hears nothing. */
const ANSWER_MS = 80;

/** How long one that has answered has to write its plan: well under a tenth of a second where each has a core. */
const WRITING_MS = 2_000;

/** What a run tells while it goes on. */
export interface Watch {
  progress?(progress: PlanProgress): void;
  /** A plan better than all told of before. */
  better?(plan: Plan): void;
  /** One worker of several is lost, and why, as a sentence; the others go on. */
  lost?(say: string): void;
}

/**
 * One planning run of several workers that search side by side and meet, each to go on with what another has found if
 * that is better. With a limit in steps a meeting waits for all that still search, so that it brings the same each time;
 * else each gets at once what the others brought last.
 */
export class Run {
  readonly ended: Promise<Plan>;
  private resolve: (plan: Plan) => void = () => undefined;
  private reject: (error: Error) => void = () => undefined;
  private readonly searching: Set<number>;
  private readonly waiting = new Set<number>();
  private readonly findings = new Map<number, Finding>();
  private readonly sides: Sides;
  private failure = 'no planning thread was started';
  private isStopped = false;
  private hasProof = false;
  private isOverdue = false;
  private readonly writing = new Set<number>();
  private readonly timers: NodeJS.Timeout[] = [];
  private toldAt = Number.NEGATIVE_INFINITY;
  private told: Plan | null = null;

  constructor(
    private readonly threads: readonly Thread[],
    private readonly job: PlanningJob,
    private readonly watch: Watch,
  ) {
    this.ended = new Promise((resolve, reject) => {
      this.resolve = resolve;
      this.reject = reject;
    });
    this.sides = new Sides(threads.length, job.steps !== undefined, job.near !== undefined);
    // All of them before any begins: a meeting waits for those that search.
    this.searching = new Set(threads.keys());
    for (const [worker, thread] of threads.entries()) {
      thread.hear = (message) => this.heard(worker, message);
      thread.send({
        type: 'start',
        job: { ...job, seed: seedOf(job.seed, worker) },
        meets: threads.length > 1,
        allocates: worker === 0 && job.allocate !== false,
      });
    }
  }

  /** Ends the run with the best plan, soon after there is one. */
  stop(): void {
    this.isStopped = true;
    this.endAll();
  }

  private heard(worker: number, message: FromSolver): void {
    if (!this.searching.has(worker)) return;
    switch (message.type) {
      case 'progress':
        this.sides.tell(worker, message.progress);
        this.hasHeard();
        break;
      case 'stopping':
        this.writing.add(worker);
        break;
      case 'meeting':
        this.findings.set(worker, message.own);
        this.waiting.add(worker);
        this.meet();
        break;
      case 'done':
        this.sides.end(worker, message.plan);
        if (message.plan.search.ending === 'proved') this.hasProof = true;
        this.end(worker);
        this.hasHeard();
        break;
      case 'failed':
        this.failure = message.say;
        this.end(worker);
        if (this.searching.size > 0)
          this.watch.lost?.(`One of ${this.threads.length} workers was lost: ${message.say}.`);
    }
  }

  private hasHeard(): void {
    const { best } = this.sides;
    if (best !== null && best !== this.told && this.sides.isBetter(best, this.told)) {
      this.told = best;
      this.watch.better?.(best);
    }
    if (this.searching.size === 0) return;
    this.tellProgress();
    if (this.isOverdue) this.leaveOut();
    // With a limit in steps the others end where they meet next, so that how far each came is no race.
    else if (this.job.steps === undefined && (this.hasProof || this.sides.isProved)) this.endAll();
  }

  private end(worker: number): void {
    this.searching.delete(worker);
    this.waiting.delete(worker);
    if (this.searching.size > 0) {
      this.meet();
      return;
    }
    for (const timer of this.timers) clearTimeout(timer);
    const plan = this.sides.plan(this.job.seed, this.isStopped);
    if (plan === null) this.reject(new Error(this.failure));
    else this.resolve(plan);
  }

  private endAll(): void {
    if (this.timers.length > 0) return;
    for (const worker of this.searching) this.threads[worker]?.send({ type: 'stop', least: this.sides.least });
    const silent = setTimeout(() => {
      this.isOverdue = true;
      this.leaveOut();
    }, ANSWER_MS);
    const slow = setTimeout(() => {
      this.writing.clear();
      this.leaveOut();
    }, WRITING_MS);
    this.timers.push(silent, slow);
  }

  /** Ends the threads that have not answered a stop; what they have told of counts. Without a plan yet, it waits for the first. */
  private leaveOut(): void {
    if (this.sides.best === null) return;
    for (const worker of [...this.searching]) {
      if (this.writing.has(worker)) continue;
      this.threads[worker]?.end();
      this.end(worker);
    }
  }

  private meet(): void {
    if (this.job.steps !== undefined) {
      if (this.waiting.size < this.searching.size) return;
      if (this.hasProof || this.isProvedHere()) {
        this.endAll();
        return;
      }
    }
    const waiting = [...this.waiting];
    this.waiting.clear();
    for (const worker of waiting) this.threads[worker]?.send({ type: 'met', best: this.betterFor(worker) });
  }

  /** By what was brought to this meeting: what the workers tell in between hangs on the clock. */
  private isProvedHere(): boolean {
    return [...this.findings.values()].some(({ total }) => meetsBound(total, this.sides.bound));
  }

  private betterFor(worker: number): Finding | null {
    let best = this.findings.get(worker) ?? null;
    for (const other of this.threads.keys()) {
      const found = this.findings.get(other);
      if (found !== undefined && (best === null || found.total < best.total)) best = found;
    }
    return best === this.findings.get(worker) ? null : best;
  }

  private tellProgress(): void {
    const now = performance.now();
    if (now - this.toldAt < PROGRESS_EVERY_MS) return;
    this.toldAt = now;
    this.watch.progress?.(this.sides.progress(this.job.seconds));
  }
}

/** Seeds far apart for the workers of a run; the first has the run's own, so that alone it plans as the engine does. */
function seedOf(seed: number, worker: number): number {
  return worker === 0 ? seed : seed * 1000 + worker;
}
