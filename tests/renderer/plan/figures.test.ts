import { describe, expect, it } from 'vitest';
import { figuresOf } from '../../../renderer/plan/figures';
import { planView } from '../support/plan-view';

describe('the numbers that matter', () => {
  it('count rounds that begin before the night', () => {
    const view = planView();
    const early = view.report.rounds.filter((round) => round.start < (view.report.tonight?.start ?? 0)).length;
    expect(figuresOf(view)[2]).toMatchObject({ value: String(early), note: `${view.report.rounds.length} in all` });
  });

  it('do not count benches among the machines that could cut in the morning', () => {
    expect(figuresOf(planView())[3]?.value).toBe('1 of 4');
  });

  it('say that all is in time when it is', () => {
    const view = planView();
    const figure = figuresOf({ ...view, report: { ...view.report, late: [] } })[1];
    expect(figure).toMatchObject({ value: '0 jobs', note: 'all jobs in time', bad: false });
  });

  it('do without a night in a shop where somebody is always there', () => {
    const view = planView();
    const figures = figuresOf({ ...view, report: { ...view.report, tonight: null } });
    expect(figures.map((figure) => figure.value)).toEqual([
      'none',
      '2 jobs',
      String(view.report.rounds.length),
      '1 of 4',
    ]);
  });
});
