import { type KeyboardEvent, type PointerEvent, type Ref, useImperativeHandle, useRef, useState } from 'react';
import type { Interval } from '../../../core/time';
import type { PlanIndex } from '../plan-index';
import { whenText } from '../words';
import styles from './strip.module.css';
import { movedWindow, type WindowPart, windowAround } from './window';

/** Tells the strip what the timeline shows. */
export interface StripHandle {
  show(span: Interval): void;
}

interface StripProps {
  readonly ref: Ref<StripHandle>;
  /** Holds the canvas on which the plan is painted. */
  readonly host: Ref<HTMLDivElement>;
  readonly index: PlanIndex;
  readonly limits: Interval;
  /** Machines that cut at all. */
  readonly machines: number;
  /** Makes the timeline show another time. */
  onShow(span: Interval): void;
}

const PARTS: Readonly<Record<string, WindowPart>> = { start: 'start', end: 'end' };
const ZOOM_STEP = 1.4;

/** The whole plan in one strip, with what the timeline shows as a window on it that can be moved and widened. */
export function Strip({ ref, host, index, limits, machines, onShow }: StripProps) {
  const track = useRef<HTMLDivElement>(null);
  const grip = useRef<{ part: WindowPart; x: number; span: Interval } | null>(null);
  const [span, setSpan] = useState<Interval>(limits);
  useImperativeHandle(ref, () => ({ show: setSpan }), []);

  const minutes = limits.end - limits.start;
  const percent = (minute: number): string => `${((minute - limits.start) / minutes) * 100}%`;
  const perCss = (): number => minutes / Math.max(track.current?.clientWidth ?? 0, 1);

  const down = (event: PointerEvent<HTMLDivElement>): void => {
    if (event.button !== 0 || track.current === null) return;
    const on = event.target instanceof HTMLElement ? event.target.dataset.part : undefined;
    const minute = limits.start + (event.clientX - track.current.getBoundingClientRect().left) * perCss();
    // Beside the window a press brings the window there, and may go on as a drag.
    const from = on === undefined ? windowAround(span, minute, limits) : span;
    if (on === undefined) onShow(from);
    grip.current = { part: PARTS[on ?? ''] ?? 'whole', x: event.clientX, span: from };
    track.current.setPointerCapture(event.pointerId);
  };
  const move = (event: PointerEvent<HTMLDivElement>): void => {
    if (grip.current === null) return;
    const { part, x, span: from } = grip.current;
    onShow(movedWindow(from, part, (event.clientX - x) * perCss(), limits));
  };
  const up = (): void => {
    grip.current = null;
  };

  const keyDown = (event: KeyboardEvent): void => {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const next = keyed(event.key, span, limits);
    if (next === null) return;
    event.preventDefault();
    onShow(next);
  };

  return (
    <div className={styles.strip}>
      <div className={styles.name}>
        <strong>Cutting</strong>
        <small>of {machines === 1 ? '1 machine' : `${machines} machines`}</small>
      </div>
      <div
        className={styles.track}
        ref={track}
        onPointerDown={down}
        onPointerMove={move}
        onPointerUp={up}
        onPointerCancel={up}
      >
        <div ref={host} className={styles.host} />
        <div
          className={styles.window}
          data-part="whole"
          style={{ left: percent(span.start), width: `${((span.end - span.start) / minutes) * 100}%` }}
          role="slider"
          tabIndex={0}
          aria-label="Time shown"
          aria-valuemin={limits.start}
          aria-valuemax={limits.end}
          aria-valuenow={Math.round(span.start)}
          aria-valuetext={`${whenText(index, Math.round(span.start))} to ${whenText(index, Math.round(span.end))}`}
          onKeyDown={keyDown}
        >
          <span className={styles.edge} data-part="start" />
          <span className={styles.edge} data-part="end" />
        </div>
      </div>
    </div>
  );
}

/** What a key makes of the window: arrows move it by a quarter, page keys by the whole, plus and minus narrow and widen it. */
function keyed(key: string, span: Interval, limits: Interval): Interval | null {
  const length = span.end - span.start;
  const moved = (by: number): Interval => movedWindow(span, 'whole', by, limits);
  const scaled = (factor: number): Interval => {
    const [middle, half] = [(span.start + span.end) / 2, (length * factor) / 2];
    const wide = Math.min(half, (limits.end - limits.start) / 2);
    return movedWindow({ start: middle - wide, end: middle + wide }, 'whole', 0, limits);
  };
  if (key === 'ArrowLeft' || key === 'ArrowDown') return moved(-length / 4);
  if (key === 'ArrowRight' || key === 'ArrowUp') return moved(length / 4);
  if (key === 'PageUp') return moved(-length);
  if (key === 'PageDown') return moved(length);
  if (key === 'Home') return moved(limits.start - span.start);
  if (key === 'End') return moved(limits.end - span.end);
  if (key === '+' || key === '=') return scaled(1 / ZOOM_STEP);
  if (key === '-') return scaled(ZOOM_STEP);
  return null;
}
