import { describe, expect, it } from 'vitest';
import { indexPlan } from '../../../renderer/timeline/plan-index';
import { factsOf, sentenceOf } from '../../../renderer/timeline/words';
import { at, planView } from '../support/plan-view';

const index = indexPlan(planView());
const words = (run: string, term: string) =>
  factsOf(index, { kind: 'run', run })?.facts.find((fact) => fact.term === term)?.words;

describe('a run in words', () => {
  it('says how much of a cut is unattended', () => {
    expect(words('J-115/10/1', 'Cut')).toBe('Wed 22:00 to Thu 02:00, 4 h');
    expect(words('J-115/10/1', 'Alone')).toBe('3 h 30 min of the cut');
  });

  it('says which parts are on the pallet', () => {
    expect(words('J-104/10/2', 'Parts')).toBe('5 to 8 of 8');
    expect(words('J-110/10/2', 'Parts')).toBe('part 2 of 2');
  });

  it('says by how much its job is late', () => {
    expect(factsOf(index, { kind: 'run', run: 'J-115/10/1' })?.late).toBe('Late by 3 h 50 min');
    expect(factsOf(index, { kind: 'run', run: 'J-104/10/1' })?.late).toBeNull();
  });

  it('names the date of a time more than six days away', () => {
    expect(words('J-104/10/1', 'Due')).toBe('Fri 16:00; job finishes Wed 19:10');
    const far = structuredClone(planView());
    const job = far.shop.jobs.find((each) => each.id === 'J-104');
    if (job !== undefined) job.due = '2026-12-11T12:00';
    const facts = factsOf(indexPlan(far), { kind: 'run', run: 'J-104/10/1' })?.facts;
    expect(facts?.find((fact) => fact.term === 'Due')?.words).toContain('Fri 11 Dec 12:00');
  });

  it('says what of a run is locked', () => {
    const view = planView();
    view.shop.floor.push({
      ...{ run: 'J-110/10/1', state: 'locked', machine: 'C1', pallet: null },
      ...{ start: '2026-11-25T16:20', end: null, after: null },
    });
    const locked = indexPlan(view);
    const lockOf = (run: string) => factsOf(locked, { kind: 'run', run })?.facts.find((fact) => fact.term === 'Lock');
    expect(lockOf('J-110/10/1')?.words).toBe('Locked to C1, to Wed 16:20');
    expect(lockOf('J-110/10/2')).toBeUndefined();
  });

  it('says of a run whose lock cannot hold why', () => {
    const locked = structuredClone(planView());
    const say = 'J-110/10/1 is locked to a start it cannot have: M1 is not free then';
    const index = indexPlan({ ...locked, plan: { ...locked.plan, conflicts: [{ run: 'J-110/10/1', say }] } });
    const clashOf = (run: string) =>
      factsOf(index, { kind: 'run', run })?.facts.find((fact) => fact.term === 'Conflict');
    expect(clashOf('J-110/10/1')?.words).toBe(say);
    expect(clashOf('J-110/10/2')).toBeUndefined();
  });

  it('says why a machine stands', () => {
    const facts = factsOf(index, { kind: 'gap', machine: 'M2', start: at(1, '02:00') });
    expect(facts?.title).toBe('M2 Five-axis mill: dry');
    expect(facts?.subtitle).toContain('P-07, the only pallet');
  });

  it('has nothing to say about what the plan does not hold', () => {
    expect(factsOf(index, { kind: 'run', run: 'J-999/10/1' })).toBeNull();
    expect(factsOf(index, { kind: 'gap', machine: 'M2', start: 3 })).toBeNull();
  });

  it('reads as sentences', () => {
    const facts = factsOf(index, { kind: 'run', run: 'J-101/40/1' });
    expect(facts === null ? '' : sentenceOf(facts)).toBe(
      'J-101 Ejector plate. op 40, run 1 of 1. Late by 16 h 30 min. Machine: B1 Fitting bench. Pallet: none needed. ' +
        'Parts: part 1 of 1. Work: Anna, Thu 09:00 to 10:30. Due: Wed 18:00; job finishes Thu 10:30',
    );
  });
});
