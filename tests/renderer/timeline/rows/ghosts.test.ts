import { describe, expect, it } from 'vitest';
import { layoutBars } from '../../../../renderer/timeline/layout';
import { modelOf } from '../../../../renderer/timeline/model';
import { indexPlan } from '../../../../renderer/timeline/plan-index';
import type { Ghost } from '../../../../renderer/timeline/rows/ghosts';
import { at, planView } from '../../support/plan-view';
import { measure, viewOf } from '../view';

const index = indexPlan(planView());
/** One pixel is one minute from 13:00 on. */
function drawn(ghosts: readonly Ghost[], from = at(0, '13:00')) {
  const model = modelOf(index, 'machines', ghosts);
  return layoutBars(model, viewOf(model, from, from + 1000), measure).were;
}
const ghost = (machine: string, run: string, start: number, end: number): Ghost => ({ machine, run, start, end });

describe('where runs were in another plan', () => {
  it('is joined with where the same run is now in the same row', () => {
    const [box] = drawn([ghost('M1', 'J-112/10/2', at(0, '20:00'), at(1, '00:00'))]);
    expect(box).toMatchObject({ x0: 420, x1: 660, toX: 600 });
  });

  it('stands alone where the run has gone to another machine', () => {
    expect(drawn([ghost('G1', 'J-112/10/2', at(0, '20:00'), at(1, '00:00'))])).toMatchObject([{ toX: null }]);
  });

  it('is not drawn for a run that stands where it stood', () => {
    expect(drawn([ghost('M1', 'J-112/10/2', at(0, '23:00'), at(1, '03:00'))])).toEqual([]);
  });

  it('is drawn while only the way to it is on screen', () => {
    const were = drawn([ghost('M1', 'J-112/10/2', at(2, '20:00'), at(3, '00:00'))], at(1, '03:30'));
    expect(were).toHaveLength(1);
    expect(drawn([ghost('M1', 'J-112/10/2', at(2, '20:00'), at(3, '00:00'))], at(0, '00:00') - 2000)).toEqual([]);
  });
});
