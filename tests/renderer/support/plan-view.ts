import type { Gap, PlanView, Round, ShiftRow, Stop } from '../../../core/contract';
import { type PlannedRun, type ShopInput, shopSchema } from '../../../core/shop';
import { clockOn, type Minute, stretchesOf } from '../../../core/time';

/** Own instance, made by hand: one evening, the night and the next day of a five-machine shop. */

const clock = clockOn('Europe/Berlin', '2026-11-25T00:00');

/** Minutes on the axis: day 0 is Wednesday 25 November 2026. */
export function at(day: number, time: string): Minute {
  return day * 1440 + Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
}

const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri'] as const;

function job(id: string, name: string, quantity: number, perPallet: number, due: string, machine: string, op: string) {
  const firstPiece = id === 'J-112' ? { after: 30, minutes: 15 } : null;
  const operation = {
    id: op,
    name: '',
    machines: [{ machine, cycle: 240 }],
    fixture: 'vice',
    perPallet,
    load: 15,
    unload: 10,
  };
  return { id, name, quantity, due, route: [{ ...operation, firstPiece }] };
}

const shopInput: ShopInput = {
  format: 'nightload-shop',
  version: 1,
  name: 'Test shop',
  zone: 'Europe/Berlin',
  planFrom: '2026-11-25T13:30',
  shifts: [
    { id: 'first', days: [...WEEKDAYS], from: '06:00', to: '14:00' },
    { id: 'second', days: [...WEEKDAYS], from: '14:00', to: '22:00' },
    { id: 'third', days: [...WEEKDAYS], from: '22:00', to: '06:00' },
  ],
  people: [
    { id: 'anna', name: 'Anna', hours: [{ days: [...WEEKDAYS], from: '06:00', to: '14:30' }] },
    { id: 'ben', name: 'Ben', hours: [{ days: [...WEEKDAYS], from: '14:00', to: '22:30' }] },
  ],
  machines: [
    { id: 'M1', name: 'Horizontal mill', kind: 'mill', places: 6 },
    { id: 'M2', name: 'Five-axis mill', kind: 'mill', places: 4 },
    { id: 'G1', name: 'Profile grinder', kind: 'grind', places: 0 },
    { id: 'C1', name: 'Mill-grind centre', kind: 'mill-grind', places: 3 },
    { id: 'B1', name: 'Fitting bench', kind: 'bench' },
  ],
  pallets: [{ id: 'P-01', fixture: 'vice' }],
  jobs: [
    job('J-101', 'Ejector plate', 1, 1, '2026-11-25T18:00', 'B1', '40'),
    job('J-103', 'Core pin', 8, 4, '2026-11-26T12:00', 'G1', '30'),
    job('J-104', 'Cavity insert', 8, 4, '2026-11-27T16:00', 'M1', '10'),
    job('J-107', 'Slide', 12, 6, '2026-11-27T12:00', 'M2', '20'),
    job('J-109', 'Die punch', 2, 2, '2026-11-27T12:00', 'G1', '30'),
    job('J-110', 'Die plate', 2, 1, '2026-11-27T12:00', 'C1', '10'),
    job('J-112', 'Runner insert', 6, 2, '2026-11-27T12:00', 'M1', '10'),
    job('J-115', 'Gate insert', 4, 2, '2026-11-26T08:00', 'M2', '10'),
    job('J-120', 'Electrode holder', 1, 1, '2026-12-01T12:00', 'C1', '10'),
  ],
};

const shop = shopSchema.parse(shopInput);

type Hand = readonly [person: string, start: Minute, end: Minute];

function run(
  id: string,
  machine: string,
  pallet: string | null,
  start: Minute,
  end: Minute,
  hands: Partial<Record<'load' | 'check' | 'work' | 'unload', Hand>>,
): PlannedRun {
  const hand = (given: Hand | undefined) =>
    given === undefined ? null : { person: given[0], start: given[1], end: given[2] };
  return {
    run: id,
    machine,
    pallet,
    start,
    end,
    load: hand(hands.load),
    check: hand(hands.check),
    work: hand(hands.work),
    unload: hand(hands.unload),
  };
}

