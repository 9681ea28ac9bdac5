import { describe, expect, it } from 'vitest';
import { broken, by, handless, jobOf, operation, planned, shopOf, t } from './fixture';

const step = (id: string, more: object = {}) => handless({ id, ...more });

describe('steps of a route', () => {
  const shop = shopOf([jobOf('A', [step('10'), step('20')])]);
  const first = planned('A/10/1', 'M1', t('08:00'), t('09:00'));
  const second = (start: number) => planned('A/20/1', 'M2', start, start + 60);

  it('may follow each other the same minute', () => {
    expect(broken(shop, [first, second(t('09:00'))])).toEqual([]);
  });

  it('may not overlap by a minute', () => {
    expect(broken(shop, [first, second(t('08:59'))])).toEqual(['6 step-before A/20/1 A/10/1']);
  });

  it('wait for the parts to be taken off, not only cut, and are on from loading', () => {
    const hands = shopOf([jobOf('A', [operation({ id: '10', load: 0 }), operation({ id: '20', unload: 0 })])]);
    const off = { ...first, unload: by('ana', t('11:00')) };
    const next = (load: number, person: string) =>
      planned('A/20/1', 'M2', t('15:00'), t('16:00'), { load: by(person, load) });
    expect(broken(hands, [off, next(t('11:15'), 'ana')])).toEqual([]);
    const late = { ...first, unload: by('ana', t('14:00')) };
    expect(broken(hands, [late, next(t('14:10'), 'ben')])).toEqual([]);
    expect(broken(hands, [late, next(t('14:09'), 'ben')])).toEqual(['6 step-before A/20/1 A/10/1']);
  });

  it('wait for the lag, to the minute', () => {
    const cooling = shopOf([jobOf('A', [step('10'), step('20', { lag: 30 })])]);
    expect(broken(cooling, [first, second(t('09:30'))])).toEqual([]);
    expect(broken(cooling, [first, second(t('09:29'))])).toEqual(['6 step-before A/20/1 A/10/1']);
  });

  it('wait for every run that makes one of their parts, and for no other', () => {
    // Two parts at a time, then three: the first pallet of three takes parts of the first two pallets of two.
    const route = [step('10', { perPallet: 2 }), step('20', { perPallet: 3 })];
    const mixed = shopOf([jobOf('A', route, { quantity: 6 })]);
    const runs = (start: number) => [
      planned('A/10/1', 'M1', t('08:00'), t('09:00')),
      planned('A/10/2', 'M1', t('09:00'), t('10:00')),
      planned('A/10/3', 'M1', t('10:00'), t('11:00')),
      planned('A/20/1', 'M2', start, start + 60),
      planned('A/20/2', 'M2', t('12:00'), t('13:00')),
    ];
    expect(broken(mixed, runs(t('10:00')))).toEqual([]);
    expect(broken(mixed, runs(t('09:59')))).toEqual(['6 step-before A/20/1 A/10/2']);
  });

  it('begin after the release of the job, loading included', () => {
    const released = (release: string) =>
      shopOf([jobOf('A', [operation({ unload: 0 })], { release: `2026-11-25T${release}` })]);
    const run = planned('A/10/1', 'M1', t('09:00'), t('10:00'), { load: by('ana', t('08:30')) });
    expect(broken(released('08:30'), [run])).toEqual([]);
    expect(broken(released('08:31'), [run])).toEqual(['6 before-release A/10/1']);
  });

  it('are left out with the step before', () => {
    const left = (...runs: string[]) => ({ left: runs.map((run) => ({ run, why: 'no room' })) });
    expect(broken(shop, [], left('A/10/1', 'A/20/1'))).toEqual([]);
    expect(broken(shop, [first], left('A/20/1'))).toEqual([]);
    expect(broken(shop, [second(t('09:00'))], left('A/10/1'))).toEqual(['6 step-before-left A/20/1 A/10/1']);
  });
});

