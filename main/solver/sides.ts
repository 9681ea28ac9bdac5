import type { PlanProgress } from '../../core/contract';
import type { EngineProgress } from '../../core/engine';
import { meetsBound, type Plan, type PlanBound } from '../../core/shop';

type Phase = EngineProgress['phase'];
const PHASES: readonly Phase[] = ['construct', 'allocate', 'improve'];

/** What one worker has told of its search. */
interface Side {
  phase: Phase;
  steps: number;
  seconds: number;
  total: number;
  plan: Plan | null;
}

/** What the workers of one run have told: the best plan of all is held here, whatever becomes of them. */
export class Sides {
  /** The cheapest plan told of; of equals that of the lowest worker. */
  best: Plan | null = null;
  /** That of the worker that allocates, and so of all. */
  bound: PlanBound | null = null;
  private readonly sides: readonly Side[];

  /**
   * `repeats`: the run must be the same each time. What a worker tells on its way hangs on the clock - and may be better
   * than its last plan, by what settling the hands has brought - so its last plan alone counts then. `staysNear`: a plan
   * near to another one is asked for, and the last one told is the nearest, whatever it costs.
   */
  constructor(
    workers: number,
    private readonly repeats: boolean,
    private readonly staysNear: boolean,
  ) {
    this.sides = Array.from({ length: workers }, () => ({
      phase: 'construct',
      steps: 0,
      seconds: 0,
      total: Number.POSITIVE_INFINITY,
      plan: null,
    }));
  }

  tell(worker: number, { phase, steps, seconds, total, plan, bound }: EngineProgress): void {
    const side = this.sides[worker]!;
    side.phase = phase;
    side.steps = steps;
    side.seconds = seconds;
    side.total = total;
    this.bound = bound ?? this.bound;
    if (plan !== null) this.take(side, this.isBetter(plan, side.plan) ? plan : side.plan!);
  }

  end(worker: number, plan: Plan): void {
    const side = this.sides[worker]!;
    side.steps = plan.search.steps;
    side.seconds = plan.search.seconds;
    this.bound = plan.bound ?? this.bound;
    this.take(side, this.repeats || this.isBetter(plan, side.plan) ? plan : side.plan!);
  }

  /** The least total told of on the way: not where the run must be the same each time, for it hangs on the clock. */
  get least(): number {
    return this.repeats ? Number.POSITIVE_INFINITY : Math.min(...this.sides.map(({ total }) => total));
  }

  get isProved(): boolean {
    return !this.staysNear && this.best !== null && meetsBound(this.best.cost.total, this.bound);
  }

  /** Whether a plan told after another one is to take its place. */
  isBetter(plan: Plan, other: Plan | null): boolean {
    return this.staysNear || other === null || plan.cost.total < other.cost.total;
  }

  /** How far they are: steps of all, the furthest phase. */
  progress(limitSeconds: number): PlanProgress {
    const { best, bound } = this;
    return {
      phase: PHASES[Math.max(...this.sides.map(({ phase }) => PHASES.indexOf(phase)))] ?? 'construct',
      ...this.spent(),
      limitSeconds,
      cost: best?.cost ?? null,
      boundTotal: bound?.total ?? null,
      boundTonight: bound?.tonight ?? null,
    };
  }

  /** The best plan as that of the whole run, with the steps of all and the seconds of the longest. */
  plan(seed: number, isStopped: boolean): Plan | null {
    const { best } = this;
    if (best === null) return null;
    // A lock that cannot hold breaks rules the bound is built on.
    const bound = best.conflicts.length === 0 ? this.bound : null;
    const ending = meetsBound(best.cost.total, bound) ? 'proved' : isStopped ? 'stopped' : 'limit';
    return { ...best, bound, search: { seed, ...this.spent(), ending } };
  }

  private take(side: Side, plan: Plan): void {
    side.plan = plan;
    this.best = this.sides.reduce<Plan | null>(
      (best, { plan: other }) => (other !== null && this.isBetter(other, best) ? other : best),
      null,
    );
  }

  private spent(): { steps: number; seconds: number } {
    const { sides } = this;
    return {
      steps: sides.reduce((sum, side) => sum + side.steps, 0),
      seconds: Math.max(...sides.map(({ seconds }) => seconds)),
    };
  }
}
