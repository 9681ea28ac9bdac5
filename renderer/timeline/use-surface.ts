import { type RefObject, useEffect, useRef } from 'react';
import { type GestureHandlers, listenToGestures } from './gestures';
import { watchTheme } from './paint/palette';
import { Surface, type SurfaceEars } from './surface';

interface Hosts {
  /** Scrolls the rows. */
  readonly body: RefObject<HTMLElement | null>;
  /** What is seen of them. */
  readonly sight: RefObject<HTMLElement | null>;
  readonly axis: RefObject<HTMLElement | null>;
  readonly strip: RefObject<HTMLElement | null>;
}

/** The drawn timeline, alive as long as its elements are; `hands` and `ears` may be others with each rendering. */
export function useSurface(
  surface: RefObject<Surface | null>,
  { body, sight, axis, strip }: Hosts,
  hands: GestureHandlers,
  ears: SurfaceEars,
): void {
  const latest = useRef({ hands, ears });
  latest.current = { hands, ears };
  useEffect(() => {
    const scroller = body.current;
    const [rows, over, whole] = [sight.current, axis.current, strip.current];
    if (scroller === null || rows === null || over === null || whole === null) return;
    const drawn = new Surface(
      { axis: over, strip: whole, rows },
      { fitted: (fit) => latest.current.ears.fitted(fit), viewed: (span) => latest.current.ears.viewed(span) },
    );
    surface.current = drawn;
    const stop = new AbortController();
    const scrolled = (): void => {
      drawn.setTop(scroller.scrollTop);
      latest.current.hands.hover(null);
    };
    scroller.addEventListener('scroll', scrolled, { signal: stop.signal });
    const unwatch = watchTheme(() => drawn.retheme());
    const unlisten = listenToGestures(rows, {
      zoom: (factor, at) => latest.current.hands.zoom(factor, at),
      pan: (x, y) => latest.current.hands.pan(x, y),
      hover: (at) => latest.current.hands.hover(at),
      click: (at) => latest.current.hands.click(at),
      take: (at) => latest.current.hands.take(at),
      carry: (at) => latest.current.hands.carry(at),
      drop: () => latest.current.hands.drop(),
      letGo: () => latest.current.hands.letGo(),
    });
    return () => {
      stop.abort();
      unlisten();
      unwatch();
      drawn.dispose();
      surface.current = null;
    };
  }, [surface, body, sight, axis, strip]);
}