describe('a step before that is done', () => {
  const done = (end: string | null) =>
    shopOf([jobOf('A', [step('10'), step('20', { lag: 60 })])], {
      floor: [{ run: 'A/10/1', state: 'done', end: end === null ? null : `2026-11-25T${end}` }],
    });
  const next = (start: number) => [planned('A/20/1', 'M2', start, start + 60)];

  it('has its parts ready after the lag from when it was taken off', () => {
    expect(broken(done('07:30'), next(t('08:30')))).toEqual([]);
    expect(broken(done('07:30'), next(t('08:29')))).toEqual(['6 step-before A/20/1 A/10/1']);
  });

  it('was taken off now where the floor does not say when', () => {
    expect(broken(done(null), next(t('09:00')))).toEqual([]);
    expect(broken(done(null), next(t('08:59')))).toEqual(['6 step-before A/20/1 A/10/1']);
  });

  it('is not held against what runs already', () => {
    const shop = shopOf([jobOf('A', [step('10'), step('20', { lag: 60 })])], {
      floor: [
        { run: 'A/10/1', state: 'done' },
        { run: 'A/20/1', state: 'running', machine: 'M2', start: '2026-11-25T07:30' },
      ],
    });
    expect(broken(shop, next(t('07:30')))).toEqual([]);
  });
});

describe('a first-piece check', () => {
  const firstPiece = { after: 20, minutes: 10 };
  const shop = shopOf([jobOf('A', [handless({ firstPiece })], { quantity: 2 })]);
  const first = (check: number) => planned('A/10/1', 'M1', t('08:00'), check + 50, { check: by('ana', check) });
  const second = planned('A/10/2', 'M2', t('09:00'), t('10:00'));

  it('begins when the machine holds, or later', () => {
    expect(broken(shop, [first(t('08:20')), second])).toEqual([]);
    expect(broken(shop, [first(t('08:50')), second])).toEqual([]);
    expect(broken(shop, [first(t('08:19')), second])).toEqual(['7 check-early A/10/1']);
  });

  it('is done before another run of its operation starts', () => {
    expect(broken(shop, [first(t('08:50')), second])).toEqual([]);
    expect(broken(shop, [first(t('08:51')), second])).toEqual(['7 before-check A/10/2 A/10/1']);
  });

  it('is as long as the operation says', () => {
    const short = { ...first(t('08:20')), check: by('ana', t('08:20'), 9), end: t('09:09') };
    expect(broken(shop, [short, second])).toEqual(['7 check-length A/10/1']);
  });

  it('holds the machine: what is left to cut is cut after it', () => {
    expect(broken(shop, [{ ...first(t('08:20')), end: t('09:09') }, second])).toEqual(['1 cut-length A/10/1']);
  });

  it('comes after the whole cut where that is shorter', () => {
    const brief = shopOf([jobOf('A', [handless({ firstPiece: { after: 90, minutes: 10 } })])]);
    const at = (check: number) => [planned('A/10/1', 'M1', t('08:00'), check + 10, { check: by('ana', check) })];
    expect(broken(brief, at(t('09:00')))).toEqual([]);
    expect(broken(brief, at(t('08:59')))).toEqual(['7 check-early A/10/1']);
  });

  it('must not be missing, nor planned for another run', () => {
    const unchecked = planned('A/10/1', 'M1', t('08:00'), t('09:00'));
    expect(broken(shop, [unchecked, second])).toEqual(['7 check-missing A/10/1']);
    const twice = planned('A/10/2', 'M2', t('09:00'), t('10:10'), { check: by('ana', t('09:20')) });
    expect(broken(shop, [first(t('08:20')), twice])).toEqual(['7 check-not-needed A/10/2']);
  });

  it('keeps the others out while the first run is left out', () => {
    const left = { left: [{ run: 'A/10/1', why: 'no room' }] };
    expect(broken(shop, [second], left)).toEqual(['7 before-check A/10/2 A/10/1']);
  });

  it('is not asked for once the first run is done', () => {
    const done = shopOf([jobOf('A', [handless({ firstPiece })], { quantity: 2 })], {
      floor: [{ run: 'A/10/1', state: 'done' }],
    });
    expect(broken(done, [second])).toEqual([]);
  });
});
