import { beforeAll, describe, expect, it } from 'vitest';
import type { PlanReport } from '../../../core/contract';
import { planShop } from '../../../core/engine';
import { reportOn } from '../../../core/explain';
import { readPlan } from '../../../core/measure';
import { referee } from '../../../core/referee';
import { ATTENDANCE_ROLES, demoShop, type Plan, runsOf } from '../../../core/shop';
import { type Interval, intersect, minuteOf } from '../../../core/time';
import { at, jobOf, personOf, planOf, shopOf } from '../measure/fixture';

// Own instance: Anna from 06:00 to 14:00, one mill with two places.
const SHOP = shopOf({
  people: [personOf('Anna', '06:00', '14:00', [{ from: '10:00', to: '10:30' }])],
  machines: [
    { id: 'M1', kind: 'mill', places: 2 },
    { id: 'M2', kind: 'mill', places: 2 },
  ],
  pallets: ['P1', 'P2'].map((id) => ({ id, fixture: 'F' })),
  jobs: ['A', 'B'].map((id) =>
    jobOf(id, [{ id: '10', machines: [{ machine: 'M1', cycle: 300 }], fixture: 'F', load: 20, unload: 10 }]),
  ),
});
const night = (end: string) =>
  planOf([
    {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '13:20', '13:40'],
      cut: ['13:40', '18:40'],
      unload: ['Anna', '1 06:00', '1 06:10'],
    },
    {
      run: 'B/10/1',
      machine: 'M1',
      pallet: 'P2',
      load: ['Anna', '13:40', '14:00'],
      cut: ['18:40', end],
      unload: ['Anna', '1 08:00', '1 08:10'],
    },
  ]);

describe('the report on a plan', () => {
  it('gives the stretches from the day on, and tonight among them', () => {
    const report = reportOn(SHOP, night('23:40'));
    expect(report.stretches.slice(0, 3)).toEqual([
      { start: at('14:00') - 1440, end: at('06:00'), attended: false },
      { start: at('06:00'), end: at('14:00'), attended: true },
      { start: at('14:00'), end: at('1 06:00'), attended: false },
    ]);
    expect(report.tonight).toEqual({ start: at('14:00'), end: at('1 06:00'), attended: false });
  });

  it('gives the minutes cut tonight, and from when a machine is quiet', () => {
    expect(reportOn(SHOP, night('23:40')).machines).toMatchObject([
      { machine: 'M1', tonightCut: at('23:40') - at('14:00'), quietFrom: at('23:40') },
      { machine: 'M2', tonightCut: 0, quietFrom: at('14:00') },
    ]);
  });

  it('calls no machine quiet that cuts until the first person comes, and one that ends a minute before', () => {
    const quietFrom = (end: string) => reportOn(SHOP, night(end)).machines[0]!.quietFrom;
    expect([quietFrom('1 06:00'), quietFrom('1 06:30'), quietFrom('1 05:59')]).toEqual([null, null, at('1 05:59')]);
  });

  it('counts tonight from the plan’s moment where that lies in it', () => {
    const plan = { ...night('23:40'), now: at('20:00'), runs: night('23:40').runs.slice(1) };
    expect(reportOn(SHOP, plan).machines[0]).toMatchObject({ tonightCut: at('23:40') - at('20:00') });
    expect(reportOn(SHOP, { ...plan, runs: [] }).machines[0]).toMatchObject({ quietFrom: at('20:00') });
  });

  it('knows no night where somebody is always there', () => {
    const always = shopOf({ ...SHOP, people: [personOf('Anna', '06:00', '18:00'), personOf('Ben', '18:00', '06:00')] });
    const report = reportOn(always, planOf([]));
    expect([report.tonight, report.machines[0]!.quietFrom]).toEqual([null, null]);
  });

  it('gives everybody’s hours with the breaks in them', () => {
    const [anna] = reportOn(SHOP, planOf([])).people;
    expect(anna!.present[0]).toEqual({ start: at('06:00'), end: at('14:00') });
    expect(anna!.breaks[0]).toEqual({ start: at('10:00'), end: at('10:30') });
  });

  it('refuses a plan with a run that no job calls for', () => {
    const stray = planOf([{ run: 'X/10/1', machine: 'M1', cut: ['07:00', '08:00'] }]);
    expect(() => reportOn(SHOP, stray)).toThrow('X/10/1');
  });
});