const runs: PlannedRun[] = [
  run('J-104/10/1', 'M1', 'P-01', at(0, '12:00'), at(0, '15:00'), { unload: ['ben', at(0, '15:05'), at(0, '15:15')] }),
  run('J-104/10/2', 'M1', 'P-02', at(0, '15:00'), at(0, '18:40'), {
    load: ['anna', at(0, '13:40'), at(0, '13:55')],
    unload: ['ben', at(0, '19:00'), at(0, '19:10')],
  }),
  run('J-112/10/1', 'M1', 'P-03', at(0, '18:40'), at(0, '23:00'), {
    load: ['ben', at(0, '15:20'), at(0, '15:35')],
    check: ['ben', at(0, '19:15'), at(0, '19:30')],
    unload: ['anna', at(1, '06:10'), at(1, '06:20')],
  }),
  run('J-112/10/2', 'M1', 'P-04', at(0, '23:00'), at(1, '03:00'), {
    load: ['ben', at(0, '19:40'), at(0, '19:55')],
    unload: ['anna', at(1, '06:21'), at(1, '06:31')],
  }),
  run('J-112/10/3', 'M1', 'P-05', at(1, '03:00'), at(1, '07:00'), {
    load: ['ben', at(0, '19:56'), at(0, '20:11')],
    unload: ['anna', at(1, '07:05'), at(1, '07:15')],
  }),
  run('J-107/20/1', 'M2', 'P-06', at(0, '13:30'), at(0, '16:30'), { unload: ['ben', at(0, '16:40'), at(0, '16:50')] }),
  run('J-107/20/2', 'M2', 'P-06', at(0, '17:05'), at(0, '22:00'), {
    load: ['ben', at(0, '16:50'), at(0, '17:05')],
    unload: ['anna', at(1, '06:33'), at(1, '06:43')],
  }),
  run('J-115/10/1', 'M2', 'P-07', at(0, '22:00'), at(1, '02:00'), {
    load: ['ben', at(0, '17:06'), at(0, '17:21')],
    unload: ['anna', at(1, '06:44'), at(1, '06:54')],
  }),
  run('J-115/10/2', 'M2', 'P-07', at(1, '07:35'), at(1, '11:35'), {
    load: ['anna', at(1, '07:20'), at(1, '07:35')],
    unload: ['anna', at(1, '11:40'), at(1, '11:50')],
  }),
  run('J-103/30/1', 'G1', 'P-08', at(0, '14:20'), at(0, '17:20'), {
    load: ['anna', at(0, '14:00'), at(0, '14:20')],
    unload: ['ben', at(0, '17:30'), at(0, '17:45')],
  }),
  run('J-103/30/2', 'G1', 'P-08', at(0, '18:00'), at(0, '21:00'), {
    load: ['ben', at(0, '17:45'), at(0, '18:00')],
    unload: ['ben', at(0, '21:00'), at(0, '21:15')],
  }),
  run('J-109/30/1', 'G1', 'P-09', at(0, '21:35'), at(1, '01:35'), {
    load: ['ben', at(0, '21:15'), at(0, '21:35')],
    unload: ['anna', at(1, '08:00'), at(1, '08:15')],
  }),
  run('J-110/10/1', 'C1', 'P-10', at(0, '16:20'), at(0, '21:50'), {
    load: ['ben', at(0, '16:00'), at(0, '16:15')],
    unload: ['anna', at(1, '08:20'), at(1, '08:30')],
  }),
  run('J-110/10/2', 'C1', 'P-11', at(0, '21:50'), at(1, '03:20'), {
    load: ['ben', at(0, '20:20'), at(0, '20:35')],
    unload: ['anna', at(1, '08:31'), at(1, '08:41')],
  }),
  run('J-101/40/1', 'B1', null, at(1, '09:00'), at(1, '10:30'), { work: ['anna', at(1, '09:00'), at(1, '10:30')] }),
];

