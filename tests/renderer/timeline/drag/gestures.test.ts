import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { listenToGestures } from '../../../../renderer/timeline/gestures';

let element: HTMLElement;
let unlisten: () => void;
/** Whether something lies under the pointer that can be taken up. */
let isRun = true;
const hands = {
  ...{ zoom: vi.fn(), pan: vi.fn(), hover: vi.fn(), click: vi.fn(), carry: vi.fn(), drop: vi.fn(), letGo: vi.fn() },
  take: vi.fn(() => isRun),
};

beforeEach(() => {
  vi.useFakeTimers();
  vi.clearAllMocks();
  isRun = true;
  element = document.createElement('div');
  element.setPointerCapture = () => {};
  document.body.append(element);
  unlisten = listenToGestures(element, hands);
});
afterEach(() => {
  unlisten();
  element.remove();
  vi.useRealTimers();
});

function point(type: string, x: number, y: number, pointerType = 'mouse', pointerId = 1): void {
  element.dispatchEvent(new PointerEvent(type, { clientX: x, clientY: y, pointerType, pointerId, bubbles: true }));
}

describe('a drag on the timeline', () => {
  it('of the mouse takes up the run it begins on, and drops it where it ends', () => {
    point('pointerdown', 100, 50);
    point('pointermove', 130, 60);
    point('pointerup', 130, 60);
    expect(hands.take).toHaveBeenCalledWith({ x: 100, y: 50 });
    expect(hands.carry).toHaveBeenLastCalledWith({ x: 130, y: 60 });
    expect(hands.drop).toHaveBeenCalledTimes(1);
    expect([hands.pan.mock.calls, hands.click.mock.calls]).toEqual([[], []]);
  });

  it('on empty ground pans', () => {
    isRun = false;
    point('pointerdown', 100, 50);
    point('pointermove', 130, 60);
    point('pointermove', 140, 60);
    point('pointerup', 140, 60);
    expect(hands.pan.mock.calls).toEqual([
      [-30, -10],
      [-10, 0],
    ]);
    expect(hands.drop).not.toHaveBeenCalled();
  });

  it('is called off by Escape, and what follows until the button is up means nothing', () => {
    point('pointerdown', 100, 50);
    point('pointermove', 130, 60);
    window.dispatchEvent(new KeyboardEvent('keydown', { key: 'Escape' }));
    expect(hands.letGo).toHaveBeenCalledTimes(1);
    hands.carry.mockClear();
    point('pointermove', 160, 60);
    point('pointerup', 160, 60);
    expect([hands.carry, hands.drop, hands.pan, hands.click].flatMap((hand) => hand.mock.calls)).toEqual([]);
  });

  it('with a shaking hand is a click', () => {
    point('pointerdown', 100, 50);
    point('pointermove', 102, 51);
    point('pointerup', 102, 51);
    expect(hands.click).toHaveBeenCalledTimes(1);
    expect(hands.take).not.toHaveBeenCalled();
  });

  it('of a finger pans at once, and takes up a run only after a long press', () => {
    point('pointerdown', 100, 50, 'touch');
    point('pointermove', 130, 50, 'touch');
    point('pointerup', 130, 50, 'touch');
    expect(hands.take).not.toHaveBeenCalled();
    expect(hands.pan).toHaveBeenCalledWith(-30, 0);
    point('pointerdown', 100, 50, 'touch');
    vi.advanceTimersByTime(500);
    expect(hands.take).toHaveBeenCalledTimes(1);
    point('pointermove', 130, 50, 'touch');
    point('pointerup', 130, 50, 'touch');
    expect(hands.carry).toHaveBeenCalledWith({ x: 130, y: 50 });
    expect(hands.drop).toHaveBeenCalledTimes(1);
  });

  it('puts the run back when a second finger comes down', () => {
    point('pointerdown', 100, 50, 'touch');
    vi.advanceTimersByTime(500);
    point('pointerdown', 200, 50, 'touch', 2);
    expect(hands.letGo).toHaveBeenCalledTimes(1);
    point('pointermove', 250, 50, 'touch', 2);
    expect(hands.zoom).toHaveBeenCalledWith(1.5, 175);
  });
});
