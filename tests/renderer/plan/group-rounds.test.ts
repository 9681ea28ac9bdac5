import { describe, expect, it } from 'vitest';
import { groupRounds, roundsAhead } from '../../../renderer/plan/group-rounds';
import { at, planView } from '../support/plan-view';

const { plan, report } = planView();

describe('rounds by day', () => {
  it('are in order of time under their days', () => {
    const days = groupRounds(plan.clock, roundsAhead(report.rounds, plan.now));
    expect(days.map((day) => day.day)).toEqual(['Wed 25 Nov', 'Thu 26 Nov']);
    const starts = days.flatMap((day) => day.rounds.map((round) => round.start));
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
  });

  it('leave out what is over and keep what is going on', () => {
    expect(roundsAhead(report.rounds, at(0, '14:05'))[0]?.start).toBe(at(0, '13:40'));
    expect(roundsAhead(report.rounds, at(0, '14:20'))[0]?.start).toBe(at(0, '15:05'));
  });
});
