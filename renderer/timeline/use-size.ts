import { type RefObject, useLayoutEffect, useState } from 'react';

/** The inner size of an element in page pixels, followed as it changes; 0 by 0 before it is laid out. */
export function useSize(element: RefObject<HTMLElement | null>): { width: number; height: number } {
  const [size, setSize] = useState({ width: 0, height: 0 });
  useLayoutEffect(() => {
    const target = element.current;
    if (target === null) return;
    const read = (): void => {
      const next = { width: target.clientWidth, height: target.clientHeight };
      setSize((before) => (before.width === next.width && before.height === next.height ? before : next));
    };
    read();
    const observer = new ResizeObserver(read);
    observer.observe(target);
    return () => observer.disconnect();
  }, [element]);
  return size;
}