const now = at(0, '13:30');
const horizon = at(3, '13:30');

function gap(start: Minute, end: Minute, reason: Gap['reason'], say: string): Gap {
  return { start, end, reason, say };
}

const NOTHING = 'The plan has no more work for it.';

const gaps: Record<string, Gap[]> = {
  M1: [gap(at(1, '07:00'), horizon, 'nothing-due', NOTHING)],
  M2: [
    gap(at(0, '16:30'), at(0, '17:05'), 'hand', 'J-107/20/2 waits for Ben to take off P-06 and load it again.'),
    gap(
      at(1, '02:00'),
      at(1, '07:35'),
      'dry',
      'Nothing is loaded: P-07, the only pallet for J-115, was finished at 02:00.',
    ),
    gap(at(1, '11:35'), horizon, 'nothing-due', NOTHING),
  ],
  G1: [
    gap(now, at(0, '14:00'), 'hand', 'J-103/30/1 waits until Anna has loaded M1.'),
    gap(at(0, '17:20'), at(0, '17:30'), 'hand', 'J-103/30/1 waits for Ben to take it off.'),
    gap(
      at(1, '01:35'),
      at(1, '08:00'),
      'hand',
      'J-109/30/1 is finished and nobody is here to take it off before 06:00.',
    ),
    gap(at(1, '08:15'), horizon, 'nothing-due', NOTHING),
  ],
  C1: [
    gap(now, at(0, '16:00'), 'off', 'Planned off: spindle care.'),
    gap(at(0, '16:00'), at(0, '16:20'), 'hand', 'J-110/10/1 waits for Ben to load it.'),
    gap(at(1, '03:20'), horizon, 'nothing-due', NOTHING),
  ],
  B1: [
    gap(now, at(1, '09:00'), 'hand', 'J-101/40/1 waits for Anna.'),
    gap(at(1, '10:30'), horizon, 'nothing-due', NOTHING),
  ],
};

const SAY = { load: 'Load', unload: 'Unload', check: 'Check the first piece of', work: 'Fit' } as const;

function stops(): (Stop & { person: string })[] {
  return runs
    .flatMap((planned) =>
      (['load', 'check', 'work', 'unload'] as const).flatMap((role) => {
        const hand = planned[role];
        if (hand === null) return [];
        const [job, op] = planned.run.split('/');
        const say = `${SAY[role]} ${planned.pallet ?? 'by hand'}, ${job} op ${op}`;
        const slack = role === 'load' ? Math.max(0, planned.start - hand.end) : 45;
        return [
          {
            ...hand,
            role,
            run: planned.run,
            machine: planned.machine,
            pallet: planned.pallet,
            say,
            latest: hand.start + slack,
          },
        ];
      }),
    )
    .sort((a, b) => a.start - b.start);
}

function roundsOf(): Round[] {
  const rounds: { person: string; start: Minute; end: Minute; stops: Stop[] }[] = [];
  for (const { person, ...stop } of stops()) {
    const last = rounds.findLast((round) => round.person === person);
    if (last !== undefined && stop.start - last.end <= 11) {
      last.stops.push(stop);
      last.end = stop.end;
    } else rounds.push({ person, start: stop.start, end: stop.end, stops: [stop] });
  }
  return rounds.sort((a, b) => a.start - b.start);
}

const present = {
  anna: [0, 1, 2].map((day) => ({ start: at(day, '06:00'), end: at(day, '14:30') })),
  ben: [0, 1, 2].map((day) => ({ start: at(day, '14:00'), end: at(day, '22:30') })),
};

function shiftRow(machine: string, shift: string, start: Minute, end: Minute, times: Partial<ShiftRow>): ShiftRow {
  const rest = { cutAttended: 0, cutUnattended: 0, handWork: 0, waiting: 0, dry: 0, off: 0, nothingDue: 0, ...times };
  return { machine, shift, start, end, ...rest };
}

