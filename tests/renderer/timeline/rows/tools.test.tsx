import { cleanup, render, screen } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
import { indexPlan, Timeline, type ToolLine } from '../../../../renderer/timeline';
import { layoutBars } from '../../../../renderer/timeline/layout';
import { modelOf, withRows } from '../../../../renderer/timeline/model';
import { withTools } from '../../../../renderer/timeline/rows/tool-rows';
import { at, planView } from '../../support/plan-view';
import { measure, viewOf } from '../view';

const index = indexPlan(planView());

/** Own instance: an end mill that is replaced at 23:00, and a drill that does not last. */
const LINES: readonly ToolLine[] = [
  {
    ...{ tool: 'EM16', name: 'End mill 16', limit: 120, short: false, replaced: [at(0, '23:00')] },
    points: [
      { at: at(0, '13:30'), left: 120 },
      { at: at(0, '23:00'), left: 0 },
      { at: at(0, '23:00'), left: 120 },
      { at: at(1, '07:00'), left: 38 },
    ],
  },
  {
    ...{ tool: 'DR08', name: 'DR08', limit: 60, short: true, replaced: [] },
    points: [
      { at: at(0, '13:30'), left: 60 },
      { at: at(1, '05:00'), left: -8 },
    ],
  },
];
const tools = (machine: string): readonly ToolLine[] => (machine === 'M1' ? LINES : []);
const base = modelOf(index);
const opened = withRows(base, withTools(base.rows, new Set(['M1']), tools));

afterEach(cleanup);

describe('the tools of a machine', () => {
  it('stand beneath it, one in a row, with what is left at the end', () => {
    expect(opened.rows.slice(0, 4).map(({ head }) => head.name)).toEqual(['M1', 'EM16', 'DR08', 'M2']);
    expect(opened.rows.slice(1, 3).map(({ head }) => head.below)).toEqual(['38 of 120 min left', '8 min too few']);
    expect(opened.rows.slice(1, 3).map(({ head }) => head.bad)).toEqual([null, 'short']);
  });

  it('fall from what the night may use to nothing, rise where they are replaced, and never leave their row', () => {
    const [mill, drill] = layoutBars(opened, viewOf(opened, at(0, '13:30'), at(1, '07:30')), measure).curves;
    expect(mill!.line.map(({ y }) => y).slice(0, 3)).toEqual([mill!.y0, mill!.y1, mill!.y0]);
    expect(mill!.replaced).toEqual([Math.round((570 / 1080) * 1000)]);
    expect(mill!.label.text).toBe('38 of 120 min left');
    expect(drill!.line.at(-1)).toEqual({ x: 1000, y: drill!.y1 });
    expect(drill!.short).toBe(true);
  });

  it('are drawn through the screen where no point of theirs lies on it', () => {
    const [mill] = layoutBars(opened, viewOf(opened, at(1, '00:00'), at(1, '01:00')), measure).curves;
    expect(mill!.line[0]!.x).toBeLessThan(0);
    expect(mill!.line.at(-1)!.x).toBeGreaterThan(1000);
    expect(mill!.replaced).toEqual([]);
  });

  it('are opened at the name of the machine, and only where there are any', async () => {
    const user = userEvent.setup();
    render(<Timeline index={index} nowMin={0} selection={null} onSelect={() => {}} tools={tools} />);
    expect(screen.getAllByRole('button', { name: /^Tools of/ })).toHaveLength(1);
    const button = screen.getByRole('button', { name: 'Tools of M1' });
    expect(screen.queryByText('EM16')).toBeNull();
    await user.click(button);
    expect(button.getAttribute('aria-expanded')).toBe('true');
    expect(screen.getByText('EM16')).toBeDefined();
    expect(screen.getByText('38 of 120 min left')).toBeDefined();
    await user.click(button);
    expect(screen.queryByText('EM16')).toBeNull();
  });
});
