import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { createRef } from 'react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { modelOf } from '../../../../renderer/timeline/model';
import { indexPlan } from '../../../../renderer/timeline/plan-index';
import { Strip, type StripHandle } from '../../../../renderer/timeline/strip/strip';
import { columnsOf, stripOf } from '../../../../renderer/timeline/strip/strip-model';
import { movedWindow, windowAround } from '../../../../renderer/timeline/strip/window';
import { at, planView } from '../../support/plan-view';

const index = indexPlan(planView());
const { limits } = modelOf(index);
const cuttingAt = (minute: number): number => columnsOf(stripOf(index), { start: minute, end: minute + 1 }, 1)[0]!;

afterEach(cleanup);

describe('the whole plan in one strip', () => {
  it('counts the machines that cut at a time, benches apart', () => {
    expect(cuttingAt(at(0, '14:30'))).toBe(3);
    expect(cuttingAt(at(0, '16:45'))).toBe(3);
    expect(cuttingAt(at(1, '05:00'))).toBe(1);
    expect(cuttingAt(at(1, '09:15'))).toBe(1);
    expect(cuttingAt(at(2, '09:00'))).toBe(0);
    expect(stripOf(index).machines).toBe(4);
  });

  it('counts a machine once where a lock that could not hold makes its runs overlap', () => {
    const view = planView();
    const [first, second] = view.plan.runs.filter(({ machine }) => machine === 'M1');
    Object.assign(second!, { start: first!.start, end: first!.end });
    const [most] = columnsOf(stripOf(indexPlan(view)), { start: at(0, '12:00'), end: at(0, '13:00') }, 1);
    expect(most).toBe(1);
  });

  it('shows in each column the most that cut at once in its time', () => {
    // At 17:30 G1 stands; before and after it cuts, as do M1, M2 and C1.
    expect(columnsOf(stripOf(index), { start: at(0, '17:00'), end: at(0, '19:00') }, 4)).toEqual([4, 3, 4, 4]);
  });

  it('marks when runs of late jobs are cut, and when nobody is here', () => {
    const { late, unattended } = stripOf(index);
    expect(late).toContainEqual({ start: at(0, '22:00'), end: at(1, '02:00') });
    expect(unattended[0]).toMatchObject({ start: at(0, '22:30'), end: at(1, '06:00') });
  });
});

describe('the window on the plan', () => {
  const span = { start: at(0, '14:00'), end: at(1, '06:00') };

  it('moves as a whole and stops at the ends of the plan', () => {
    expect(movedWindow(span, 'whole', 60, limits)).toEqual({ start: at(0, '15:00'), end: at(1, '07:00') });
    expect(movedWindow(span, 'whole', -9999, limits)).toEqual({ start: limits.start, end: limits.start + 960 });
    expect(movedWindow(span, 'whole', 99_999, limits).end).toBe(limits.end);
  });

  it('is widened and narrowed at either edge, to ten minutes at least', () => {
    expect(movedWindow(span, 'start', 60, limits)).toEqual({ start: at(0, '15:00'), end: span.end });
    expect(movedWindow(span, 'end', -60, limits)).toEqual({ start: span.start, end: at(1, '05:00') });
    expect(movedWindow(span, 'end', -99_999, limits).end).toBe(span.start + 10);
    expect(movedWindow(span, 'start', -99_999, limits).start).toBe(limits.start);
  });

  it('jumps to where the plan is pressed', () => {
    expect(windowAround(span, at(1, '22:00'), limits)).toEqual({ start: at(1, '14:00'), end: at(2, '06:00') });
  });

  it('says what it shows, and goes by keys', () => {
    const onShow = vi.fn();
    const ref = createRef<StripHandle>();
    render(<Strip {...{ ref, index, limits, onShow }} host={null} machines={4} />);
    act(() => ref.current?.show(span));
    const slider = screen.getByRole('slider', { name: 'Time shown' });
    expect(slider.getAttribute('aria-valuetext')).toBe('Wed 14:00 to Thu 06:00');
    const pressed = (key: string): unknown => {
      fireEvent.keyDown(slider, { key });
      return onShow.mock.lastCall?.[0];
    };
    expect(pressed('ArrowRight')).toEqual({ start: at(0, '18:00'), end: at(1, '10:00') });
    expect(pressed('PageDown')).toEqual({ start: at(1, '06:00'), end: at(1, '22:00') });
    expect(pressed('Home')).toEqual({ start: limits.start, end: limits.start + 960 });
    expect(pressed('End')).toEqual({ start: limits.end - 960, end: limits.end });
    fireEvent.keyDown(slider, { key: 'x' });
    expect(onShow).toHaveBeenCalledTimes(4);
  });
});
