import { parentPort } from 'node:worker_threads';
import type { Why } from '../../core/contract';
import { planShop } from '../../core/engine';
import { comparePlans, comparisonSentences, reportOn, whyGap, whyLate, whyRun } from '../../core/explain';
import { referee } from '../../core/referee';
import { localAt } from '../../core/time';
import { messageOf } from '../refusal';
import type { FromTrials, ToTrials, TrialJob, Tried, WhyJob } from './trial-messages';

/** A thread in which changes by hand are tried. A newer question takes the place of one of its kind not yet begun. */
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

async function tried({ shop, at, seconds, seed, before, released, held }: TrialJob): Promise<Tried> {
  const plan = await planShop(shop, {
    at,
    seconds,
    seed,
    near: before.plan,
    ...(released === null ? {} : { released }),
    allocate: false,
    clock: () => performance.now(),
  });
  const { legal, breaches } = referee(shop, plan, released ?? undefined);
  if (!legal)
    throw new Error(`the plan for it breaks a rule (${breaches[0]?.say ?? 'unknown'}), a defect of the program`);
  const after = { shop, plan, report: reportOn(shop, plan) };
  const comparison = comparePlans({ ...before, report: reportOn(before.shop, before.plan) }, after);
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
  await breathe();
  if (newest[type] !== id) return;
  try {
    if (message.type === 'try') tell({ type: 'tried', id, tried: await tried(message.job) });
    else tell({ type: 'because', id, why: why(message.job) });
  } catch (error) {
    tell({ type: 'failed', id, say: messageOf(error) });
  }
});
