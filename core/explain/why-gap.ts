import type { Gap, Why } from '../contract';
import { isBench } from '../measure';
import type { Machine, PlannedRun } from '../shop';
import { lengthText, type Minute } from '../time';
import { type Ground, runName } from './blockers';
import { costOfChoice } from './choice';
import { type Freed, freedomIn, type Question } from './freedom';
import { gapsIn } from './gaps';
import { freeingOf } from './remedies';
import { bindingOf, settled } from './why-run';
import { atText } from './words';
import { machineName, workByMachine } from './work';

/** Of the runs that may fill a gap those planned next after it are asked, no more than this many. */
const MOST_ASKED = 40;

/** Why a machine stands, and what would let it cut. */
export function whyGapIn(ground: Ground, id: string, start: Minute): Why {
  const { reading, facts, hands, supply } = ground;
  const { shop, plan } = reading;
  const read = reading.machines.get(id);
  const gaps = read === undefined ? [] : gapsIn(reading, hands, supply)(read);
  const gap = gaps.find((one) => one.start <= start && start < one.end);
  if (read === undefined || gap === undefined) throw new RangeError(`${id} does not stand at minute ${start}.`);
  const { machine } = read;
  if (!machine.inUse) return settled(gap.say);
  const questions = questionsFor(ground, machine, gap);
  const filled = ({ start: from, end }: PlannedRun) => Math.min(end, gap.end) - from;
  const { asItIs, freed } = freedomIn(facts, shop, questions, gap, filled, { most: gap.end - gap.start });
  const text = (minute: Minute) => atText(plan.clock, minute, gap.start);
  if (asItIs !== null) {
    const was = reading.runOf.get(asItIs.need.id);
    const kept =
      was === undefined
        ? 'leaves it out'
        : `has it on ${machineName(shop, was.machine.id)} at ${text(was.planned.start)}`;
    const could = `${runName(reading, asItIs.need)} could start here at ${text(asItIs.planned.start)} with every other run where it is; the plan ${kept}`;
    const cost = costOfChoice(shop, plan, facts.planWith(asItIs.planned));
    return { here: `${gap.say} ${could}. ${cost}.`, notEarlier: null, frees: [], binding: ['choice'] };
  }
  const would = ({ need, planned, gain }: Freed) => {
    const does = isBench(machine) ? 'work' : 'cut';
    return `${runName(reading, need)} could start at ${text(planned.start)} and ${does} ${lengthText(gain)} of it`;
  };
  return {
    here: gap.say,
    notEarlier: questions.length === 0 ? null : `With every other run where it is, ${noneOf(questions.length)}.`,
    frees: freed.map((one) => freeingOf(reading, one, would)),
    binding: bindingOf(freed),
  };
}

function noneOf(asked: number): string {
  if (asked === 1) return 'the one run still to come for it cannot start in it';
  const which = asked === MOST_ASKED ? `next ${asked} runs` : `${asked} runs still to come`;
  return `none of the ${which} for it can start in it`;
}

/** Runs that may be on the machine and begin after the gap does, in the order in which the plan begins them. */
function questionsFor({ reading, facts }: Ground, machine: Machine, gap: Gap): Question[] {
  const loaded = reading.machines.get(machine.id)!.runs.filter(({ floor }) => floor?.state === 'loaded');
  const works = workByMachine(reading).get(machine.id) ?? [];
  const begins = (run: string) => reading.runOf.get(run)?.planned.start ?? Number.POSITIVE_INFINITY;
  return [...loaded, ...works]
    .map(({ need }) => need)
    .filter((need) => begins(need.id) > gap.start && !facts.isFixed(need.id))
    .sort((a, b) => (begins(a.id) < begins(b.id) ? -1 : 1))
    .slice(0, MOST_ASKED)
    .map((need) => ({ need, machine }));
}
