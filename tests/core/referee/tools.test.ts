import { describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import type { Plan, ShopInput } from '../../../core/shop';
import { broken, by, handless, jobOf, operation, planned, planOf, reporting, shopOf, t } from './fixture';

type Tool = NonNullable<ShopInput['tools']>[number];
type Care = Plan['care'][number];

/** Two hours of cutting on M1 from 08:00, two runs one after the other, each needing 60 minutes of T. */
function shopWith(tool: Partial<Tool>, left: number[] | null, more: { need?: number; fraction?: number } = {}) {
  const machines: ShopInput['machines'] = [
    {
      ...{ id: 'M1', kind: 'mill', places: 2, nightFraction: more.fraction ?? 1 },
      magazine: left === null ? [] : [{ tool: 'T', left }],
    },
    { id: 'M2', kind: 'mill', places: 2 },
    { id: 'C1', kind: 'mill', cell: 'K' },
    { id: 'C2', kind: 'mill', cell: 'K' },
    { id: 'T1', kind: 'grind' },
    { id: 'B1', kind: 'bench' },
  ];
  const route = [handless({ tools: [{ tool: 'T', minutes: more.need ?? 60 }] })];
  return shopOf([jobOf('A', route, { quantity: 2 })], {
    machines,
    tools: [{ id: 'T', life: 200, replaceMinutes: 10, ...tool }],
  });
}

const two = (first = t('08:00'), second = t('09:00')) => [
  planned('A/10/1', 'M1', first, first + 60),
  planned('A/10/2', 'M1', second, second + 60),
];
const care = (start: number, acts: Care['acts'], minutes = 10): Care => ({
  ...{ machine: 'M1', person: 'ana', start, end: start + minutes, acts },
});
const replace = (sister = 0) => ({ tool: 'T', sister, act: 'replace' as const });

describe('sister tools', () => {
  it('last to the minute, and not one more', () => {
    expect(broken(shopWith({}, [120]), two())).toEqual([]);
    expect(broken(shopWith({}, [119]), two())).toEqual(['8 tool-short A/10/2']);
  });

  it('follow each other within one cut', () => {
    expect(broken(shopWith({}, [30, 90]), two())).toEqual([]);
  });

  it('are taken by the runs in order of start, however the plan lists them', () => {
    expect(broken(shopWith({}, [119]), two().toReversed())).toEqual(['8 tool-short A/10/2']);
  });

  it('of a finish tool do not share one cut', () => {
    expect(broken(shopWith({ finish: true }, [59, 59, 60]), two())).toEqual(['8 tool-short A/10/2']);
    expect(broken(shopWith({ finish: true }, [59, 60, 60]), two())).toEqual([]);
  });

  it('that the magazine does not hold are an empty pocket', () => {
    expect(broken(shopWith({}, null), two())).toEqual(['8 tool-short A/10/1', '8 tool-short A/10/2']);
    const plan = planOf(shopWith({}, null), two(t('08:10'), t('09:10')), { care: [care(t('08:00'), [replace()])] });
    expect(referee(shopWith({}, null), plan).breaches).toEqual([]);
  });

  it('are not looked at on another machine', () => {
    const elsewhere = two().map((run) => ({ ...run, machine: 'M2' }));
    expect(broken(shopWith({}, [10]), elsewhere)).toEqual(['8 tool-short A/10/1', '8 tool-short A/10/2']);
  });
});

describe('the night’s share of a tool', () => {
  // Of 200 minutes of life the night may use 150, so 50 must be left.
  const shop = shopWith({}, [170], { fraction: 0.75 });

  it('is kept by a cut that ends the minute the last person leaves', () => {
    expect(broken(shop, two(t('20:00'), t('21:00')))).toEqual([]);
  });

  it('is asked of a cut that goes on for one minute with nobody there', () => {
    expect(broken(shop, two(t('20:01'), t('21:01')))).toEqual([]);
    expect(broken(shopWith({}, [169], { fraction: 0.75 }), two(t('20:01'), t('21:01')))).toEqual([
      '8 tool-short A/10/2',
    ]);
  });
});

describe('a replacement', () => {
  const shop = shopWith({}, [60]);
  const withCare = (start: number, runs = two(t('08:00'), t('09:10'))) =>
    referee(shop, planOf(shop, runs, { care: [care(start, [replace()])] })).breaches.map((b) => `${b.rule} ${b.code}`);

  it('gives the tool its whole life again from its end on', () => {
    expect(withCare(t('09:00'))).toEqual([]);
  });

  it('comes too late when the cut has begun', () => {
    expect(withCare(t('10:20'))).toEqual(['8 tool-short']);
  });

  it('wastes what was left in the tool', () => {
    const early = shopWith({ life: 100 }, [60]);
    const runs = two(t('08:10'), t('09:10'));
    const plan = planOf(early, runs, { care: [care(t('08:00'), [replace()])] });
    expect(referee(early, plan).breaches.map((b) => b.code)).toEqual(['tool-short']);
  });
});

describe('a wheel dressed by hand', () => {
  const dressing = { every: 60, minutes: 5, by: 'hand' as const };
  const wheel: Partial<Tool> = { kind: 'wheel', life: 1000, dressing };
  const dress = { tool: 'T', sister: 0, act: 'dress' as const };

  it('grinds for its interval to the minute', () => {
    expect(broken(shopWith(wheel, [900]), two())).toEqual(['8 tool-short A/10/2']);
    const shop = shopWith(wheel, [900]);
    const plan = planOf(shop, two(t('08:00'), t('09:05')), { care: [care(t('09:00'), [dress], 5)] });
    expect(referee(shop, plan).breaches).toEqual([]);
  });

  it('is freshly dressed when it is replaced', () => {
    const shop = shopWith(wheel, [900]);
    const plan = planOf(shop, two(t('08:00'), t('09:10')), { care: [care(t('09:00'), [replace()])] });
    expect(referee(shop, plan).breaches).toEqual([]);
  });

  it('dressed by the machine asks for nobody', () => {
    expect(broken(shopWith({ ...wheel, dressing: { ...dressing, by: 'machine' } }, [900]), two())).toEqual([]);
  });

  it('is used up by its radius before its life', () => {
    // One millimetre left at half a millimetre a dressing: two dressings, so three intervals of 60 minutes.
    const worn = { ...wheel, dressing: { ...dressing, by: 'machine' as const, usesMm: 0.5, leftMm: 1 } };
    expect(broken(shopWith(worn, [900], { need: 90 }), two())).toEqual([]);
    expect(broken(shopWith(worn, [900], { need: 91 }), two())).toEqual(['8 tool-short A/10/2']);
  });
});

describe('an attendance to tools', () => {
  const shop = shopWith({}, [60], { need: 10 });
  const refused = (one: Partial<Care>, runs = two(t('11:00'), t('12:00'))) =>
    referee(shop, planOf(shop, runs, { care: [{ ...care(t('08:00'), [replace()]), ...one }] })).breaches.map(
      (b) => `${b.rule} ${b.code}`,
    );

  it('is as long as what is done in it', () => {
    expect(refused({})).toEqual([]);
    expect(refused({ end: t('08:09') })).toEqual(['8 care-length']);
    expect(refused({ end: t('08:11') })).toEqual(['8 care-length']);
  });

  it('keeps the machine from cutting', () => {
    expect(refused({}, two(t('08:10'), t('09:10')))).toEqual([]);
    expect(refused({}, two(t('08:09'), t('09:09')))).toEqual(['1 care-overlap']);
  });

  it('is done by somebody who is there, in no break', () => {
    expect(refused({ start: t('10:05'), end: t('10:15') })).toEqual(['2 person-break']);
    expect(refused({ person: 'ben' })).toEqual(['2 person-hours']);
    expect(refused({ person: 'zoe' })).toEqual(['2 unknown-person']);
  });

  it('leaves time for the walk from and to what else the person does', () => {
    const fetch = (start: number) => [
      planned('A/10/1', 'M1', t('11:00'), t('12:00')),
      planned('A/10/2', 'M2', t('08:00'), t('09:00'), { unload: by('ana', start) }),
    ];
    const hands = shopOf([jobOf('A', [operation({ load: 0, tools: [{ tool: 'T', minutes: 1 }] })], { quantity: 2 })], {
      tools: [{ id: 'T', life: 200, replaceMinutes: 10 }],
    });
    const at = (start: number) => {
      const runs = fetch(start).map((run, i) => (i === 0 ? { ...run, unload: by('ana', t('12:00')) } : run));
      const plan = planOf(hands, runs, { care: [care(t('08:50'), [replace()])] });
      return referee(hands, plan)
        .breaches.map((b) => `${b.rule} ${b.code}`)
        .filter((code) => code.startsWith('2'));
    };
    expect(at(t('09:05'))).toEqual([]);
    expect(at(t('09:04'))).toEqual(['2 walk']);
  });

  it('does only what can be done', () => {
    expect(refused({ acts: [{ tool: 'T', sister: 1, act: 'replace' }] })).toEqual(['8 care-act']);
    expect(refused({ acts: [{ tool: 'X', sister: 0, act: 'replace' }] })).toEqual(['8 care-act']);
    expect(refused({ acts: [{ tool: 'T', sister: 0, act: 'dress' }] })).toEqual(['8 care-act']);
    expect(refused({ machine: 'B1' })).toEqual(['8 care-machine']);
    expect(refused({ machine: 'X' })).toEqual(['8 care-machine']);
  });

  it('lies ahead', () => {
    expect(refused({ start: t('07:59'), end: t('08:09') })).toEqual(['10 care-outside']);
  });

  it('counts as a round', () => {
    const runs = two(t('11:00'), t('12:00'));
    const rounds = (cares: Care[]) => planOf(shop, runs, { care: cares }).cost.rounds;
    expect(rounds([care(t('08:00'), [replace()])])).toBe(rounds([]) + 1);
  });
});

describe('what is held and short of a tool', () => {
  const shop = { ...shopWith({}, [10]) };
  const floor = [
    {
      run: 'A/10/1',
      state: 'running' as const,
      machine: 'M1',
      pallet: null,
      start: '2026-11-25T07:30',
      end: null,
      after: null,
    },
  ];
  const running = { ...shop, floor };
  const runs = [planned('A/10/1', 'M1', t('07:30'), t('08:30'))];
  const left = [{ run: 'A/10/2', why: 'no tool' }];

  it('is a conflict if the plan says so, and a breach if not', () => {
    const said = referee(running, planOf(running, runs, { left, ...reporting('A/10/1') }));
    expect([said.breaches, said.conflicts.map((c) => c.code)]).toEqual([[], ['tool-short']]);
    const silent = referee(running, planOf(running, runs, { left }));
    expect(silent.breaches.map((b) => b.code)).toEqual(['tool-short']);
  });
});
