import type { Why } from '../contract';
import type { Relaxation } from '../engine';
import type { Attendance } from '../shop';
import { lengthText } from '../time';
import { type Ground, keptFrom, runName } from './blockers';
import type { Freed } from './freedom';
import { lateJobs } from './late';
import { earlierText, freeingOf } from './remedies';
import { longestWaitIn, type Wait } from './waits';
import { bindingOf, settled, whyRunIn } from './why-run';
import { atText, weekText } from './words';
import { machineName } from './work';

/** Why a job is late, and what would shorten its longest wait. */
export function whyLateIn(ground: Ground, job: string): Why {
  const { reading } = ground;
  const { shop, plan } = reading;
  if (!shop.jobs.some(({ id }) => id === job)) throw new RangeError(`The shop has no job ${job}.`);
  const late = lateJobs(shop, plan, reading).find((one) => one.job === job);
  if (late === undefined) return settled(`${job} is not late in this plan.`);
  const lead = `${job} is ${lengthText(late.lateBy)} late. ${late.why}`;
  const left = plan.left.find(({ run }) => run.startsWith(`${job}/`));
  const wait = longestWaitIn(reading, job);
  if (left === undefined && wait === null) return settled(lead);
  const why = left !== undefined ? whyRunIn(ground, left.run) : whyWait(ground, wait!);
  return { ...why, here: `${lead} ${why.here}` };
}

function whyWait(ground: Ground, wait: Wait): Why {
  const { before, run } = wait;
  return before === 'check' || before === 'unload' ? whyHand(ground, wait, before) : whyRunIn(ground, run.need.id);
}

const HAND_KINDS: readonly Relaxation[] = ['person', 'station', 'off'];

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
  const freed = HAND_KINDS.flatMap((kind): Freed[] => {
    const at = facts.soonestHand(run.need.id, role, [kind]);
    if (at === null || at >= hand.start) return [];
    return [{ need: run.need, machine: run.machine, relaxed: [kind], planned: run.planned, gain: hand.start - at }];
  }).sort((a, b) => b.gain - a.gain);
  const asked = { person: hand.person, start: wait.start, end: wait.start + hand.end - hand.start };
  const binding = bindingOf(freed);
  const kept = keptFrom(ground, run.need, run.machine, asked, hand.start);
  return {
    here: binding.includes('person') ? `${lead}: ${kept}.` : `${lead}.`,
    notEarlier: soonest === null ? null : 'With every other run where it is, nobody can come sooner.',
    frees: freed.map((one) => freeingOf(reading, one, earlierText)),
    binding,
  };
}
