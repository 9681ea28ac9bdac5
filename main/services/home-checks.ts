import type { HomeCheck, NightOutcome, PlanView } from '../../core/contract';
import { hoursText } from '../../core/time';

/** What to see to before the last person leaves: what the plan has people do by then, and what runs out. */
export function homeChecks({ shop, plan, report }: PlanView, outcome: NightOutcome): HomeCheck[] {
  const { stretch } = outcome;
  if (stretch === null) return [];
  const before = stretch.start;
  const firstPieces = plan.runs.flatMap(({ run, machine, check }): HomeCheck[] =>
    check !== null && check.start < before
      ? [{ key: `check ${run}`, say: `First piece of ${run} checked on ${machine}`, at: check.end, short: null }]
      : [],
  );
  const cares = report.rounds
    .flatMap((round) => round.stops)
    .filter((stop) => stop.role === 'care' && stop.start < before)
    .map(
      ({ machine, say, start, end }): HomeCheck => ({
        key: `care ${machine} ${start}`,
        say: `${say} on ${machine}`,
        at: end,
        short: null,
      }),
    );
  const cutting = new Map(outcome.machines.map((machine) => [machine.machine, machine]));
  const supplies = shop.machines.flatMap(({ id, supplies: all }) => {
    const asked = cutting.get(id)?.loaded ?? 0;
    if (asked === 0) return [];
    return all.map(({ name, hours }): HomeCheck => {
      const isShort = hours < asked;
      const lasts = `lasts ${hoursText(hours * 60)} of the ${hoursText(asked * 60)} loaded`;
      return { key: `supply ${id} ${name}`, say: `${name} on ${id} ${lasts}`, at: null, short: isShort ? lasts : null };
    });
  });
  const usual = USUAL.map((say): HomeCheck => ({ key: `usual ${say}`, say, at: null, short: null }));
  const timed = [...firstPieces, ...cares].sort((a, b) => (a.at ?? 0) - (b.at ?? 0));
  return [...timed, ...supplies, ...usual];
}

/** Common practice, no source. */
const USUAL = [
  'Chips cleared, conveyor running',
  'Coolant filled and its concentration right',
  'Filter clean',
  'Probe battery good, stylus clean',
  'Doors shut, nobody inside the cell',
];
