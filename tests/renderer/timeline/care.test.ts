import { describe, expect, it } from 'vitest';
import { hitAt } from '../../../renderer/timeline/hit';
import { layoutBars } from '../../../renderer/timeline/layout';
import { itemAt, modelOf, type Place, placeOf, selectionOf } from '../../../renderer/timeline/model';
import { indexPlan } from '../../../renderer/timeline/plan-index';
import type { Selection } from '../../../renderer/timeline/selection';
import { walk } from '../../../renderer/timeline/walk';
import { factsOf, sentenceOf } from '../../../renderer/timeline/words';
import { at, planView } from '../support/plan-view';
import { measure, viewOf } from './view';

const base = planView();
const start = at(1, '02:00');
const [person] = base.report.people;
if (person === undefined) throw new Error('the fixture has nobody');
const care = {
  ...{ machine: 'M2', person: person.person, start, end: start + 30 },
  acts: [
    { tool: 'EM16', sister: 0, act: 'replace' as const },
    { tool: 'CB91', sister: 1, act: 'dress' as const },
  ],
};
const view = { ...base, plan: { ...base.plan, care: [care] } };
const index = indexPlan(view);
const model = modelOf(index);
const picked: Selection = { kind: 'care', machine: 'M2', start };
const shown = (from: number, to: number) => layoutBars(model, viewOf(model, from, to), measure);

describe('an attendance to tools on the timeline', () => {
  it('is drawn on its machine and with its person, and both mean the same', () => {
    const layout = shown(at(1, '01:00'), at(1, '04:00'));
    expect(layout.cares.map(({ selection }) => selection)).toEqual([picked]);
    const mark = layout.marks.find(({ role }) => role === 'care');
    expect(mark?.selection).toEqual(picked);
    for (const box of [layout.cares[0]!, mark!]) {
      expect(hitAt(layout, (box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2)).toEqual(picked);
    }
  });

  it('can be seen and hit however short it is on screen', () => {
    const [box] = shown(at(0, '13:00'), at(6, '13:00')).cares;
    expect(box!.x1 - box!.x0).toBeGreaterThanOrEqual(5);
  });

  it('is reached by the arrow keys, and read out with what is done and by whom', () => {
    const step = (from: Place | null): Place | null => walk(model, from, 'right', at(0, '13:00'));
    const reached = step(placeOf(model, { kind: 'run', run: 'J-115/10/1' }));
    expect(reached === null ? null : selectionOf(itemAt(model, reached)!)).toEqual(picked);
    const said = sentenceOf(factsOf(index, picked)!);
    expect(said).toMatch(/^M2.*: tools\. replace EM16 \(1\), dress CB91 \(2\)\. Who: /);
  });

  it('has nothing to say once the plan no longer holds it', () => {
    expect(factsOf(indexPlan(base), picked)).toBeNull();
  });
});

describe('a run with checks', () => {
  const run = base.plan.runs.find((each) => each.machine === 'M2')!;
  const [job = '', operation = ''] = run.run.split('/');
  const checks = [{ name: '', chance: 0.1, repeat: 20, most: 2 }];
  const jobs = base.shop.jobs.map((each) =>
    each.id === job
      ? {
          ...each,
          route: each.route.map((o) => (o.id === operation ? { ...o, checks, odds: { block: 0.02, loss: 0.01 } } : o)),
        }
      : each,
  );
  const checked = indexPlan({ ...base, shop: { ...base.shop, jobs } });

  it('shows from when to when it may end', () => {
    const item = modelOf(checked)
      .rows.flatMap(({ items }) => items.all)
      .find((each) => each.kind === 'run' && each.run === run.run);
    // In eight runs of ten no repeat comes, so none is planned.
    expect(item).toMatchObject({ spread: { start: run.end, end: run.end + 40 } });
  });

  it('says what its repeats may add, and its odds', () => {
    const said = sentenceOf(factsOf(checked, { kind: 'run', run: run.run })!);
    expect(said).toContain('Repeats: 0 min planned, 40 min at most');
    expect(said).toContain('Odds: 2.0 % to stop the machine, 1.0 % to lose the pallet');
  });
});
