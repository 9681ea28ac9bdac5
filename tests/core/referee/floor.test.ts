import { describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import type { Plan } from '../../../core/shop';
import { broken, by, type FloorInput, handless, jobOf, operation, planned, planOf, shopOf, t } from './fixture';

const today = (time: string) => `2026-11-25T${time}`;
const vise = operation({ fixture: 'vise' });

function withFloor(entry: Partial<FloorInput>, job = jobOf('A', [vise])) {
  return shopOf([job], { floor: [{ run: 'A/10/1', state: 'running', ...entry }] });
}

describe('now and the horizon', () => {
  const shop = shopOf([jobOf('A', [handless()])]);

  it('let a run begin now and end at the horizon, to the minute', () => {
    expect(broken(shop, [planned('A/10/1', 'M1', t('08:00'), t('09:00'))])).toEqual([]);
    expect(broken(shop, [planned('A/10/1', 'M1', t('07:59'), t('08:59'))])).toEqual(['10 before-now A/10/1']);
    expect(broken(shop, [planned('A/10/1', 'M1', t('23:00', 2), t('24:00', 2))])).toEqual([]);
    expect(broken(shop, [planned('A/10/1', 'M1', t('23:01', 2), t('24:01', 2))])).toEqual(['10 beyond-horizon A/10/1']);
  });

  it('hold for attendances too', () => {
    const loaded = shopOf([jobOf('A', [operation({ unload: 0 })])]);
    const run = (load: number) => [planned('A/10/1', 'M1', t('09:00'), t('10:00'), { load: by('ana', load) })];
    expect(broken(loaded, run(t('07:59')))).toEqual(['10 before-now A/10/1']);
    const unloaded = shopOf([jobOf('A', [operation({ load: 0 })])], { horizonDays: 1 });
    const late = planned('A/10/1', 'M1', t('09:00'), t('10:00'), { unload: by('ben', t('23:51')) });
    expect(broken(unloaded, [late])).toEqual(['2 person-hours A/10/1', '10 beyond-horizon A/10/1']);
  });

  it('are named in the sentence', () => {
    const plan = planOf(shop, [planned('A/10/1', 'M1', t('07:59'), t('08:59'))]);
    expect(referee(shop, plan).breaches[0]?.say).toBe(
      "Run A/10/1 on M1 has something begin at Wed 25 Nov 07:59, before the plan's moment Wed 25 Nov 08:00.",
    );
  });
});

describe('a run that is running', () => {
  const entry = { machine: 'M1', pallet: 'P1', start: today('07:30') };
  const run = planned('A/10/1', 'M1', t('07:30'), t('08:30'), { pallet: 'P1', unload: by('ana', t('08:30')) });

  it('goes on as it is and is not loaded again', () => {
    expect(broken(withFloor(entry), [run])).toEqual([]);
    expect(broken(withFloor(entry), [{ ...run, load: by('ana', t('08:00')) }])).toEqual(['10 floor-load A/10/1']);
  });

  it('keeps machine, pallet, start and end', () => {
    expect(broken(withFloor(entry), [{ ...run, machine: 'M2' }])).toEqual(['10 floor-machine A/10/1']);
    expect(broken(withFloor(entry), [{ ...run, pallet: 'P2' }])).toEqual(['10 floor-pallet A/10/1']);
    const later = { ...run, start: t('07:31'), end: t('08:31'), unload: by('ana', t('08:31')) };
    expect(broken(withFloor(entry), [later])).toEqual(['10 floor-start A/10/1']);
    const longer = { ...run, end: t('08:31'), unload: by('ana', t('08:31')) };
    expect(broken(withFloor(entry), [longer])).toEqual(['10 floor-end A/10/1']);
  });

  it('cuts until now where it should be over', () => {
    const overdue = withFloor({ ...entry, start: today('06:30') });
    const until = (end: number) => [{ ...run, start: t('06:30'), end, unload: by('ana', t('08:30')) }];
    expect(broken(overdue, until(t('08:00')))).toEqual([]);
    expect(broken(overdue, until(t('07:30')))).toEqual(['10 floor-end A/10/1']);
  });

  it('has not begun in the future where the floor does not say when', () => {
    const open = withFloor({ machine: 'M1', pallet: 'P1' });
    const from = (start: number) => [{ ...run, start, end: start + 60, unload: by('ana', t('09:10')) }];
    expect(broken(open, from(t('08:00')))).toEqual([]);
    expect(broken(open, from(t('08:01')))).toEqual(['10 floor-start A/10/1']);
  });

  it('cannot be left out', () => {
    expect(broken(withFloor(entry), [], { left: [{ run: 'A/10/1', why: 'no room' }] })).toEqual([
      '10 floor-left A/10/1',
    ]);
  });

  it('needs its hours only for what is still to cut', () => {
    const hours = [{ days: ['wed' as const], from: '08:00', to: '08:30' }];
    const shop = shopOf([jobOf('A', [vise])], {
      machines: [
        { id: 'M1', kind: 'mill', places: 2, hours },
        { id: 'M2', kind: 'mill' },
      ],
      floor: [{ run: 'A/10/1', state: 'running', ...entry }],
    });
    expect(broken(shop, [run])).toEqual([]);
  });

  it('is worked on from before now at a bench', () => {
    const bench = jobOf('A', [operation({ machines: [{ machine: 'B1', cycle: 40 }] })]);
    const shop = withFloor({ machine: 'B1', start: today('07:30') }, bench);
    const until = (end: number) => [
      planned('A/10/1', 'B1', t('07:30'), end, { work: by('ana', t('07:30'), end - t('07:30')) }),
    ];
    expect(broken(shop, until(t('08:30')))).toEqual([]);
    expect(broken(shop, until(t('08:29')))).toEqual(['10 floor-end A/10/1']);
  });
});

describe('the first-piece check of a run that is running', () => {
  const job = jobOf('A', [handless({ firstPiece: { after: 20, minutes: 10 } })]);
  const started = (time: string) => withFloor({ machine: 'M1', start: today(time) }, job);
  const unchecked = (start: number, end: number) => [planned('A/10/1', 'M1', start, end)];
  const checked = (start: number, check: number) => [
    planned('A/10/1', 'M1', start, check + 50, { check: by('ana', check) }),
  ];

  it('comes at the hold or later', () => {
    expect(broken(started('07:55'), checked(t('07:55'), t('08:15')))).toEqual([]);
    expect(broken(started('07:55'), checked(t('07:55'), t('08:14')))).toEqual(['7 check-early A/10/1']);
  });

  it('comes now or later where the machine holds already', () => {
    expect(broken(started('07:35'), checked(t('07:35'), t('08:00')))).toEqual([]);
    expect(broken(started('07:35'), checked(t('07:35'), t('07:59')))).toEqual(['10 before-now A/10/1']);
  });

  it('is due as long as it cannot have been done, and may be planned or not after that', () => {
    expect(broken(started('07:31'), unchecked(t('07:31'), t('08:31')))).toEqual(['7 check-missing A/10/1']);
    expect(broken(started('07:30'), unchecked(t('07:30'), t('08:30')))).toEqual([]);
    expect(broken(started('07:30'), checked(t('07:30'), t('08:00')))).toEqual([]);
  });

  it('is followed by what is left to cut', () => {
    const [run] = checked(t('07:55'), t('08:15'));
    expect(broken(started('07:55'), [{ ...run!, end: t('09:04') }])).toEqual(['10 floor-end A/10/1']);
  });
});

describe('a run that is finished', () => {
  const entry: Partial<FloorInput> = { state: 'finished', machine: 'M1', pallet: 'P1', end: today('07:30') };
  const run = planned('A/10/1', 'M1', t('06:30'), t('07:30'), { pallet: 'P1', unload: by('ana', t('08:00')) });

  it('waits to be taken off', () => {
    expect(broken(withFloor(entry), [run])).toEqual([]);
    expect(broken(withFloor(entry), [{ ...run, unload: null }])).toEqual(['3 unload-missing A/10/1']);
    expect(broken(withFloor(entry), [{ ...run, unload: by('ana', t('07:59')) }])).toEqual(['10 before-now A/10/1']);
  });

  it('keeps machine, pallet, start and end, and is neither loaded nor checked', () => {
    expect(broken(withFloor(entry), [{ ...run, machine: 'M2' }])).toEqual(['10 floor-machine A/10/1']);
    expect(broken(withFloor(entry), [{ ...run, pallet: 'P2' }])).toEqual(['10 floor-pallet A/10/1']);
    expect(broken(withFloor(entry), [{ ...run, start: t('06:31') }])).toEqual(['10 floor-start A/10/1']);
    expect(broken(withFloor(entry), [{ ...run, start: t('06:31'), end: t('07:31') }])).toEqual(['10 floor-end A/10/1']);
    expect(broken(withFloor(entry), [{ ...run, load: by('ana', t('08:20')) }])).toEqual(['10 floor-load A/10/1']);
    expect(broken(withFloor(entry), [{ ...run, check: by('ana', t('08:20')) }])).toEqual(['10 floor-check A/10/1']);
  });

  it('finished now where the floor does not say when', () => {
    const open = withFloor({ ...entry, end: null });
    expect(broken(open, [{ ...run, start: t('07:00'), end: t('08:00') }])).toEqual([]);
    expect(broken(open, [run])).toEqual(['10 floor-end A/10/1']);
  });

  it('may have taken longer than planned', () => {
    const slow = withFloor({ ...entry, start: today('05:00') });
    expect(broken(slow, [{ ...run, start: t('05:00') }])).toEqual([]);
    expect(broken(slow, [run])).toEqual(['10 floor-start A/10/1']);
  });

  it('does not clash with the run that followed it on the machine', () => {
    const shop = shopOf([jobOf('A', [vise]), jobOf('B', [handless()])], {
      floor: [
        { run: 'A/10/1', state: 'finished', machine: 'M1', pallet: 'P1' },
        { run: 'B/10/1', state: 'running', machine: 'M1', start: today('07:40') },
      ],
    });
    const runs = [{ ...run, start: t('07:00'), end: t('08:00') }, planned('B/10/1', 'M1', t('07:40'), t('08:40'))];
    expect(broken(shop, runs)).toEqual([]);
  });

  it('has nothing more done to it at a bench', () => {
    const bench = jobOf('A', [operation({ machines: [{ machine: 'B1', cycle: 40 }] })]);
    const shop = withFloor({ state: 'finished', machine: 'B1', end: today('07:30') }, bench);
    expect(broken(shop, [planned('A/10/1', 'B1', t('06:30'), t('07:30'))])).toEqual([]);
  });
});

describe('a run that is loaded', () => {
  const entry: Partial<FloorInput> = { state: 'loaded', machine: 'M1', pallet: 'P1' };
  const run = planned('A/10/1', 'M1', t('09:00'), t('10:00'), { pallet: 'P1', unload: by('ana', t('10:15')) });

  it('starts now or later, on its machine and pallet, without loading', () => {
    expect(broken(withFloor(entry), [run])).toEqual([]);
    expect(broken(withFloor(entry), [{ ...run, machine: 'M2' }])).toEqual(['10 floor-machine A/10/1']);
    expect(broken(withFloor(entry), [{ ...run, pallet: 'P2' }])).toEqual(['10 floor-pallet A/10/1']);
    expect(broken(withFloor(entry), [{ ...run, load: by('ana', t('08:00')) }])).toEqual(['10 floor-load A/10/1']);
    expect(broken(withFloor(entry), [{ ...run, start: t('07:59'), end: t('08:59') }])).toEqual([
      '10 before-now A/10/1',
    ]);
  });

  it('holds its pallet and its place from now on', () => {
    const jobs = [jobOf('A', [vise]), jobOf('B', [handless({ fixture: 'vise' })])];
    const shop = shopOf(jobs, { floor: [{ run: 'A/10/1', state: 'loaded', machine: 'M1', pallet: 'P1' }] });
    const other = planned('B/10/1', 'M2', t('08:00'), t('09:00'), { pallet: 'P1' });
    expect(broken(shop, [run, other])).toEqual(['5 pallet-overlap B/10/1 A/10/1']);
    expect(broken(shop, [run, { ...other, pallet: 'P2' }])).toEqual([]);
    const single = shopOf(jobs, {
      machines: [
        { id: 'M1', kind: 'mill', places: 1 },
        ...['M2', 'C1', 'C2'].map((id) => ({ id, kind: 'mill' as const })),
      ],
      floor: shop.floor,
    });
    expect(broken(single, [run, { ...other, machine: 'M1', pallet: 'P2' }])).toEqual(['3 places A/10/1 B/10/1']);
  });

  it('keeps the table busy from now on', () => {
    const table = operation({ machines: [{ machine: 'T1', cycle: 60 }], load: 10, unload: 0 });
    const shop = shopOf([jobOf('A', [table]), jobOf('B', [{ ...table, load: 0 }])], {
      floor: [{ run: 'A/10/1', state: 'loaded', machine: 'T1' }],
    });
    const runs = [planned('A/10/1', 'T1', t('09:00'), t('10:00')), planned('B/10/1', 'T1', t('08:00'), t('09:00'))];
    expect(broken(shop, runs)).toEqual(['1 machine-overlap B/10/1 A/10/1']);
  });
});

describe('a run that is locked', () => {
  const run = planned('A/10/1', 'M1', t('09:00'), t('10:00'), {
    pallet: 'P1',
    load: by('ana', t('08:00')),
    unload: by('ana', t('10:15')),
  });
  const later = { ...run, start: t('09:01'), end: t('10:01') };

  it('keeps whatever of machine, pallet and start is given, and only that', () => {
    const locked = (what: Partial<FloorInput>) => withFloor({ state: 'locked', ...what });
    expect(broken(locked({ machine: 'M1', pallet: 'P1', start: today('09:00') }), [run])).toEqual([]);
    expect(broken(locked({ machine: 'M2' }), [run])).toEqual(['10 floor-machine A/10/1']);
    expect(broken(locked({ machine: 'M1' }), [later])).toEqual([]);
    expect(broken(locked({ pallet: 'P2' }), [run])).toEqual(['10 floor-pallet A/10/1']);
    expect(broken(locked({ start: today('09:00') }), [later])).toEqual(['10 floor-start A/10/1']);
    expect(broken(locked({ start: today('09:00') }), [{ ...run, machine: 'M2' }])).toEqual([]);
  });

  it('may be left out only where no start is given', () => {
    const left: Partial<Plan> = { left: [{ run: 'A/10/1', why: 'no room' }] };
    expect(broken(withFloor({ state: 'locked', machine: 'M1' }), [], left)).toEqual([]);
    expect(broken(withFloor({ state: 'locked', start: today('09:00') }), [], left)).toEqual(['10 floor-left A/10/1']);
  });
});

describe('a run that is done', () => {
  const shop = withFloor({ state: 'done', end: today('07:00') });

  it('is not in the plan, neither planned nor left out', () => {
    expect(broken(shop, [])).toEqual([]);
    expect(broken(shop, [], { left: [{ run: 'A/10/1', why: 'done' }] })).toEqual(['10 done-planned A/10/1']);
    const again = planned('A/10/1', 'M1', t('09:00'), t('10:00'), {
      pallet: 'P1',
      load: by('ana', t('08:00')),
      unload: by('ana', t('10:15')),
    });
    expect(broken(shop, [again])).toEqual(['10 done-planned A/10/1']);
  });
});

describe('what is on a machine and left out', () => {
  const jobs = [jobOf('A', [handless({ fixture: 'vise' })]), jobOf('B', [handless({ fixture: 'vise' })])];
  const left: Partial<Plan> = { left: [{ run: 'A/10/1', why: 'nobody comes' }] };
  const onFloor = (entry: FloorInput) => shopOf(jobs, { floor: [entry] });
  const running = onFloor({ run: 'A/10/1', state: 'running', machine: 'M1', pallet: 'P1', start: today('07:30') });
  const other = (machine: string, start: number, pallet: string) => [
    planned('B/10/1', machine, start, start + 60, { pallet }),
  ];

  it('keeps cutting, and keeps its pallet', () => {
    expect(broken(running, other('M1', t('08:30'), 'P2'), left)).toEqual(['10 floor-left A/10/1']);
    expect(broken(running, other('M1', t('08:29'), 'P2'), left)).toContain('1 machine-overlap A/10/1 B/10/1');
    expect(broken(running, other('M2', t('20:00', 2), 'P1'), left)).toContain('5 pallet-overlap A/10/1 B/10/1');
  });

  it('keeps its place', () => {
    const single = shopOf(jobs, {
      machines: [
        { id: 'M1', kind: 'mill', places: 1 },
        ...['M2', 'C1', 'C2'].map((id) => ({ id, kind: 'mill' as const })),
      ],
      floor: [{ run: 'A/10/1', state: 'finished', machine: 'M1', pallet: 'P1' }],
    });
    expect(broken(single, other('M1', t('12:00'), 'P2'), left)).toContain('3 places A/10/1 B/10/1');
  });
});
