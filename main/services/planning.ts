import type { EventName, Events } from '../../core/contract';
import { reportOn } from '../../core/explain';
import { referee } from '../../core/referee';
import { type Fault, faultsOf, type Plan, type Shop } from '../../core/shop';
import type { Present } from '../clock';
import { messageOf, Refusal, refusal } from '../refusal';
import type { PlanningJob, Solver } from '../solver';
import type { Store, StoredShop } from '../store';

export type Tell = <K extends EventName>(name: K, event: Events[K]) => void;

interface Wish {
  readonly seconds: number;
  readonly seed: number;
  /** What is not locked stays as near as it can to the plan that counts. */
  readonly near: boolean;
}

/** One planning run at a time, from the stored shop to a stored plan. */
export interface Planning {
  /** Throws a Refusal while a plan is being made, and for a shop whose faults stop planning. */
  start(wish: Wish): Promise<void>;
  stop(): void;
  readonly busy: boolean;
}

/** Reading and drawing a plan takes a while; what is better comes soon enough. */
const SO_FAR_EVERY_MS = 1000;

export function planningWith(store: Store, solver: Solver, present: Present, tell: Tell): Planning {
  let busy = false;

  let toldAt = Number.NEGATIVE_INFINITY;
  /** Whoever plans for the first time has nothing else to look at. */
  function tellSoFar(shop: Shop, plan: Plan, released: Plan | undefined): void {
    const now = performance.now();
    if (now - toldAt < SO_FAR_EVERY_MS || !referee(shop, plan, released).legal) return;
    toldAt = now;
    const report = reportOn(shop, plan);
    tell('plan.soFar', { id: 0, made: '', name: '', plan, shop, report, outdated: false, released: null });
  }

  async function solve(stored: StoredShop, job: PlanningJob, released: Plan | undefined): Promise<void> {
    try {
      const plan = await solver.solve(job, {
        progress: (progress) => tell('plan.progress', progress),
        ...(job.previous === null ? { better: (plan) => tellSoFar(stored.shop, plan, released) } : {}),
        lost: (say) => console.error(say),
      });
      refuseIllegal(stored.shop, plan, released);
      const made = present(stored.shop.zone);
      const say =
        job.near === undefined ? `Plan of ${made.slice(11)}` : `Plan of ${made.slice(11)}, around the changes`;
      const id = await store.addPlan({ plan, of: stored, made, say });
      busy = false;
      tell('plan.done', { id });
    } catch (error) {
      busy = false;
      tell('plan.failed', { faults: faultsIn(error) });
    }
  }

  return {
    async start({ near, ...wish }) {
      if (busy || solver.busy) throw refusal('planning', 'A plan is being made already; stop it first.');
      // At once, so that a second start is refused from here on.
      busy = true;
      try {
        const stored = await store.readShop();
        const at = stored.shop.planFrom ?? present(stored.shop.zone);
        const errors = faultsOf(stored.shop, at).filter((fault) => fault.level === 'error');
        if (errors.length > 0) throw new Refusal(errors);
        // Only a place to begin from: a damaged one is no reason not to plan.
        const previous = await store.readPlan('current').catch(() => null);
        const released = await store.readPlan('released').catch(() => null);
        void solve(
          stored,
          {
            shop: stored.shop,
            at,
            ...wish,
            previous: previous?.plan ?? null,
            ...(near && previous !== null ? { near: previous.plan } : {}),
            ...(released === null ? {} : { released: released.plan }),
          },
          released?.plan,
        );
      } catch (error) {
        busy = false;
        throw error;
      }
    },
    stop: () => solver.stop(),
    get busy() {
      return busy;
    },
  };
}

/** A plan that breaks a rule never leaves here: it is a defect of the engine, not of the shop. */
function refuseIllegal(shop: Shop, plan: Plan, released: Plan | undefined): void {
  const { legal, breaches } = referee(shop, plan, released);
  if (legal) return;
  throw refusal(
    'illegal-plan',
    `The plan that was made breaks a rule and was thrown away: ${breaches[0]?.say ?? 'rule unknown'} ` +
      'This is a defect of the program, not of your shop; plan again, with another seed if it comes back.',
  );
}

function faultsIn(error: unknown): readonly Fault[] {
  if (error instanceof Refusal) return error.faults;
  const say = `Planning ended without a plan: ${messageOf(error)}. Plan again; the stored plans are as they were.`;
  return [{ code: 'planning-failed', at: [], say, level: 'error' }];
}
