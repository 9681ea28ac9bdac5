/** What hands on a mouse, pad or touch screen can do to the timeline. Distances in page pixels. */
interface GestureHandlers {
  zoom(factor: number, atCss: number): void;
  pan(byXCss: number, byYCss: number): void;
  /** The pointer rests at a point of the canvas; null when it leaves or drags. */
  hover(at: { readonly x: number; readonly y: number } | null): void;
  click(at: { readonly x: number; readonly y: number }): void;
}

/** Less than this is a click with a shaking hand, not a drag. */
const DRAG_CSS = 4;
const ZOOM_PER_WHEEL_CSS = 0.0018;
/** A pinch on a pad arrives as a wheel with Ctrl and small steps. */
const ZOOM_PER_PINCH_CSS = 0.01;
const LINE_CSS = 16;

/**
 * Wheel zooms at the pointer; Shift and wheel, or a sideways wheel, pans; dragging pans; two fingers pinch.
 * Returns how to stop listening.
 */
export function listenToGestures(element: HTMLElement, handlers: GestureHandlers): () => void {
  const pointers = new Map<number, { x: number; y: number }>();
  let dragged = false;
  let pressedAt = { x: 0, y: 0 };

  const placeOf = (event: MouseEvent): { x: number; y: number } => {
    const box = element.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
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
    if (pointers.size === 1) {
      dragged = false;
      pressedAt = placeOf(event);
    }
  };

  const move = (event: PointerEvent): void => {
    const at = placeOf(event);
    const before = pointers.get(event.pointerId);
    if (before === undefined) {
      handlers.hover(at);
      return;
    }
    const other = [...pointers].find(([id]) => id !== event.pointerId)?.[1];
    if (other !== undefined) {
      dragged = true;
      const wide = Math.max(Math.abs(before.x - other.x), 1);
      handlers.zoom(Math.max(Math.abs(at.x - other.x), 1) / wide, (at.x + other.x) / 2);
    } else {
      dragged ||= Math.hypot(at.x - pressedAt.x, at.y - pressedAt.y) > DRAG_CSS;
      if (!dragged) return;
      handlers.hover(null);
      handlers.pan(before.x - at.x, before.y - at.y);
    }
    pointers.set(event.pointerId, at);
  };

  const up = (event: PointerEvent): void => {
    if (pointers.delete(event.pointerId) && pointers.size === 0 && !dragged) handlers.click(placeOf(event));
  };
  const cancel = (event: PointerEvent): void => {
    pointers.delete(event.pointerId);
  };
  const leave = (): void => handlers.hover(null);

  element.addEventListener('wheel', wheel, { passive: false });
  element.addEventListener('pointerdown', down);
  element.addEventListener('pointermove', move);
  element.addEventListener('pointerup', up);
  element.addEventListener('pointercancel', cancel);
  element.addEventListener('pointerleave', leave);
  return () => {
    element.removeEventListener('wheel', wheel);
    element.removeEventListener('pointerdown', down);
    element.removeEventListener('pointermove', move);
    element.removeEventListener('pointerup', up);
    element.removeEventListener('pointercancel', cancel);
    element.removeEventListener('pointerleave', leave);
  };
}
