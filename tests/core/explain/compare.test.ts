import { describe, expect, it } from 'vitest';
import { type Compared, comparePlans, comparisonSentences, reportOn } from '../../../core/explain';
import { demoShop, type Plan, type Shop } from '../../../core/shop';
import { clockOn, localAt } from '../../../core/time';
import { planned } from '../engine/planned';
import { at, jobOf, planOf } from '../measure/fixture';
import { op, shopWith } from './gaps-fixture';

// Own instances throughout: Anna is in the shop from 06:00 to 14:00.

const JOBS = [
  jobOf('A', [op('10', 'M1', 300)], { due: '2026-12-01T07:00' }),
  jobOf('B', [op('10', 'M1', 300)], { due: '2026-12-01T09:00' }),
];
const SHOP = shopWith({ jobs: JOBS });

function compared(plan: Plan, shop: Shop = SHOP): Compared {
  return { shop, plan, report: reportOn(shop, plan) };
}

const first = (machine = 'M1', pallet = 'P1') =>
  ({
    run: 'A/10/1',
    machine,
    pallet,
    load: ['Anna', '13:20', '13:40'],
    cut: ['13:40', '18:40'],
    unload: ['Anna', '1 06:00', '1 06:10'],
  }) as const;
const second = (cut: readonly [string, string], off: readonly [string, string]) =>
  ({
    run: 'B/10/1',
    machine: 'M1',
    pallet: 'P2',
    load: ['Anna', '13:00', '13:20'],
    cut,
    unload: ['Anna', ...off],
  }) as const;
const BEFORE = planOf([first(), second(['18:40', '23:40'], ['1 06:10', '1 06:20'])]);

/** The same plan as it would be written from another midnight. */
function fromDayBefore(plan: Plan): Plan {
  const clock = clockOn('Europe/Berlin', '2026-11-29T00:00');
  const late = (plan.clock.origin - clock.origin) / 60_000;
  const shift = <T extends { start: number; end: number } | null>(span: T): T =>
    span === null ? span : { ...span, start: span.start + late, end: span.end + late };
  return {
    ...plan,
    clock,
    now: plan.now + late,
    horizon: plan.horizon + late,
    runs: plan.runs.map((run) => ({
      ...shift(run),
      load: shift(run.load),
      check: shift(run.check),
      work: shift(run.work),
      unload: shift(run.unload),
    })),
  };
}