const shifts: ShiftRow[] = [
  shiftRow('M1', 'first', now, at(0, '14:00'), { cutAttended: 30 }),
  shiftRow('M1', 'second', at(0, '14:00'), at(0, '22:00'), { cutAttended: 460, handWork: 20 }),
  shiftRow('M1', 'third', at(0, '22:00'), at(1, '06:00'), { cutAttended: 30, cutUnattended: 450 }),
  shiftRow('M2', 'second', at(0, '14:00'), at(0, '22:00'), { cutAttended: 445, waiting: 35 }),
  shiftRow('M2', 'third', at(0, '22:00'), at(1, '06:00'), { cutAttended: 30, cutUnattended: 210, dry: 240 }),
  shiftRow('G1', 'second', at(0, '14:00'), at(0, '22:00'), { cutAttended: 385, handWork: 85, waiting: 10 }),
  shiftRow('G1', 'third', at(0, '22:00'), at(1, '06:00'), { cutAttended: 30, cutUnattended: 185, waiting: 265 }),
  shiftRow('C1', 'second', at(0, '14:00'), at(0, '22:00'), { cutAttended: 340, waiting: 20, off: 120 }),
  shiftRow('C1', 'third', at(0, '22:00'), at(1, '06:00'), { cutAttended: 30, cutUnattended: 290, nothingDue: 160 }),
  shiftRow('M1', 'first', at(1, '06:00'), at(1, '14:00'), { cutAttended: 60, nothingDue: 420 }),
];

const night = {
  M1: { tonightCut: 450, quietFrom: null },
  M2: { tonightCut: 210, quietFrom: at(1, '02:00') },
  G1: { tonightCut: 185, quietFrom: at(1, '01:35') },
  C1: { tonightCut: 290, quietFrom: at(1, '03:20') },
  B1: { tonightCut: 0, quietFrom: at(0, '22:30') },
};

const tonight = { start: at(0, '22:30'), end: at(1, '06:00'), attended: false };

/** A fresh copy of the fixture, with `changes` in place. */
export function planView(changes: Partial<PlanView> = {}): PlanView {
  return structuredClone({
    id: 1,
    made: '2026-11-25T13:30',
    name: '',
    shop,
    outdated: false,
    released: null,
    plan: {
      format: 'nightload-plan',
      version: 1,
      shop: 'Test shop',
      clock,
      now,
      horizon,
      runs,
      care: [],
      left: [],
      conflicts: [],
      cost: {
        lateness: 20.3,
        loaded: 18.9,
        tonight: 18.9,
        laterNights: 0,
        morning: 1,
        rounds: 14,
        extraHours: 0,
        flow: 0,
        moved: 0,
        finish: 22.3,
        total: 12.9,
      },
      bound: { total: 10, tonight: 22.5, lateness: 16.5, finish: 20 },
      search: { seed: 1, steps: 1200, seconds: 4.9, ending: 'limit' },
    },
    report: {
      stretches: stretchesOf([...present.anna, ...present.ben], { start: now, end: horizon }),
      tonight,
      machines: Object.entries(gaps).map(([machine, own]) => ({
        machine,
        gaps: own,
        ...night[machine as keyof typeof night],
      })),
      people: [
        { person: 'anna', present: present.anna, breaks: [{ start: at(1, '09:30'), end: at(1, '10:00') }] },
        { person: 'ben', present: present.ben, breaks: [{ start: at(0, '18:15'), end: at(0, '18:45') }] },
      ],
      rounds: roundsOf(),
      shifts,
      late: [
        {
          job: 'J-101',
          due: at(0, '18:00'),
          finish: at(1, '10:30'),
          lateBy: 990,
          why: 'Its fitting needs Anna, who is here again on Thursday at 06:00.',
        },
        {
          job: 'J-115',
          due: at(1, '08:00'),
          finish: at(1, '11:50'),
          lateBy: 230,
          why: 'Its second run waits for P-07, the only pallet that fits; it comes off at 06:54.',
        },
      ],
    },
    ...changes,
  } satisfies PlanView);
}
