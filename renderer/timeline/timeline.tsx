import { type KeyboardEvent, useEffect, useMemo, useRef, useState } from 'react';
import type { Minute } from '../../core/time';
import { Button } from '../look';
import type { Fit } from './fit';
import { listenToGestures } from './gestures';
import { Legend } from './legend';
import { metricsFor } from './metrics';
import { modelOf } from './model';
import { watchTheme } from './palette';
import type { PlanIndex } from './plan-index';
import { RowNames } from './row-names';
import { type Selection, sameSelection } from './selection';
import { Surface } from './surface';
import styles from './timeline.module.css';
import { Tooltip } from './tooltip';
import { useSize } from './use-size';
import { type Step, walk } from './walk';
import { factsOf, sentenceOf } from './words';

interface TimelineProps {
  readonly index: PlanIndex;
  readonly nowMin: Minute;
  readonly selection: Selection | null;
  onSelect(selection: Selection | null): void;
}

const FITS: readonly { fit: Fit; label: string }[] = [
  { fit: 'tonight', label: 'Tonight' },
  { fit: 'week', label: 'Week' },
  { fit: 'all', label: 'All' },
];

const STEPS: Readonly<Record<string, Step>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
  Home: 'first',
  End: 'last',
};

const ZOOM_STEP = 1.4;

/** The plan over time: machines as rows with their runs and gaps, the people beneath. */
export function Timeline({ index, nowMin, selection, onSelect }: TimelineProps) {
  const body = useRef<HTMLDivElement>(null);
  const stage = useRef<HTMLDivElement>(null);
  const axis = useRef<HTMLCanvasElement>(null);
  const base = useRef<HTMLCanvasElement>(null);
  const overlay = useRef<HTMLCanvasElement>(null);
  const surface = useRef<Surface | null>(null);
  const [fit, setFit] = useState<Fit | null>('tonight');
  const [hover, setHover] = useState<{ selection: Selection; x: number; y: number } | null>(null);

  const model = useMemo(() => modelOf(index), [index]);
  const bodySize = useSize(body);
  const stageSize = useSize(stage);
  const metrics = useMemo(
    () => metricsFor(bodySize.height, model.machines.length, model.people.length),
    [bodySize.height, model],
  );
  const facts = selection === null ? null : factsOf(index, selection);

  const select = useRef(onSelect);
  select.current = onSelect;

  useEffect(() => {
    if (axis.current === null || base.current === null || overlay.current === null || stage.current === null) return;
    const drawn = new Surface({ axis: axis.current, base: base.current, overlay: overlay.current }, setFit);
    surface.current = drawn;
    const unwatch = watchTheme(() => drawn.retheme());
    const unlisten = listenToGestures(stage.current, {
      zoom: (factor, at) => drawn.zoom(factor, at),
      pan: (x, y) => {
        drawn.pan(x);
        if (body.current !== null) body.current.scrollTop += y;
      },
      hover: (at) => {
        const hit = at === null ? null : drawn.hitAt(at.x, at.y);
        drawn.setHover(hit);
        const box = stage.current?.getBoundingClientRect();
        const shows = hit !== null && at !== null && box !== undefined;
        setHover(shows ? { selection: hit, x: box.left + at.x, y: box.top + at.y } : null);
      },
      click: (at) => select.current(drawn.hitAt(at.x, at.y)),
    });
    return () => {
      unlisten();
      unwatch();
      drawn.dispose();
      surface.current = null;
    };
  }, []);

  useEffect(() => {
    if (stageSize.width === 0) return;
    const job = selection?.kind === 'run' ? index.needs.get(selection.run)?.job : undefined;
    const due = job === undefined ? null : { local: job.due, text: `${job.id} due` };
    surface.current?.setScene({ model, metrics, widthCss: stageSize.width, nowMin, selection, due });
  }, [model, metrics, stageSize.width, nowMin, selection, index]);

  useEffect(() => {
    if (selection === null) return;
    const row = surface.current?.reveal(selection) ?? null;
    if (row !== null && body.current !== null) scrollToRow(body.current, row, metrics.row);
  }, [selection, metrics.row]);

  const keyDown = (event: KeyboardEvent): void => {
    const drawn = surface.current;
    if (drawn === null || event.ctrlKey || event.altKey || event.metaKey) return;
    const step = STEPS[event.key];
    if (step !== undefined && !event.shiftKey) {
      const next = walk(model, selection, step, drawn.leftMin());
      if (next !== null) onSelect(next);
    } else if (event.key === 'ArrowLeft') drawn.pan(-stageSize.width / 4);
    else if (event.key === 'ArrowRight') drawn.pan(stageSize.width / 4);
    else if (event.key === '+' || event.key === '=') drawn.zoom(ZOOM_STEP);
    else if (event.key === '-') drawn.zoom(1 / ZOOM_STEP);
    else if (event.key === 'PageUp') drawn.pan(-stageSize.width * 0.8);
    else if (event.key === 'PageDown') drawn.pan(stageSize.width * 0.8);
    else if (event.key === 'Escape') onSelect(null);
    else return;
    event.preventDefault();
  };

  const shown = hover !== null && !sameSelection(hover.selection, selection) ? hover : null;
  return (
    <section className={styles.timeline} aria-label="Timeline">
      <div className={styles.tools}>
        <fieldset className={styles.group} aria-label="Show">
          {FITS.map(({ fit: each, label }) => (
            <button key={each} type="button" aria-pressed={fit === each} onClick={() => surface.current?.fit(each)}>
              {label}
            </button>
          ))}
        </fieldset>
        <Button onClick={() => surface.current?.goToNow()}>Go to now</Button>
        <fieldset className={styles.group} aria-label="Zoom">
          <button type="button" aria-label="Zoom out" onClick={() => surface.current?.zoom(1 / ZOOM_STEP)}>
            −
          </button>
          <button type="button" aria-label="Zoom in" onClick={() => surface.current?.zoom(ZOOM_STEP)}>
            +
          </button>
        </fieldset>
      </div>
      <div className={styles.axis}>
        <canvas ref={axis} />
      </div>
      <div className={styles.body} ref={body}>
        <RowNames model={model} metrics={metrics} />
        <div
          ref={stage}
          className={styles.stage}
          role="application"
          // biome-ignore lint/a11y/noNoninteractiveTabindex: this widget takes the focus and the arrow keys itself
          tabIndex={0}
          aria-roledescription="timeline"
          aria-label="Runs over time. Arrow keys go from run to run, plus and minus zoom, Shift with arrows pans."
          onKeyDown={keyDown}
        >
          <canvas ref={base} />
          <canvas ref={overlay} className={styles.overlay} />
        </div>
      </div>
      <Legend />
      {shown !== null && <Tooltip facts={factsOf(index, shown.selection)} x={shown.x} y={shown.y} />}
      <output className={styles.unseen} aria-live="polite">
        {facts === null ? '' : sentenceOf(facts)}
      </output>
    </section>
  );
}

function scrollToRow(body: HTMLElement, row: number, rowCss: number): void {
  const top = row * rowCss;
  if (top < body.scrollTop) body.scrollTop = top;
  else if (top + rowCss > body.scrollTop + body.clientHeight) body.scrollTop = top + rowCss - body.clientHeight;
}
