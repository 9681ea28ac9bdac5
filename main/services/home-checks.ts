import type { HomeCheck, NightOutcome, PlanView } from '../../core/contract';

/** What to see to before the last person leaves: what the plan has people do by then, and what is usual. */
export function homeChecks({ plan, report }: PlanView, { stretch }: Pick<NightOutcome, 'stretch'>): HomeCheck[] {
  if (stretch === null) return [];
  const before = stretch.start;
  const firstPieces = plan.runs.flatMap(({ run, machine, check }): HomeCheck[] =>
    check !== null && check.start < before
      ? [{ key: `check ${run}`, say: `First piece of ${run} checked on ${machine}`, at: check.end }]
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
      }),
    );
  const usual = USUAL.map((say): HomeCheck => ({ key: `usual ${say}`, say, at: null }));
  const timed = [...firstPieces, ...cares].sort((a, b) => (a.at ?? 0) - (b.at ?? 0));
  return [...timed, ...usual];
}

/** Common practice, no source. */
const USUAL = [
  'Chips cleared, conveyor running',
  'Coolant filled and its concentration right',
  'Filter clean',
  'Probe battery good, stylus clean',
  'Doors shut, nobody inside the cell',
];
