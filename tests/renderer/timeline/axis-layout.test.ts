import { describe, expect, it } from 'vitest';
import { layoutAxis } from '../../../renderer/timeline/axis-layout';
import { modelOf } from '../../../renderer/timeline/model';
import { indexPlan } from '../../../renderer/timeline/plan-index';
import { fitTo } from '../../../renderer/timeline/scale';
import { at, planView } from '../support/plan-view';

const model = modelOf(indexPlan(planView()));
const measure = (text: string): number => text.length * 7;

function axis(from: number, to: number, now = at(0, '13:30')) {
  return layoutAxis(model, fitTo({ start: from, end: to }, 1000), now, 'now 13:30', 1, measure);
}

describe('the time axis', () => {
  it('says who is here, and when nobody is', () => {
    const bands = axis(at(0, '13:00'), at(1, '08:00')).presence;
    expect(bands.map((band) => band.label?.text)).toEqual([undefined, undefined, 'Ben', 'nobody here', 'Anna']);
    expect(axis(at(0, '13:45'), at(0, '14:45')).presence.map((band) => band.label?.text)).toContain('Anna, Ben');
  });

  it('writes no hour half under the tag of now', () => {
    const { hours, now } = axis(at(0, '13:00'), at(0, '23:00'));
    expect(now?.label.text).toBe('now 13:30');
    expect(hours.find((hour) => hour.x === 0)?.label).toBe('');
    expect(hours.find((hour) => hour.x === 100)?.label).toBe('14:00');
  });

  it('names who is here behind the line of now, not across it', () => {
    const [first] = axis(at(0, '13:15'), at(0, '17:15'), at(0, '13:35')).presence;
    expect(first?.label?.x).toBe(Math.round((20 / 240) * 1000) + 6);
  });

  it('has no now while it is off screen', () => {
    expect(axis(at(1, '00:00'), at(1, '12:00')).now).toBeNull();
  });
});
