import { describe, expect, it } from 'vitest';
import { figureRows, nightsText, verdictOf } from '../../../renderer/compare/verdict';
import { comparison } from './compared';

const NAMES = { before: 'Plan 7', after: "The shop's plan" };

describe('which of two plans to work by', () => {
  it('is the one with more hours tonight where lateness is the same, and says how many', () => {
    const { winner, say } = verdictOf(comparison({ tonight: [18, 22.24] }), NAMES);
    expect(winner).toBe('after');
    expect(say).toBe("The shop's plan is better: 4.2 h more to expect tonight");
  });

  it('is told of the better plan, whichever side it stands on', () => {
    const { winner, say } = verdictOf(comparison({ lateness: [2, 5.5], tonight: [22, 18] }), NAMES);
    expect(winner).toBe('before');
    expect(say).toBe('Plan 7 is better: 4.0 h more to expect tonight, 3.5 weighted h less late');
  });

  it('is a trade that people decide where lateness and tonight disagree', () => {
    const { winner, say } = verdictOf(comparison({ lateness: [2, 5], tonight: [18, 22] }), NAMES);
    expect(winner).toBeNull();
    expect(say).toBe("The shop's plan: 4.0 h more to expect tonight, but 3.0 weighted h later");
  });

  it('names what the better plan costs in rounds and in the morning', () => {
    const { winner, say } = verdictOf(comparison({ tonight: [18, 22], rounds: [14, 16], morning: [3, 2] }), NAMES);
    expect(winner).toBe('after');
    expect(say).toBe(
      "The shop's plan is better: 4.0 h more to expect tonight, but 1 machine fewer still cutting in the morning, 2 rounds more",
    );
  });

  it('is decided by the morning and by rounds where neither lateness nor tonight differs in what is read', () => {
    const { winner, say } = verdictOf(comparison({ tonight: [20.01, 20.04], rounds: [16, 15] }), NAMES);
    expect(winner).toBe('after');
    expect(say).toBe("The shop's plan is better: 1 round fewer");
    expect(verdictOf(comparison(), NAMES)).toEqual({ winner: null, say: 'Neither is better' });
  });

  it('leaves out the hours of two nights that are not the same hours, and says so', () => {
    const shorter = { start: '2026-11-26T02:00', end: '2026-11-26T06:00' };
    const { nights } = comparison();
    const apart = comparison({ tonight: [22, 13], lateness: [5, 3] }, { nights: { ...nights, after: shorter } });
    expect(verdictOf(apart, NAMES).say).toBe("The shop's plan is better: 2.0 weighted h less late");
    expect(figureRows(apart).find(({ key }) => key === 'tonight')?.judgement).toBe('other night');
    expect(nightsText(apart)).toBe(
      'The night is not the same: nobody there Wed 25 Nov 22:30 to 06:00 before, nobody there Thu 26 Nov 02:00 to 06:00 after. Hours cut in it do not compare.',
    );
    expect(nightsText(comparison())).toBeNull();
  });
});

describe('the figures of two plans', () => {
  it('differ by what stands beside them, to the last digit', () => {
    const row = figureRows(comparison({ tonight: [1.24, 1.26] })).find(({ key }) => key === 'tonight');
    expect(row).toMatchObject({ difference: 0.1, judgement: 'better' });
  });

  it('are better with more hours tonight and with fewer rounds', () => {
    const rows = figureRows(comparison({ tonight: [20, 21], rounds: [14, 15], lateJobs: [2, 1] }));
    const judged = Object.fromEntries(rows.map(({ key, judgement }) => [key, judgement]));
    expect(judged).toMatchObject({ tonight: 'better', rounds: 'worse', lateJobs: 'better', finish: 'same' });
  });
});
