import { parentPort } from 'node:worker_threads';
import type { Why } from '../../core/contract';
import { type EngineOptions, planShop } from '../../core/engine';
import { comparePlans, comparisonSentences, reportOn, whyGap, whyLate, whyRun } from '../../core/explain';
import { referee } from '../../core/referee';
import type { Plan } from '../../core/shop';
import { localAt } from '../../core/time';
import { messageOf } from '../refusal';
import type { FromTrials, ToTrials, TrialJob, Tried, WhyJob } from './trial-messages';

/** A thread in which changes by hand are tried. A newer question takes the place of one of its kind. */
const newest = { try: 0, why: 0 };

/** Sentences shown beside the pointer. */
const SENTENCES = 4;

function tell(message: FromTrials): void {
  parentPort?.postMessage(message);
}

/** Lets the thread hear of a newer question. */
function breathe(): Promise<void> {
  return new Promise((resolve) => {
    setImmediate(resolve);
  });
}

/**
 * The plan with the change in it. Around a new job two searches share the time, one that begins with it behind all other
 * work and one with it before: on the demo now the one, now the other ends a hundred weighted hours less late.
 */
async function planned(job: TrialJob, stopped: () => boolean): Promise<Plan> {
  const { shop, at, seconds, seed, before, released, hasNewWork } = job;
  const search = (share: number, newWork: EngineOptions['newWork']): Promise<Plan> =>
    planShop(shop, {
      at,
      seconds: seconds * share,
      seed,
      near: before.plan,
      ...(newWork === undefined ? {} : { newWork }),
      ...(released === null ? {} : { released }),
      allocate: false,
      clock: () => performance.now(),
      stopped,
    });
  if (!hasNewWork) return search(1, undefined);
  const [behind, first] = [await search(0.5, 'behind'), await search(0.5, 'before')];
  return first.cost.total < behind.cost.total ? first : behind;
}

/** Null if a newer question has come meanwhile: nobody waits for this one any more. */
async function tried(job: TrialJob, isSuperseded: () => boolean): Promise<Tried | null> {
  const { shop, before, released, held } = job;
  const plan = await planned(job, isSuperseded);
  if (isSuperseded()) return null;
  const { legal, breaches } = referee(shop, plan, released ?? undefined);
  if (!legal)
    throw new Error(`the plan for it breaks a rule (${breaches[0]?.say ?? 'unknown'}), a defect of the program`);
  const after = { shop, plan, report: reportOn(shop, plan) };
  const comparison = comparePlans(before, after);
  const local = (minute: number) => localAt(plan.clock, minute);
  return {
    plan,
    trial: {
      conflicts: plan.conflicts.filter(({ run }) => held.includes(run)),
      left: plan.left.map(({ run }) => run),
      placed: plan.runs
        .filter(({ run }) => held.includes(run))
        .map(({ run, machine, start, end }) => ({ run, machine, start: local(start), end: local(end) })),
      comparison,
      say: comparisonSentences(comparison, SENTENCES),
    },
  };
}

function why({ shop, plan, about }: WhyJob): Why {
  switch (about.kind) {
    case 'run':
      return whyRun(shop, plan, about.run);
    case 'gap':
      return whyGap(shop, plan, about.machine, about.start);
    case 'late':
      return whyLate(shop, plan, about.job);
  }
}

parentPort?.on('message', async (message: ToTrials) => {
  const { id, type } = message;
  newest[type] = id;
  const isSuperseded = (): boolean => newest[type] !== id;
  await breathe();
  if (isSuperseded()) return;
  try {
    if (message.type === 'why') tell({ type: 'because', id, why: why(message.job) });
    else {
      const found = await tried(message.job, isSuperseded);
      if (found !== null) tell({ type: 'tried', id, tried: found });
    }
  } catch (error) {
    tell({ type: 'failed', id, say: messageOf(error) });
  }
});
