import { describe, expect, it } from 'vitest';
import { layoutBars } from '../../../../renderer/timeline/layout';
import { itemAt, modelOf, placeOf, type RowsBy } from '../../../../renderer/timeline/model';
import { indexPlan } from '../../../../renderer/timeline/plan-index';
import type { Row } from '../../../../renderer/timeline/rows/row';
import { at, planView } from '../../support/plan-view';
import { measure, viewOf } from '../view';

const index = indexPlan(planView());
const rowsBy = (by: RowsBy): readonly Row[] => modelOf(index, by).rows;
const rowNamed = (by: RowsBy, name: string): Row => rowsBy(by).find(({ head }) => head.name === name)!;
const runsOf = (row: Row): string[] => row.items.all.flatMap((item) => (item.kind === 'run' ? [item.run] : []));

describe('rows by machine', () => {
  it('are the machines in use with the people beneath', () => {
    const rows = rowsBy('machines');
    expect(rows.map(({ head }) => head.name)).toEqual(['M1', 'M2', 'G1', 'C1', 'B1', 'Anna', 'Ben']);
    expect(rows.map(({ heading }) => heading)).toEqual([null, null, null, null, null, 'People', null]);
  });

  it('show on the bar that a run is locked, and apart from it that the lock cannot hold', () => {
    const view = planView();
    const entry = { state: 'locked' as const, machine: 'M1', pallet: null, start: null, end: null, after: null };
    view.shop.floor.push({ ...entry, run: 'J-112/10/1' }, { ...entry, run: 'J-112/10/2' });
    view.plan.conflicts.push({ run: 'J-112/10/2', say: 'M1 is not free then' });
    const model = modelOf(indexPlan(view));
    const { runs } = layoutBars(model, viewOf(model, at(0, '18:00'), at(1, '04:00')), measure);
    const lockOf = (run: string) => runs.find((box) => box.run === run)?.lock;
    expect(['J-112/10/1', 'J-112/10/2', 'J-112/10/3'].map(lockOf)).toEqual(['held', 'clash', null]);
  });
});

describe('rows by pallet', () => {
  it('hold each run from the start of loading to the end of unloading, with the cut inside', () => {
    const row = rowNamed('pallets', 'P-07');
    expect(runsOf(row)).toEqual(['J-115/10/1', 'J-115/10/2']);
    expect(row.stays.all[0]).toMatchObject({ start: at(0, '17:06'), end: at(1, '06:54') });
    expect(row.items.all[0]).toMatchObject({ start: at(0, '22:00'), end: at(1, '02:00') });
  });

  it('say of a pallet that the plan has no use for it', () => {
    const view = planView();
    view.shop.pallets.push({ id: 'P-99', name: '', fixture: 'vice', machines: [], inUse: true });
    const rows = modelOf(indexPlan(view), 'pallets').rows;
    expect(rows.find(({ head }) => head.name === 'P-99')?.head.below).toBe('not used in this plan');
  });

  it('hold each run on a pallet once', () => {
    const all = rowsBy('pallets').flatMap(runsOf);
    const onPallets = index.view.plan.runs.filter(({ pallet }) => pallet !== null).map(({ run }) => run);
    expect(all.sort()).toEqual(onPallets.sort());
  });
});

describe('rows by person', () => {
  it('have each attendance as a bar with words', () => {
    const row = rowNamed('people', 'Anna');
    const words = row.items.all.map((item) => (item.kind === 'hand' ? item.labels[0] : ''));
    expect(words.slice(0, 3)).toEqual(['Load P-02, J-104 on M1', 'Load P-08, J-103 on G1', 'Unload P-03, J-112 on M1']);
    expect(words).toContain('Work on J-101 on B1');
    expect(row.present.all).toHaveLength(3);
  });

  it('write the words beside an attendance too short for them, as far as the next one in its lane leaves room', () => {
    const model = modelOf(index, 'people');
    const { hands } = layoutBars(model, viewOf(model, at(0, '13:30'), at(0, '23:30')), measure);
    const first = hands.find((box) => box.x0 === Math.round((10 / 600) * 1000))!;
    expect(first).toMatchObject({ isInside: false, label: { text: 'Load P-02, J-104 on M1' } });
    expect(first.label!.x).toBeGreaterThanOrEqual(first.x1);
    const near = layoutBars(model, viewOf(model, at(0, '13:40'), at(0, '14:00')), measure).hands[0];
    expect(near).toMatchObject({ isInside: true, label: { text: 'Load P-02, J-104 on M1' } });
  });
});

describe('rows by job', () => {
  it('stand in order of what is due first, each with its due time', () => {
    const rows = rowsBy('jobs');
    expect(rows.slice(0, 3).map(({ head }) => head.name)).toEqual(['J-101', 'J-115', 'J-103']);
    expect(rows[0]!.due).toEqual({ minute: at(0, '18:00'), late: true });
    expect(rowNamed('jobs', 'J-104').due).toMatchObject({ late: false });
  });

  it('say by how much a job is late, or that it does not fit', () => {
    expect(rowNamed('jobs', 'J-115').head.bad).toBe('late by 3 h 50 min');
    expect(rowNamed('jobs', 'J-104').head.bad).toBeNull();
    const view = planView();
    Object.assign(view.report.late[1]!, { finish: null });
    const rows = modelOf(indexPlan(view), 'jobs').rows;
    expect(rows.find(({ head }) => head.name === 'J-115')?.head.bad).toBe('does not fit');
  });

  it('put runs at the same time one above the other', () => {
    const view = planView();
    Object.assign(view.plan.runs.find(({ run }) => run === 'J-110/10/2')!, { start: at(0, '18:00') });
    const model = modelOf(indexPlan(view), 'jobs');
    const { runs } = layoutBars(model, viewOf(model, at(0, '16:00'), at(1, '04:00')), measure);
    const [first, second] = runs.filter(({ run }) => run.startsWith('J-110'));
    expect(first!.y1).toBeLessThanOrEqual(second!.y0);
  });

  it('hold a job of which nothing found room', () => {
    const view = planView();
    view.plan.left.push({ run: 'J-120/10/1', why: 'It is longer than the time left.' });
    expect(modelOf(indexPlan(view), 'jobs').rows.some(({ head }) => head.name === 'J-120')).toBe(true);
    expect(rowsBy('jobs').some(({ head }) => head.name === 'J-120')).toBe(false);
  });
});

describe('a selection', () => {
  it.each(['machines', 'pallets', 'people', 'jobs'] as const)('is found in rows by %s', (by) => {
    const model = modelOf(index, by);
    const place = placeOf(model, { kind: 'run', run: 'J-107/20/2' });
    expect(place).not.toBeNull();
    expect(itemAt(model, place!)?.kind).toBe(by === 'people' ? 'hand' : 'run');
  });
});
