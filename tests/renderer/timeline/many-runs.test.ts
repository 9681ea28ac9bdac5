import { describe, expect, it } from 'vitest';
import { layoutBars } from '../../../renderer/timeline/layout';
import { modelOf, type TimelineModel } from '../../../renderer/timeline/model';
import { indexPlan } from '../../../renderer/timeline/plan-index';
import { type Row, type RunItem, rowOf } from '../../../renderer/timeline/rows/row';
import { planView } from '../support/plan-view';
import { measure, viewOf, withRows } from './view';

const ROWS = 50;
const RUNS_EACH = 100;
const EVERY_MIN = 200;
const LENGTH_MIN = 190;

/** Own instance: 5,000 runs of 190 minutes, one every 200 minutes on each of 50 machines. */
function manyRuns(): TimelineModel {
  const base = modelOf(indexPlan(planView()));
  const rows = Array.from({ length: ROWS }, (_, row): Row => {
    const items = Array.from({ length: RUNS_EACH }, (_, i): RunItem => {
      const [job, start] = [`J-${row}-${i}`, i * EVERY_MIN];
      return {
        ...{ kind: 'run', run: `${job}/10/1`, job, machine: `M${row}`, machineKind: 'mill', late: false, lock: null },
        ...{ lane: 0, start, end: start + LENGTH_MIN, hold: null, table: [], spread: null, labels: [job] },
      };
    });
    const head = { name: `M${row}`, aside: '', below: '', bad: null, kind: 'mill' as const };
    return rowOf({ key: `machine M${row}`, head, machine: `M${row}`, items });
  });
  return withRows(base, rows);
}

const model = manyRuns();
const plan = ROWS * RUNS_EACH;

describe('a timeline of 5,000 runs', () => {
  it('lays out only the runs whose time and row are on screen', () => {
    const view = viewOf(model, 1000, 1400, { topCss: 460, heightCss: 230 });
    const { runs, rules } = layoutBars(model, view, measure);
    // Least row height is 46 px: rows 10 to 14; from minute 1000 to 1400 two runs of each.
    expect(new Set(runs.map(({ row }) => row))).toEqual(new Set([10, 11, 12, 13, 14]));
    expect(runs).toHaveLength(10);
    expect(rules).toHaveLength(5);
    expect(runs.every(({ y0, y1 }) => y0 >= 0 && y1 <= 230)).toBe(true);
  });

  it('asks for the width of no text off screen', () => {
    const asked = new Set<string>();
    const view = viewOf(model, 1000, 1400, { topCss: 460, heightCss: 230 });
    layoutBars(model, view, (text) => asked.add(text).size);
    expect(asked.size).toBe(10);
  });

  it('draws runs narrower than a pixel as one span where they touch, and loses none of their pixels', () => {
    // 20,000 minutes on 100 px: each run takes 0.95 px.
    const view = viewOf(model, 0, RUNS_EACH * EVERY_MIN, { widthCss: 100 });
    const { runs } = layoutBars(model, view, measure);
    expect(runs.length).toBeLessThan(plan / 10);
    for (const row of [0, 17, 49]) {
      const pixels = (boxes: readonly { x0: number; x1: number }[]): number[] =>
        [...new Set(boxes.flatMap(({ x0, x1 }) => Array.from({ length: x1 - x0 }, (_, i) => x0 + i)))].sort(
          (a, b) => a - b,
        );
      const alone = model.rows[row]!.items.all.map(({ start, end }) => {
        const [x0, x1] = [Math.round(start / EVERY_MIN), Math.round(end / EVERY_MIN)];
        return { x0, x1: Math.max(x1, x0 + 1) };
      });
      const own = runs.filter((box) => box.row === row);
      expect(pixels(own)).toEqual(pixels(alone));
      expect(own.reduce((sum, { from, to }) => sum + to - from + 1, 0)).toBe(RUNS_EACH);
    }
  });

  it('keeps a late run apart from those beside it, however narrow', () => {
    const [first, ...rest] = model.rows;
    const items = first!.items.all.map((item, i) => (item.kind === 'run' && i === 40 ? { ...item, late: true } : item));
    const late = withRows(model, [rowOf({ key: first!.key, head: first!.head, items }), ...rest]);
    const { runs } = layoutBars(late, viewOf(late, 0, RUNS_EACH * EVERY_MIN, { widthCss: 100 }), measure);
    expect(runs.filter((box) => box.late)).toMatchObject([{ row: 0, from: 40, to: 40 }]);
  });
});
