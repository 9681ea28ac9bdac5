import { describe, expect, it } from 'vitest';
import { reportOn } from '../../../core/explain';
import { simulateNights } from '../../../core/night';
import { homeChecks } from '../../../main/services/home-checks';
import { at, nightOf } from '../../core/night/night-shop';

/** Eight hours on M1 with nobody there, and what its supplies are said to last. */
function checksWith(hours: number) {
  const supplies = [{ name: 'Coolant', hours }];
  const machines = [{ id: 'M1', kind: 'mill' as const, places: null, nightFraction: 1, supplies }];
  const { shop, plan } = nightOf([{ minutes: 480 }], { machines, tools: [{ id: 'T', life: 60 }] });
  const care = { machine: 'M1', person: 'P', start: at('21:00'), end: at('21:05') };
  const cared = { ...plan, care: [{ ...care, acts: [{ tool: 'T', sister: 0, act: 'replace' as const }] }] };
  const view = { id: 1, made: '', plan: cared, shop, report: reportOn(shop, cared), outdated: false, released: null };
  return homeChecks(view, simulateNights(shop, cared, { nights: 1, seed: 1 }));
}

describe('what to see to before going home', () => {
  it('begins with what the plan has people do by then', () => {
    expect(checksWith(8)[0]).toMatchObject({ say: 'Replace T on M1', at: at('21:05'), short: null });
  });

  it('names what will not last the hours loaded, and leaves alone what will', () => {
    const coolant = (hours: number) => checksWith(hours).find(({ key }) => key === 'supply M1 Coolant');
    expect(coolant(8)).toMatchObject({ say: 'Coolant on M1 lasts 8.0 h of the 8.0 h loaded', short: null });
    expect(coolant(7.9)).toMatchObject({ short: 'lasts 7.9 h of the 8.0 h loaded' });
  });

  it('ends with what is usual in any shop', () => {
    expect(checksWith(8).map(({ say }) => say)).toEqual(
      expect.arrayContaining(['Filter clean', 'Doors shut, nobody inside the cell']),
    );
  });
});