describe('the report on the demo shop’s plan', () => {
  const shop = demoShop('2026-11-30');
  let plan: Plan;
  let report: PlanReport;
  beforeAll(async () => {
    plan = await planShop(shop, {
      at: shop.planFrom!,
      seconds: 20,
      // Enough for every run to find room.
      steps: 2_000,
      seed: 1,
      clock: () => performance.now(),
    });
    report = reportOn(shop, plan);
  });

  it('covers every minute of every machine once: cutting, under a person’s hands, or in a gap', () => {
    const reading = readPlan(shop, plan);
    expect(report.machines.map((m) => m.machine)).toEqual(shop.machines.map((m) => m.id));
    for (const { machine, gaps } of report.machines) {
      const { cutting, hand } = reading.machines.get(machine)!;
      expect(oneAfterTheOther([...cutting, ...hand, ...gaps])).toEqual({ start: plan.now, end: plan.horizon });
    }
  });

  it('has no gap that is part planned off or part unattended', () => {
    const reading = readPlan(shop, plan);
    for (const { machine, gaps } of report.machines) {
      for (const gap of gaps) {
        expect(minutes(intersect([gap], reading.machines.get(machine)!.open))).toBeOneOf([0, gap.end - gap.start]);
        expect(
          minutes(
            intersect(
              [gap],
              report.stretches.filter((s) => s.attended),
            ),
          ),
        ).toBeOneOf([0, gap.end - gap.start]);
      }
    }
  });

  it('adds up in every row of the shift table', () => {
    for (const row of report.shifts) {
      const { cutAttended, cutUnattended, handWork, waiting, dry, off, nothingDue, start, end } = row;
      expect(cutAttended + cutUnattended + handWork + waiting + dry + off + nothingDue).toBe(end - start);
    }
  });

  it('agrees with the cost of the plan', () => {
    expect(report.rounds).toHaveLength(plan.cost.rounds);
    const tonight = report.machines.reduce((sum, m) => sum + m.tonightCut, 0) / 60;
    expect(tonight).toBeCloseTo(plan.cost.loaded, 6);
    expect(report.machines.filter((m) => m.quietFrom === null)).toHaveLength(plan.cost.morning);
    const weightOf = new Map(shop.jobs.map((job) => [job.id, job.weight]));
    const lateness = report.late.reduce((sum, l) => sum + (weightOf.get(l.job)! * l.lateBy) / 60, 0);
    expect(lateness).toBeCloseTo(plan.cost.lateness, 6);
  });

  it('stops at every attendance of the plan, none later than its latest begin', () => {
    const stops = report.rounds.flatMap((round) => round.stops);
    const attendances = plan.runs.flatMap((r) => [r.load, r.check, r.work, r.unload].filter((a) => a !== null));
    expect(stops).toHaveLength(attendances.length + plan.care.length);
    expect(plan.care.length).toBeGreaterThan(0);
    for (const stop of stops) expect(stop.latest).toBeGreaterThanOrEqual(stop.start);
  });

  it('lets any one attendance begin at its latest if the same person goes on from there, and stays legal', () => {
    const stops = report.rounds
      .flatMap(({ person, stops }) => stops.map((stop) => ({ person, ...stop })))
      .filter((stop) => stop.latest > stop.start);
    expect(stops.length).toBeGreaterThan(0);
    for (const { person, start, latest } of stops) {
      const moved = structuredClone(plan);
      pushFrom(moved, person, start, latest - start);
      const verdict = referee(shop, moved);
      // The cost it states is that of the plan before.
      expect(verdict.breaches.filter((b) => b.rule !== 0)).toEqual([]);
      expect(verdict.cost.lateness).toBeCloseTo(plan.cost.lateness, 6);
    }
  });

  /** Moves an attendance by some minutes, and what its person does after it as far as it must go. */
  function pushFrom(moved: typeof plan, person: string, start: number, minutes: number): void {
    const { walks } = readPlan(shop, plan);
    const machineOf = new Map(shop.machines.map((machine) => [machine.id, machine]));
    const forTools = moved.care.map((attendance) => {
      const spot = walks.spotOf(machineOf.get(attendance.machine)!, 'care');
      return { planned: null, role: 'care' as const, attendance, spot };
    });
    const forRuns = moved.runs.flatMap((planned) =>
      ATTENDANCE_ROLES.flatMap((each) => {
        const attendance = planned[each];
        const spot = walks.spotOf(machineOf.get(planned.machine)!, each);
        return attendance === null ? [] : [{ planned, role: each, attendance, spot }];
      }),
    );
    const chain = [...forRuns, ...forTools]
      .filter((each) => each.attendance.person === person)
      .sort((a, b) => a.attendance.start - b.attendance.start);
    const first = chain.find((each) => each.attendance.start === start)!;
    let earliest = first.attendance.start + minutes;
    let spot = first.spot;
    for (const each of chain.slice(chain.indexOf(first))) {
      const begin = Math.max(each.attendance.start, earliest + walks.between(spot, each.spot));
      const length = each.attendance.end - each.attendance.start;
      Object.assign(each.attendance, { start: begin, end: begin + length });
      if (each.role === 'work') Object.assign(each.planned ?? {}, { start: begin, end: begin + length });
      earliest = begin + length;
      spot = each.spot;
    }
  }

  it('names only late jobs, and says of each why', () => {
    const due = new Map(shop.jobs.map((job) => [job.id, minuteOf(plan.clock, job.due)]));
    for (const late of report.late) {
      expect(late.lateBy).toBe((late.finish ?? Number.NaN) - due.get(late.job)!);
      expect(late.why).toMatch(/^(It|Op) .+\.$|^Its route alone .+\.$/);
    }
    expect(new Set(runsOf(shop).map((run) => run.job.id))).toEqual(new Set(due.keys()));
  });
});

function minutes(intervals: readonly Interval[]): number {
  return intervals.reduce((sum, i) => sum + i.end - i.start, 0);
}

/** The whole of the intervals if each begins where another ends; else the two that do not meet. */
function oneAfterTheOther(intervals: readonly Interval[]): Interval | [Interval, Interval] {
  const sorted = [...intervals].sort((a, b) => a.start - b.start);
  for (let i = 1; i < sorted.length; i++) {
    if (sorted[i - 1]!.end !== sorted[i]!.start) return [sorted[i - 1]!, sorted[i]!];
  }
  return { start: sorted[0]!.start, end: sorted.at(-1)!.end };
}
