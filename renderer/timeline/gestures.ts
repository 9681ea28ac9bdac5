/** A place on the timeline's canvas, in page pixels. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** What hands on a mouse, pad or touch screen can do to the timeline. Distances in page pixels. */
export interface GestureHandlers {
  zoom(factor: number, atCss: number): void;
  pan(byXCss: number, byYCss: number): void;
  /** The pointer rests at a point of the canvas; null when it leaves or drags. */
  hover(at: Point | null): void;
  click(at: Point): void;
  /** A drag of the mouse, or a long press of a finger, begins at a point: true takes up what lies there. */
  take(at: Point): boolean;
  /** What was taken up follows the pointer. */
  carry(at: Point): void;
  /** It is put down where the pointer last was. */
  drop(): void;
  /** It goes back to where it was. */
  letGo(): void;
}

/** Less than this is a click with a shaking hand, not a drag. */
const DRAG_CSS = 4;
/** A finger that rests for so long takes up what is under it. */
const LONG_PRESS_MS = 450;
const ZOOM_PER_WHEEL_CSS = 0.0018;
/** A pinch on a pad arrives as a wheel with Ctrl and small steps. */
const ZOOM_PER_PINCH_CSS = 0.01;
const LINE_CSS = 16;

/** `spent`: the drag was called off, and the pointer is still down. */
type Hold = 'up' | 'pressed' | 'panning' | 'carrying' | 'spent';

/**
 * Wheel zooms at the pointer; Shift and wheel, or a sideways wheel, pans; dragging carries what can be taken up and pans
 * otherwise; two fingers pinch. Returns how to stop listening.
 */
export function listenToGestures(element: HTMLElement, handlers: GestureHandlers): () => void {
  const pointers = new Map<number, Point>();
  let hold: Hold = 'up';
  let pressedAt: Point = { x: 0, y: 0 };
  let longPress: ReturnType<typeof setTimeout> | undefined;

  const placeOf = (event: MouseEvent): Point => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };

  const take = (): void => {
    hold = handlers.take(pressedAt) ? 'carrying' : 'panning';
    if (hold === 'carrying') handlers.hover(null);
  };

  const callOff = (): void => {
    if (hold === 'carrying') handlers.letGo();
    hold = 'spent';
  };

  const wheel = (event: WheelEvent): void => {
    event.preventDefault();
    const unit = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? LINE_CSS : 1;
    const sideways = event.shiftKey ? event.deltaY || event.deltaX : event.deltaX;
    if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) handlers.pan(sideways * unit, 0);
    else {
      const speed = event.ctrlKey ? ZOOM_PER_PINCH_CSS : ZOOM_PER_WHEEL_CSS;
      handlers.zoom(Math.exp(-event.deltaY * unit * speed), placeOf(event).x);
    }
  };

  const down = (event: PointerEvent): void => {
    if (event.button !== 0) return;
    element.setPointerCapture(event.pointerId);
    pointers.set(event.pointerId, placeOf(event));
    clearTimeout(longPress);
    if (pointers.size > 1) {
      // A second finger pinches: nothing is carried with two.
      callOff();
      return;
    }
    hold = 'pressed';
    pressedAt = placeOf(event);
    if (event.pointerType !== 'touch') return;
    longPress = setTimeout(() => {
      if (handlers.take(pressedAt)) hold = 'carrying';
    }, LONG_PRESS_MS);
  };

  const move = (event: PointerEvent): void => {
    const at = placeOf(event);
    const before = pointers.get(event.pointerId);
    if (before === undefined) {
      handlers.hover(at);
      return;
    }
    pointers.set(event.pointerId, at);
    const other = [...pointers].find(([id]) => id !== event.pointerId)?.[1];
    if (other !== undefined) {
      const wide = Math.max(Math.abs(before.x - other.x), 1);
      handlers.zoom(Math.max(Math.abs(at.x - other.x), 1) / wide, (at.x + other.x) / 2);
      return;
    }
    if (hold === 'pressed') {
      if (Math.hypot(at.x - pressedAt.x, at.y - pressedAt.y) <= DRAG_CSS) {
        pointers.set(event.pointerId, before);
        return;
      }
      clearTimeout(longPress);
      if (event.pointerType === 'touch') hold = 'panning';
      else take();
    }
    if (hold === 'carrying') handlers.carry(at);
    else if (hold === 'panning') {
      handlers.hover(null);
      handlers.pan(before.x - at.x, before.y - at.y);
    }
  };

  const up = (event: PointerEvent): void => {
    clearTimeout(longPress);
    if (!pointers.delete(event.pointerId) || pointers.size > 0) return;
    const was = hold;
    hold = 'up';
    if (was === 'pressed') handlers.click(placeOf(event));
    else if (was === 'carrying') handlers.drop();
  };

  const cancel = (event: PointerEvent): void => {
    clearTimeout(longPress);
    if (!pointers.delete(event.pointerId)) return;
    callOff();
  };

  const leave = (): void => handlers.hover(null);

  /** Heard before the rest of the page, which has a use of its own for Escape. */
  const keyDown = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || hold !== 'carrying') return;
    event.stopPropagation();
    event.preventDefault();
    callOff();
  };

  const stop = new AbortController();
  const { signal } = stop;
  element.addEventListener('wheel', wheel, { passive: false, signal });
  element.addEventListener('pointerdown', down, { signal });
  element.addEventListener('pointermove', move, { signal });
  element.addEventListener('pointerup', up, { signal });
  element.addEventListener('pointercancel', cancel, { signal });
  element.addEventListener('pointerleave', leave, { signal });
  // A long press must not open a menu over what is carried.
  element.addEventListener('contextmenu', (event) => hold === 'carrying' && event.preventDefault(), { signal });
  window.addEventListener('keydown', keyDown, { capture: true, signal });
  return () => {
    clearTimeout(longPress);
    stop.abort();
  };
}
