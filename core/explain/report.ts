import type { Gap, MachineReport, PlanReport } from '../contract';
import { clip, type MachineReading, readPlan, roundsOf, shiftTable } from '../measure';
import type { Plan, Shop } from '../shop';
import { coverage, type Minute, type Stretch } from '../time';
import { gapsOf } from './gaps';
import { lateJobs } from './late';

/** Everything a plan says to people. `shop` is the shop the plan was made for, `plan` one the referee has passed. */
export function reportOn(shop: Shop, plan: Plan): PlanReport {
  const reading = readPlan(shop, plan);
  // From the midnight that begins the plan's day.
  const day = { start: 0, end: plan.horizon };
  const gaps = gapsOf(shop, plan, reading);
  const { tonight } = reading;
  return {
    stretches: reading.stretches.filter((s) => s.end > day.start),
    tonight,
    machines: [...reading.machines.values()].map((m) =>
      machineReport(m, gaps.get(m.machine.id) ?? [], tonight, plan.now),
    ),
    people: reading.presences.map(({ person, present, breaks }) => ({
      person: person.id,
      present: clip(present, day),
      breaks: clip(breaks, day),
    })),
    rounds: roundsOf(shop, plan, reading),
    shifts: shiftTable(shop, plan, gaps, reading),
    late: lateJobs(shop, plan, reading),
  };
}

function machineReport(
  { machine, cutting }: MachineReading,
  gaps: readonly Gap[],
  tonight: Stretch | null,
  now: Minute,
): MachineReport {
  if (tonight === null) return { machine: machine.id, gaps, tonightCut: 0, quietFrom: null };
  const cut = clip(cutting, tonight);
  const last = cut.at(-1)?.end ?? Math.max(tonight.start, now);
  return {
    machine: machine.id,
    gaps,
    tonightCut: coverage(cut),
    quietFrom: last === tonight.end ? null : last,
  };
}
