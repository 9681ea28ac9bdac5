import { describe, expect, it } from 'vitest';
import { reportOn } from '../../../core/explain';
import { simulateNights } from '../../../core/night';
import { homeChecks } from '../../../main/services/home-checks';
import { at, nightOf } from '../../core/night/night-shop';

/** Eight hours on M1 with nobody there, and a tool replaced before. */
function checks() {
  const machines = [{ id: 'M1', kind: 'mill' as const, places: null, nightFraction: 1 }];
  const { shop, plan } = nightOf([{ minutes: 480 }], { machines, tools: [{ id: 'T', life: 60 }] });
  const care = { machine: 'M1', person: 'P', start: at('21:00'), end: at('21:05') };
  const cared = { ...plan, care: [{ ...care, acts: [{ tool: 'T', sister: 0, act: 'replace' as const }] }] };
  const view = {
    id: 1,
    made: '',
    name: '',
    plan: cared,
    shop,
    report: reportOn(shop, cared),
    outdated: false,
    released: null,
  };
  return homeChecks(view, simulateNights(shop, cared, { nights: 1, seed: 1 }));
}

describe('what to see to before going home', () => {
  it('begins with what the plan has people do by then', () => {
    expect(checks()[0]).toMatchObject({ say: 'Replace T on M1', at: at('21:05') });
  });

  it('ends with what is usual in any shop', () => {
    expect(checks().map(({ say }) => say)).toEqual(
      expect.arrayContaining(['Filter clean', 'Doors shut, nobody inside the cell']),
    );
  });
});
