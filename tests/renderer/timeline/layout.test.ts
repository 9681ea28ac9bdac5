import { describe, expect, it } from 'vitest';
import { hitAt } from '../../../renderer/timeline/hit';
import { type Layout, layoutBars } from '../../../renderer/timeline/layout';
import { modelOf } from '../../../renderer/timeline/model';
import { indexPlan } from '../../../renderer/timeline/plan-index';
import { type RunItem, rowOf } from '../../../renderer/timeline/rows/row';
import { at, planView } from '../support/plan-view';
import { measure, viewOf, withRows } from './view';

const model = modelOf(indexPlan(planView()));

function layout(from: number, to: number, widthCss = 1000, dpr = 1, nowMin = at(0, '13:00')): Layout {
  return layoutBars(model, viewOf(model, from, to, { widthCss, dpr, nowMin }), measure);
}

function runItem(job: string, start: number, end: number): RunItem {
  const labels = [`${job}, op 10, 1 part`, job];
  return {
    ...{ kind: 'run', run: `${job}/10/1`, job, machine: 'M1', machineKind: 'mill', late: false, lock: null, lane: 0 },
    ...{ start, end, hold: null, table: [], spread: null, labels },
  };
}

const evening = layout(at(0, '13:00'), at(1, '07:30'));
const runBox = (drawn: Layout, run: string) => drawn.runs.find((box) => box.run === run);

