import { describe, expect, it } from 'vitest';
import { ghostsOf } from '../../../renderer/compare/ghosts';
import { OWN, pairOf, withChosen } from '../../../renderer/compare/pair';
import { planTitle, proposedName, signed, titleOf } from '../../../renderer/compare/words';
import { planView } from '../support/plan-view';
import { copyView, summary } from './compared';

const plans = [summary(9, { current: true }), summary(8, { name: 'Before the rush' }), summary(5)];
const COPY = { copy: '2', plan: null };

describe('the two plans shown', () => {
  it('are the plan before the current one and the current one', () => {
    expect(pairOf({ copies: [], plans }, null)).toEqual({ before: { copy: null, plan: 8 }, after: OWN });
  });

  it('are the plan made before the one brought back, and that one', () => {
    const back = [summary(9), summary(8, { current: true }), summary(5)];
    expect(pairOf({ copies: [], plans: back }, null)?.before).toEqual({ copy: null, plan: 5 });
    expect(pairOf({ copies: [], plans: [summary(9), summary(8, { current: true })] }, null)?.before.plan).toBe(9);
  });

  it("are the shop's and a what-if's where there is no earlier plan, and none before there are two", () => {
    const only = [summary(9, { current: true })];
    expect(pairOf({ copies: [copyView('2')], plans: only }, null)).toEqual({ before: OWN, after: COPY });
    expect(pairOf({ copies: [copyView('2', { plan: null })], plans: only }, null)).toBeNull();
    expect(pairOf({ copies: [copyView('2')], plans: [] }, null)).toBeNull();
  });

  it('are those chosen by hand as long as both are there', () => {
    const chosen = { before: { copy: null, plan: 5 }, after: COPY };
    expect(pairOf({ copies: [copyView('2')], plans }, chosen)).toEqual(chosen);
    expect(pairOf({ copies: [], plans }, chosen)).toEqual({ before: { copy: null, plan: 8 }, after: OWN });
  });

  it("set a what-if that is chosen first beside the shop's own plan", () => {
    const choice = { copies: [copyView('2')], plans };
    expect(withChosen(choice, null, 'after', COPY)).toEqual({ before: OWN, after: COPY });
    const chosen = { before: { copy: null, plan: 5 }, after: OWN };
    expect(withChosen(choice, chosen, 'after', COPY)).toEqual({ before: { copy: null, plan: 5 }, after: COPY });
  });
});

describe('words', () => {
  it('call a plan by its name, or else by its number and when it was made', () => {
    expect(plans.map(planTitle)).toEqual(['Plan 9, Wed 25 Nov 15:02', 'Before the rush', 'Plan 5, Wed 25 Nov 15:02']);
    expect(titleOf({ copies: [], plans }, COPY)).toBe('A discarded what-if');
  });

  it('propose a name that no what-if has', () => {
    expect(proposedName([])).toBe('What-if 1');
    expect(proposedName(['What-if 1', 'Third operator', 'What-if 3'])).toBe('What-if 2');
  });

  it('give a difference its sign', () => {
    expect([signed(4.25, 1), signed(-1, 0), signed(0, 1)]).toEqual(['+4.3', '−1', '0.0']);
  });
});

describe('runs of the plan before', () => {
  it('stand on the axis of the plan after, also where that begins on another day', () => {
    const before = planView();
    const after = planView();
    const tomorrow = { ...after.plan.clock, origin: after.plan.clock.origin + 86_400_000 };
    const ghosts = ghostsOf(before, { ...after, plan: { ...after.plan, clock: tomorrow } });
    const [run] = before.plan.runs;
    expect(ghosts[0]).toEqual({
      machine: run?.machine,
      run: run?.run,
      start: (run?.start ?? 0) - 1440,
      end: (run?.end ?? 0) - 1440,
    });
  });
});
