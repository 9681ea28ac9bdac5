import { intervalAt, isBench, type MachineReading, operationName, type PlanReading, touching } from '../measure';
import { isProofKept, minutesAlone, mostAtNight, type RunNeed, toolNeeds } from '../shop';
import { type Interval, lengthText, type Minute } from '../time';
import { cutOn, type Work } from './work';

/**
 * Why a run that began to cut on the machine at `minute` would cut with nobody there though it may not, as a clause;
 * null if it may. Proof, parts nobody has looked at and tools that a night may not use up stand in the way.
 */
export function whyNotAlone(
  reading: PlanReading,
  { machine, runs }: MachineReading,
  need: RunNeed,
  minute: Minute,
): string | null {
  if (isBench(machine)) return null;
  const cut = { start: minute, end: minute + cutOn(need, machine) };
  const alone = touching(reading.stretches, cut).filter((stretch) => !stretch.attended);
  for (const stretch of alone) {
    const minutes = Math.min(cut.end, stretch.end) - Math.max(cut.start, stretch.start);
    const why =
      whyNotEarned(reading, need, minutes) ??
      whySuspect(reading, runs, need, stretch) ??
      whyDayTool(reading, machine, need);
    if (why !== null) return why;
  }
  return null;
}

/**
 * Why nothing runs in an unattended gap if all that was left when the people went may not run alone, as a clause; null
 * if there was none or some of it may.
 */
export function whyNoneAlone(
  reading: PlanReading,
  machine: MachineReading,
  works: readonly Work[],
  gap: Interval,
): string | null {
  const stretch = intervalAt(reading.stretches, gap.start);
  if (stretch === null) return null;
  const left = works.filter(
    ({ on, ready, lockedTo }) => on > gap.start && ready < stretch.start && (lockedTo === null || lockedTo < gap.end),
  );
  const reasons = new Set<string>();
  for (const { need } of left) {
    const why = whyNotAlone(reading, machine, need, gap.start);
    if (why === null) return null;
    reasons.add(why);
  }
  const [first] = reasons;
  if (first === undefined) return null;
  return reasons.size === 1 ? first : `${first}, and nothing else that is left may run alone either`;
}

function whyNotEarned({ shop }: PlanReading, need: RunNeed, minutes: number): string | null {
  const { operation } = need;
  const most = minutesAlone(shop, operation);
  if (minutes <= most) return null;
  const name = operationName(need);
  if (most > 0) return `${name} has earned ${lengthText(most)} alone and would cut ${lengthText(minutes)}`;
  const { goodRuns } = shop.night;
  if (!isProofKept(operation)) {
    return `the program or the tools of ${name} have changed, and it needs ${goodRuns} good runs with somebody here before it may run alone`;
  }
  return `${name} has ${operation.proof?.goodRuns ?? 0} of the ${goodRuns} good runs it needs before it may run alone`;
}

function whySuspect(
  { plan }: PlanReading,
  runs: MachineReading['runs'],
  need: RunNeed,
  stretch: Interval,
): string | null {
  const { job, operation } = need;
  if (job.suspectLimit === null || operation.checks.length > 0) return null;
  const from = Math.max(stretch.start, plan.now);
  const parts = runs
    .filter(({ need: other, planned }) => other.job === job && other.id !== need.id && planned.end > from)
    .filter(({ need: other, planned }) => other.operation.checks.length === 0 && planned.start < stretch.end)
    .reduce((sum, { need: other }) => sum + other.parts, need.parts);
  if (parts <= job.suspectLimit) return null;
  const allowed = job.suspectLimit === 1 ? '1 is' : `${job.suspectLimit} are`;
  return `${job.id} would have ${parts} parts made before anybody looks; ${allowed} allowed`;
}

function whyDayTool({ shop }: PlanReading, machine: MachineReading['machine'], need: RunNeed): string | null {
  const { cycle } = need.operation.machines.find((each) => each.machine === machine.id)!;
  const tools = new Map(shop.tools.map((tool) => [tool.id, tool]));
  const short = toolNeeds(need, cycle, tools).find(({ tool, minutes }) => minutes > mostAtNight(machine, tool));
  if (short === undefined) return null;
  const most = mostAtNight(machine, short.tool);
  return `${operationName(need)} takes ${lengthText(short.minutes)} of ${short.tool.id}, and with nobody here a fresh one may give ${lengthText(most)}`;
}