describe('the layout of the timeline', () => {
  it('draws only what is on screen', () => {
    const shown = layout(at(0, '19:00'), at(0, '20:00')).runs.map((box) => box.run);
    expect(shown.sort()).toEqual(['J-103/30/2', 'J-107/20/2', 'J-110/10/1', 'J-112/10/1']);
  });

  it('leaves out a run that ends the minute the screen begins', () => {
    const shown = layout(at(0, '15:00'), at(0, '15:10')).runs.map((box) => box.run);
    expect(shown).toContain('J-104/10/2');
    expect(shown).not.toContain('J-104/10/1');
  });

  it.each([1, 1.25, 2])('puts edges on whole display pixels at %d device pixels per pixel', (dpr) => {
    for (const box of layout(at(0, '13:07'), at(1, '07:31'), 937, dpr).runs) {
      expect((box.x0 * dpr) % 1).toBeCloseTo(0, 9);
      expect((box.x1 * dpr) % 1).toBeCloseTo(0, 9);
    }
  });

  it('lets runs that touch share an edge at any zoom', () => {
    for (const width of [311, 640, 997, 1733]) {
      const drawn = layout(at(0, '13:00'), at(1, '07:30'), width);
      expect(runBox(drawn, 'J-104/10/1')?.x1).toBe(runBox(drawn, 'J-104/10/2')?.x0);
    }
  });

  it('keeps a run visible however short it is on screen', () => {
    const drawn = layout(at(0, '13:00'), at(0, '13:00') + 400 * 1440);
    expect(drawn.runs.every((box) => box.x1 > box.x0)).toBe(true);
  });

  it('does not draw far outside the screen', () => {
    const drawn = layout(at(0, '19:00'), at(0, '19:10'));
    for (const box of drawn.runs) expect([box.x0 >= -8, box.x1 <= 1008]).toEqual([true, true]);
  });

  it('gives each gap its reason, and words where they fit', () => {
    const dry = evening.gaps.find((gap) => gap.reason === 'dry');
    expect(dry?.label?.text).toBe('dry');
    const narrow = evening.gaps.find((gap) => gap.x1 - gap.x0 < 20);
    expect(narrow?.label).toBeNull();
  });

  it('says nothing in time in which nothing is due', () => {
    const quiet = evening.gaps.filter((gap) => gap.reason === 'nothing-due');
    expect(quiet.length).toBeGreaterThan(0);
    expect(quiet.every((gap) => gap.label === null)).toBe(true);
  });

  it('writes the longest label that fits', () => {
    const wide = layout(at(0, '16:00'), at(0, '22:30'));
    const narrow = layout(at(0, '00:00'), at(3, '00:00'));
    expect(runBox(wide, 'J-110/10/1')?.label?.text).toBe('J-110, op 10, 1 part');
    expect(runBox(narrow, 'J-110/10/1')?.label?.text).toBe('J-110');
  });

  it('says on the bar that its job is late', () => {
    expect(runBox(evening, 'J-115/10/1')).toMatchObject({ late: true, label: { text: 'J-115 late, op 10, 2 parts' } });
  });

  it('keeps the label on screen when a run begins before it', () => {
    const drawn = layout(at(0, '20:00'), at(0, '23:00'));
    expect(runBox(drawn, 'J-107/20/2')?.label?.x).toBe(6);
  });

  it('writes a label behind the line of now, not across it', () => {
    const drawn = layout(at(0, '20:00'), at(0, '23:00'), 1000, 1, at(0, '20:03'));
    expect(runBox(drawn, 'J-107/20/2')?.label?.x).toBeCloseTo((3 / 180) * 1000 + 6, 9);
  });

  it('ends a label where the next run on the machine begins, if a lock made them overlap', () => {
    const [first, second] = [
      runItem('A', at(0, '20:00'), at(0, '22:00')),
      runItem('B', at(0, '20:12'), at(0, '22:00')),
    ];
    const overlapping = withRows(model, [rowOf({ key: 'M1', head: model.rows[0]!.head, items: [first, second] })]);
    const drawn = layoutBars(overlapping, viewOf(overlapping, at(0, '20:00'), at(0, '22:00')), measure);
    expect(drawn.runs.map((box) => box.label)).toEqual([
      { text: 'A', x: 6 },
      { text: 'B, op 10, 1 part', x: 106 },
    ]);
  });

  it('holds the machine from the first piece to the end of its check, and writes beside it', () => {
    const [hold] = evening.holds;
    const run = runBox(evening, 'J-112/10/1');
    const pxPerMin = 1000 / (at(1, '07:30') - at(0, '13:00'));
    expect(hold?.x0).toBe(Math.round((at(0, '19:10') - at(0, '13:00')) * pxPerMin));
    expect(hold?.x1).toBe(Math.round((at(0, '19:30') - at(0, '13:00')) * pxPerMin));
    expect(run?.label?.x).toBeGreaterThanOrEqual(hold?.x1 ?? Number.POSITIVE_INFINITY);
  });

  it('draws loading and unloading on the table in the row of the machine', () => {
    expect(evening.tables.map((box) => box.run)).toEqual([
      'J-103/30/1',
      'J-103/30/1',
      'J-103/30/2',
      'J-103/30/2',
      'J-109/30/1',
    ]);
  });

  it('shows each attendance twice: at its machine and at its person', () => {
    const checks = evening.marks.filter((mark) => mark.role === 'check');
    expect(checks).toHaveLength(2);
    expect(new Set(checks.map((mark) => mark.x0)).size).toBe(1);
  });

  it('tells attended from unattended ground', () => {
    const night = evening.grounds.filter((ground) => !ground.attended);
    const pxPerMin = 1000 / (at(1, '07:30') - at(0, '13:00'));
    expect(night).toHaveLength(1);
    expect(night[0]?.x0).toBe(Math.round((at(0, '22:30') - at(0, '13:00')) * pxPerMin));
  });
});

describe('pointing at the timeline', () => {
  it('finds the run under the pointer', () => {
    const box = runBox(evening, 'J-107/20/1');
    expect(hitAt(evening, (box?.x0 ?? 0) + 2, (box?.y0 ?? 0) + 2)).toEqual({ kind: 'run', run: 'J-107/20/1' });
  });

  it('finds a gap', () => {
    const dry = evening.gaps.find((gap) => gap.reason === 'dry');
    const hit = hitAt(evening, (dry?.x0 ?? 0) + 2, (dry?.y0 ?? 0) + 2);
    expect(hit).toEqual({ kind: 'gap', machine: 'M2', start: at(1, '02:00') });
  });

  it('reaches for a narrow attendance nearby', () => {
    const mark = evening.marks[0];
    const hit = hitAt(evening, (mark?.x0 ?? 0) - 4, (mark?.y0 ?? 0) + 2);
    expect(hit).toMatchObject({ kind: 'run' });
  });

  it('finds nothing on bare ground', () => {
    expect(hitAt(evening, 500, 10_000)).toBeNull();
  });
});
