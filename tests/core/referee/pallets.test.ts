import { describe, expect, it } from 'vitest';
import { broken, by, handless, jobOf, operation, planned, shopOf, t } from './fixture';

const vise = operation({ fixture: 'vise', load: 0 });

describe('pallets', () => {
  const shop = shopOf([jobOf('A', [vise]), jobOf('B', [vise])]);
  const first = planned('A/10/1', 'M1', t('08:00'), t('09:00'), { pallet: 'P1', unload: by('ana', t('09:20')) });
  const second = (start: number, pallet = 'P1') =>
    planned('B/10/1', 'M2', start, start + 60, { pallet, unload: by('ana', t('12:00')) });

  it('carry the next run the minute the one before is off', () => {
    expect(broken(shop, [first, second(t('09:30'))])).toEqual([]);
  });

  it('do not carry two runs for a minute, waiting finished included', () => {
    expect(broken(shop, [first, second(t('09:29'))])).toEqual(['5 pallet-overlap A/10/1 B/10/1']);
    expect(broken(shop, [first, second(t('09:29'), 'P2')])).toEqual([]);
  });

  it('are busy from the start of loading', () => {
    const loaded = shopOf([jobOf('A', [vise]), jobOf('B', [operation({ fixture: 'vise', unload: 0 })])]);
    const next = (load: number) =>
      planned('B/10/1', 'M2', t('11:00'), t('12:00'), { pallet: 'P1', load: by('ben', load) });
    const byAna = { ...first, unload: by('ana', t('14:00')) };
    const late = (load: number) => ({ ...next(load), start: t('15:00'), end: t('16:00') });
    expect(broken(loaded, [byAna, late(t('14:10'))])).toEqual([]);
    expect(broken(loaded, [byAna, late(t('14:09'))])).toEqual(['5 pallet-overlap A/10/1 B/10/1']);
  });

  it('must carry the fixture the operation needs', () => {
    expect(broken(shop, [{ ...first, pallet: 'Q1' }, second(t('10:00'))])).toEqual(['5 pallet-fixture A/10/1']);
  });

  it('must fit the machine', () => {
    const fits = [first, second(t('10:00'), 'P4')];
    expect(broken(shop, fits)).toEqual([]);
    expect(broken(shop, [{ ...first, pallet: 'P4' }, second(t('10:00'))])).toEqual(['5 pallet-machine A/10/1']);
  });

  it('get no new load once withdrawn, and let what is on them come off', () => {
    const pallets = shop.pallets.map((pallet) => ({ ...pallet, inUse: pallet.id !== 'P1' }));
    const withdrawn = { ...shop, pallets };
    expect(broken(withdrawn, [first, second(t('10:00'), 'P2')])).toEqual(['5 pallet-withdrawn A/10/1']);
    const entry = { run: 'A/10/1', machine: 'M1', pallet: 'P1', start: '2026-11-25T08:00', end: null, after: null };
    const onIt = (state: 'running' | 'locked') => ({ ...withdrawn, floor: [{ ...entry, state }] });
    expect(broken(onIt('running'), [first, second(t('10:00'), 'P2')])).toEqual([]);
    expect(broken(onIt('locked'), [first, second(t('10:00'), 'P2')])).toEqual(['5 pallet-withdrawn A/10/1']);
    const reported = { conflicts: [{ run: 'A/10/1', say: 'P1 is withdrawn' }] };
    expect(broken(onIt('locked'), [first, second(t('10:00'), 'P2')], reported)).toEqual([]);
  });

  it('must be known, and given where a fixture is needed', () => {
    expect(broken(shop, [{ ...first, pallet: 'P9' }, second(t('10:00'))])).toEqual(['5 unknown-pallet A/10/1']);
    expect(broken(shop, [{ ...first, pallet: null }, second(t('10:00'))])).toEqual(['5 pallet-missing A/10/1']);
  });

  it('must not be given where none is needed', () => {
    const bare = shopOf([jobOf('A', [handless()])]);
    expect(broken(bare, [planned('A/10/1', 'M1', t('08:00'), t('09:00'), { pallet: 'P1' })])).toEqual([
      '5 pallet-not-needed A/10/1',
    ]);
  });
});
