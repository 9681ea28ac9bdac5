import { describe, expect, it } from 'vitest';
import { itemAt, modelOf, type Place, placeOf, selectionOf } from '../../../renderer/timeline/model';
import { indexPlan } from '../../../renderer/timeline/plan-index';
import type { Selection } from '../../../renderer/timeline/selection';
import { type Step, walk } from '../../../renderer/timeline/walk';
import { at, planView } from '../support/plan-view';

const model = modelOf(indexPlan(planView()));
const run = (id: string): Selection => ({ kind: 'run', run: id });
const pickedAt = (place: Place | null): Selection | null => {
  const item = place === null ? null : itemAt(model, place);
  return item === null ? null : selectionOf(item);
};
const from = (selection: Selection | null, step: Step) =>
  pickedAt(walk(model, selection === null ? null : placeOf(model, selection), step, at(0, '13:00')));

describe('walking the timeline by arrow keys', () => {
  it('begins at the first run on screen', () => {
    expect(from(null, 'right')).toEqual(run('J-104/10/1'));
    expect(pickedAt(walk(model, null, 'right', at(0, '16:00')))).toEqual(run('J-104/10/2'));
  });

  it('goes through a machine in order of time, gaps included', () => {
    const dry: Selection = { kind: 'gap', machine: 'M2', start: at(1, '02:00') };
    expect(from(run('J-115/10/1'), 'right')).toEqual(dry);
    expect(from(dry, 'right')).toEqual(run('J-115/10/2'));
    expect(from(dry, 'left')).toEqual(run('J-115/10/1'));
  });

  it('passes over time in which nothing is due', () => {
    expect(from(run('J-115/10/2'), 'right')).toBeNull();
  });

  it('stays at the first run when asked for the one before', () => {
    expect(from(run('J-104/10/1'), 'left')).toBeNull();
  });

  it('goes to the ends of a row', () => {
    expect(from(run('J-112/10/1'), 'first')).toEqual(run('J-104/10/1'));
    expect(from(run('J-112/10/1'), 'last')).toEqual(run('J-112/10/3'));
  });

  it('goes up and down to what the other machine does at the same time', () => {
    expect(from(run('J-112/10/2'), 'down')).toEqual(run('J-115/10/1'));
    expect(from(run('J-107/20/2'), 'up')).toEqual(run('J-112/10/1'));
  });

  it('stays in the first row when asked for the one above', () => {
    expect(from(run('J-104/10/1'), 'up')).toBeNull();
  });

  it('begins anew when the selection is gone', () => {
    expect(from(run('J-999/10/1'), 'right')).toEqual(run('J-104/10/1'));
  });
});