describe('two plans compared', () => {
  it('differ in nothing where they are one plan written from two different midnights', () => {
    const comparison = comparePlans(compared(BEFORE), compared(fromDayBefore(BEFORE)));
    expect(comparison).toMatchObject({
      moved: [],
      appeared: [],
      gone: [],
      late: [],
      dry: [],
      displaced: { tonight: [], week: [] },
    });
    expect(comparison.figures.every(({ before, after }) => before === after)).toBe(true);
    expect(comparisonSentences(comparison, 3)).toEqual(['Every run stays where it is.']);
  });

  it('have a run moved that starts 31 minutes away, not one that starts 30 minutes away', () => {
    const to = (start: string, end: string) =>
      comparePlans(compared(BEFORE), compared(planOf([first(), second([start, end], ['1 06:10', '1 06:20'])]))).moved;
    expect(to('19:10', '1 00:10')).toEqual([]);
    expect(to('19:11', '1 00:11')).toEqual([
      {
        run: 'B/10/1',
        job: 'B',
        from: { machine: 'M1', pallet: 'P2', start: '2026-11-30T18:40' },
        to: { machine: 'M1', pallet: 'P2', start: '2026-11-30T19:11' },
      },
    ]);
  });

  it('have a run moved that goes to another machine at the same time, not one that only changes its pallet', () => {
    const shop = shopWith({
      jobs: [
        jobOf('A', [
          op('10', 'M1', 300, {
            machines: [
              { machine: 'M1', cycle: 300 },
              { machine: 'M2', cycle: 300 },
            ],
          }),
        ]),
      ],
    });
    const to = (machine: string, pallet: string) =>
      comparePlans(compared(planOf([first()]), shop), compared(planOf([first(machine, pallet)]), shop)).moved.length;
    expect([to('M2', 'P1'), to('M1', 'P3')]).toEqual([1, 0]);
  });

  it('name what is left out as gone, and what is done by then not', () => {
    const left = planOf([first()], { left: [{ run: 'B/10/1', why: 'no room.' }] });
    const comparison = comparePlans(compared(BEFORE), compared(left));
    expect(comparison.gone).toEqual(['B/10/1']);
    expect(comparison.displaced).toEqual({ tonight: ['B/10/1'], week: ['B'] });
    expect(comparison.late).toEqual([{ job: 'B', before: 0, after: null }]);
    expect(comparePlans(compared(left), compared(BEFORE)).appeared).toEqual(['B/10/1']);
    const done = shopWith({ jobs: JOBS, floor: [{ run: 'B/10/1', state: 'done', end: '2026-11-30T05:00' }] });
    expect(comparePlans(compared(BEFORE), compared(planOf([first()]), done))).toMatchObject({
      gone: [],
      late: [],
      displaced: { tonight: [], week: [] },
    });
  });

  it('tell whose lateness changes, what costs most first', () => {
    const late = planOf([
      { ...first(), unload: ['Anna', '1 08:50', '1 09:00'] },
      second(['18:40', '23:40'], ['1 12:00', '1 12:10']),
    ]);
    const comparison = comparePlans(compared(BEFORE), compared(late));
    expect(comparison.late).toEqual([
      { job: 'B', before: 0, after: 190 },
      { job: 'A', before: 0, after: 120 },
    ]);
    expect(comparison.displaced.week).toEqual(['A', 'B']);
    expect(comparison.figures.find(({ key }) => key === 'lateJobs')).toEqual({ key: 'lateJobs', before: 0, after: 2 });
    expect(comparisonSentences(comparison, 1)).toEqual(['B finishes 3 h 10 min late, was in time.']);
    expect(comparisonSentences(comparePlans(compared(late), compared(BEFORE)), 9)).toEqual([
      'A finishes in time, was 2 h late.',
      'B finishes in time, was 3 h 10 min late.',
    ]);
  });

  it('tell from when a machine stands tonight, and which runs give way', () => {
    const dawn = planOf([first(), second(['18:40', '1 06:00'], ['1 06:10', '1 06:20'])]);
    const dry = planOf([first(), second(['1 06:30', '1 11:30'], ['1 12:00', '1 12:10'])]);
    const comparison = comparePlans(compared(dawn), compared(dry));
    expect(comparison.nights.after).toEqual({ start: '2026-11-30T14:00', end: '2026-12-01T06:00' });
    expect(comparison.dry).toEqual([
      { machine: 'M1', before: null, after: '2026-11-30T18:40', minutes: at('18:40') - at('1 06:00') },
    ]);
    expect(comparison.displaced.tonight).toEqual(['B/10/1']);
    expect(comparisonSentences(comparison, 9)).toEqual([
      'B finishes 3 h 10 min late, was in time.',
      'M1 stands from 18:40, cut until 06:00 before.',
      '1 run of tonight gives way: B/10/1.',
      '1 run moves.',
    ]);
    expect(comparisonSentences(comparePlans(compared(dry), compared(dawn)), 2)).toEqual([
      '1 run moves.',
      'M1 cuts until 06:00, stood from 18:40 before.',
    ]);
  });

  it('say the day of a time in a night longer than a day', () => {
    const away = shopWith({
      jobs: JOBS,
      people: [{ id: 'Anna', hours: [{ days: ['mon', 'wed'], from: '06:00', to: '14:00' }], skills: ['mill'] }],
    });
    const until = (end: string) =>
      compared(planOf([first(), second(['18:40', end], ['2 06:10', '2 06:20'])], { horizon: '3 00:00' }), away);
    expect(comparisonSentences(comparePlans(until('1 02:00'), until('23:40')), 2)).toContain(
      'M1 stands from Mon 23:40, stood from Tue 02:00 before.',
    );
  });

  it('tell a new job, and one that is no longer there, from one that only fits or does not', () => {
    const only = (id: string) => shopWith({ jobs: JOBS.filter((job) => job.id === id) });
    const [a, ab] = [compared(planOf([first()]), only('A')), compared(BEFORE)];
    const added = comparePlans(a, ab);
    expect(added).toMatchObject({ jobs: { added: ['B'], removed: [] }, late: [{ job: 'B', before: null, after: 0 }] });
    expect(comparisonSentences(added, 9)).toEqual([
      'B is new and finishes in time.',
      'M1 stands from 23:40, stood from 18:40 before.',
    ]);
    const removed = comparePlans(ab, a);
    expect(removed).toMatchObject({ jobs: { added: [], removed: ['B'] }, late: [], gone: ['B/10/1'] });
    expect(comparisonSentences(removed, 9)).toEqual([
      'M1 stands from 18:40, stood from 23:40 before.',
      'B is no longer there.',
    ]);
  });

  it('take a machine that only one shop has as cutting nothing in the other', () => {
    const [m1] = SHOP.machines;
    const without = compared(planOf([]), { ...SHOP, machines: [m1!], jobs: [] });
    const onM2 = shopWith({ jobs: [jobOf('A', [op('10', 'M2', 300)])] });
    expect(comparePlans(without, compared(planOf([first('M2')]), onM2)).dry).toEqual([
      { machine: 'M2', before: '2026-11-30T14:00', after: '2026-11-30T18:40', minutes: at('18:40') - at('14:00') },
    ]);
  });

  it('count the finish of both from one moment', () => {
    const finish = (plan: Plan, hours: number): Plan => ({ ...plan, cost: { ...plan.cost, finish: hours } });
    const later = { ...finish(BEFORE, 22), now: at('08:00') };
    const figure = comparePlans(compared(finish(BEFORE, 24)), compared(later)).figures.find((f) => f.key === 'finish');
    expect(figure).toEqual({ key: 'finish', before: 24, after: 24 });
  });

  it('name a few and count the rest where much changes, in no more sentences than asked for', () => {
    const ids = ['A', 'B', 'C', 'D', 'E'];
    const shop = shopWith({ jobs: ids.map((id) => jobOf(id, [op('10', 'M1', 30)], { due: '2026-11-30T12:00' })) });
    const pad = (hour: number) => String(hour).padStart(2, '0');
    const all = (hour: number) =>
      compared(
        planOf(
          ids.map((id, i) => ({
            run: `${id}/10/1`,
            machine: 'M1',
            pallet: 'P1',
            cut: [`${pad(hour + i)}:00`, `${pad(hour + i)}:30`] as const,
          })),
        ),
        shop,
      );
    const comparison = comparePlans(all(6), all(13));
    expect(comparisonSentences(comparison, 9).slice(0, 3)).toEqual([
      'E finishes 5 h 30 min late, was in time.',
      'D finishes 4 h 30 min late, was in time.',
      '3 more jobs finish later.',
    ]);
    expect(comparisonSentences(comparison, 2)).toHaveLength(2);
  });
});

describe('the demo planned on two days', () => {
  it('compares by the calendar: every run moved is more than 30 minutes or a machine away', async () => {
    const shop = demoShop('2026-11-25');
    const [wednesday, thursday] = [
      await planned(shop, '2026-11-25T08:00', 20),
      await planned(shop, '2026-11-26T08:00', 20, { seed: 2 }),
    ];
    const comparison = comparePlans(compared(wednesday, shop), compared(thursday, shop));
    const starts = new Map(thursday.runs.map((run) => [run.run, localAt(thursday.clock, run.start)]));
    expect(comparison.moved.length).toBeGreaterThan(10);
    for (const { run, from, to } of comparison.moved) {
      expect(to.start).toBe(starts.get(run));
      const apart = Math.abs(Date.parse(to.start) - Date.parse(from.start)) / 60_000;
      expect(from.machine !== to.machine || apart > 30, run).toBe(true);
    }
    const before = comparison.figures.find(({ key }) => key === 'tonight')!.before;
    expect(before).toBe(wednesday.cost.tonight);
  });
});
