import type { BindingKind, Why } from '../contract';
import type { Relaxation } from '../engine';
import type { Attendance, Plan, Shop } from '../shop';
import { lengthText } from '../time';
import { type Ground, keptFrom, runName } from './blockers';
import { lateJobs } from './late';
import { longestWaitIn, type Wait } from './waits';
import { groundOf, settled, whyOf } from './why';
import { atText, weekText } from './words';
import { machineName } from './work';

/**
 * Why a job is late: what its longest wait is for, and what would shorten that wait, asked as for one run. For a job with
 * runs left out it is the first of those. Throws a RangeError where the shop has no such job.
 */
export function whyLate(shop: Shop, plan: Plan, job: string): Why {
  return whyLateOf(groundOf(shop, plan), job);
}

/** As {@link whyLate}, of a plan looked up already. */
export function whyLateOf(ground: Ground, job: string): Why {
  const { reading } = ground;
  const { shop, plan } = reading;
  if (!shop.jobs.some(({ id }) => id === job)) throw new RangeError(`The shop has no job ${job}.`);
  const late = lateJobs(shop, plan, reading).find((one) => one.job === job);
  if (late === undefined) return settled(`${job} is in time.`);
  const lead = `${job} is ${lengthText(late.lateBy)} late. ${late.why}`;
  const left = plan.left.find(({ run }) => run.startsWith(`${job}/`));
  const wait = longestWaitIn(reading, job);
  if (left === undefined && wait === null) return settled(lead);
  const why = left !== undefined ? whyOf(ground, left.run) : whyWait(ground, wait!);
  return { ...why, here: `${lead} ${why.here}` };
}

function whyWait(ground: Ground, wait: Wait): Why {
  const { before, run } = wait;
  return before === 'check' || before === 'unload' ? whyHand(ground, wait, before) : whyOf(ground, run.need.id);
}

const HAND_KINDS: readonly Relaxation[] = ['person', 'station', 'off'];

const SAY: Readonly<Record<string, string>> = {
  person: 'A hand always there',
  station: 'One more load station',
  off: 'A machine never planned off',
};

/** Why a first piece is not checked, or a finished run not taken off, sooner. */
function whyHand(ground: Ground, wait: Wait, role: 'check' | 'unload'): Why {
  const { reading, facts } = ground;
  const { run } = wait;
  const { clock, now } = reading.plan;
  const hand: Attendance = run.planned[role]!;
  const done = role === 'check' ? 'waits for its first-piece check' : 'waits to be taken off';
  const name = `${runName(reading, run.need)} on ${machineName(reading.shop, run.machine.id)}`;
  const lead = `${name} ${done} from ${weekText(clock, wait.start, now)} until ${atText(clock, hand.start, wait.start)}`;
  const soonest = facts.soonestHand(run.need.id, role);
  if (soonest !== null && soonest < hand.start) {
    const could = `Somebody could come at ${atText(clock, soonest, wait.start)}`;
    return { here: `${lead}: the plan chose so. ${could}.`, notEarlier: null, frees: [], binding: ['choice'] };
  }
  const freed = HAND_KINDS.flatMap((kind) => {
    const at = facts.soonestHand(run.need.id, role, [kind]);
    return at === null || at >= hand.start ? [] : [{ kind, gain: hand.start - at }];
  }).sort((a, b) => b.gain - a.gain);
  const asked = { person: hand.person, start: wait.start, end: wait.start + hand.end - hand.start };
  const binding: BindingKind[] = freed.map(({ kind }) => kind);
  const kept = keptFrom(ground, run.need, run.machine, asked, hand.start);
  return {
    here: binding.includes('person') ? `${lead}: ${kept}.` : `${lead}.`,
    notEarlier: 'With every other run where it is, nobody can come sooner.',
    frees: freed.map(({ kind, gain }) => ({ say: `${SAY[kind]}: ${lengthText(gain)} earlier`, gain })),
    binding,
  };
}
