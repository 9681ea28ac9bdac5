import { type KeyboardEvent, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import type { Interval, Minute } from '../../core/time';
import { type MoveProps, useCarry } from './drag/use-carry';
import { VerdictNote } from './drag/verdict-note';
import type { Fit } from './fit';
import type { Point } from './gestures';
import { KeysPanel } from './keys-panel';
import { Legend } from './legend';
import { metricsFor, placeRows, type RowPlaces } from './metrics';
import { extentOf, itemAt, type Place, placeOf, type RowsBy, selectionOf } from './model';
import type { PlanIndex } from './plan-index';
import { RowNames } from './row-names';
import type { Ghost } from './rows/ghosts';
import type { ToolLine } from './rows/tool-rows';
import { type Selection, sameSelection } from './selection';
import { Strip, type StripHandle } from './strip/strip';
import { stripOf } from './strip/strip-model';
import type { Surface } from './surface';
import styles from './timeline.module.css';
import { ToolBar } from './tool-bar';
import { Tooltip } from './tooltip';
import { useJumps } from './use-jumps';
import { useRows } from './use-rows';
import { useSize } from './use-size';
import { useSurface } from './use-surface';
import { type Step, walk } from './walk';
import { factsOf, sentenceOf } from './words';

interface TimelineProps extends MoveProps {
  readonly index: PlanIndex;
  readonly nowMin: Minute;
  readonly selection: Selection | null;
  onSelect(selection: Selection | null): void;
  /** What becomes of a machine's tools, shown beneath it when opened; the same function as long as it says the same. */
  tools?(machine: string): readonly ToolLine[];
  /** Where runs were cut in another plan; the same array as long as it says the same. */
  readonly ghosts?: readonly Ghost[];
}

const STEPS: Readonly<Record<string, Step>> = {
  ArrowLeft: 'left',
  ArrowRight: 'right',
  ArrowUp: 'up',
  ArrowDown: 'down',
  Home: 'first',
  End: 'last',
};

const ZOOM_STEP = 1.4;

/** The plan over time: machines, pallets, people or jobs as rows, and runs that can be moved by hand. */
export function Timeline({ index, nowMin, selection, onSelect, tools, ghosts, ...moving }: TimelineProps) {
  const body = useRef<HTMLDivElement>(null);
  const stage = useRef<HTMLDivElement>(null);
  const sight = useRef<HTMLDivElement>(null);
  const axis = useRef<HTMLDivElement>(null);
  const stripHost = useRef<HTMLDivElement>(null);
  const strip = useRef<StripHandle>(null);
  const surface = useRef<Surface | null>(null);
  /** Where the arrow keys stand: a selection may stand in several places. */
  const cursor = useRef<Place | null>(null);
  /** What of the next selection is to be on screen, if not all of it. */
  const wanted = useRef<Interval | null>(null);
  const [by, setBy] = useState<RowsBy>('machines');
  const [fit, setFit] = useState<Fit | null>('tonight');
  const [showsKeys, setShowsKeys] = useState(false);
  const [hover, setHover] = useState<{ selection: Selection; x: number; y: number } | null>(null);

  const { model, withTools, open, toggle } = useRows(index, by, ghosts, tools);
  const whole = useMemo(() => stripOf(index), [index]);
  const bodySize = useSize(body);
  const stageSize = useSize(stage);
  const places = useMemo(
    () => placeRows(model.rows, metricsFor(bodySize.height, model.rows)),
    [bodySize.height, model.rows],
  );
  const pan = (x: number, y: number): void => {
    surface.current?.pan(x);
    if (body.current !== null) body.current.scrollTop += y;
  };
  const carry = useCarry(surface, index, model, pan, moving);

  const select = (next: Selection | null, place: Place | null = null, span: Interval | null = null): void => {
    cursor.current = place;
    // The same selection again is no news, and nothing would bring it on screen.
    wanted.current = sameSelection(next, selection) ? null : span;
    if (span !== null) surface.current?.reveal(span);
    onSelect(next);
  };
  const jumps = useJumps(surface, index, model, nowMin, selection, select);

  const inWindow = (at: Point): Point => {
    const box = sight.current?.getBoundingClientRect();
    return { x: (box?.left ?? 0) + at.x, y: (box?.top ?? 0) + at.y };
  };
  useSurface(
    surface,
    { body, sight, axis, strip: stripHost },
    {
      pan,
      zoom: (factor, at) => surface.current?.zoom(factor, at),
      hover(at) {
        const hit = at === null ? null : (surface.current?.hitAt(at) ?? null);
        surface.current?.setHover(hit);
        setHover(hit === null || at === null ? null : { selection: hit, ...inWindow(at) });
      },
      click: (at) => select(surface.current?.hitAt(at) ?? null),
      ...{ take: carry.take, carry: carry.carry, drop: carry.drop, letGo: carry.letGo },
    },
    { fitted: setFit, viewed: (span) => strip.current?.show(span) },
  );

  useEffect(() => {
    if (stageSize.width === 0) return;
    const job = selection?.kind === 'run' ? index.needs.get(selection.run)?.job : undefined;
    const due = job === undefined ? null : { local: job.due, text: `${job.id} due` };
    const heightCss = Math.min(bodySize.height, places.total);
    surface.current?.setScene({
      ...{ model, strip: whole, places, widthCss: stageSize.width, heightCss, nowMin, selection, due },
    });
  }, [model, whole, places, stageSize.width, bodySize.height, nowMin, selection, index]);

  // What was said of a run put down is done with once something else is picked.
  const { hush } = carry;
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is the change of selection that counts
  useEffect(hush, [selection]);

  const placeNow = (): Place | null => {
    if (selection === null) return null;
    const item = cursor.current === null ? null : itemAt(model, cursor.current);
    return item !== null && sameSelection(selectionOf(item), selection) ? cursor.current : placeOf(model, selection);
  };
  const extentNow = (): Interval | null => {
    const place = placeNow();
    const item = place === null ? null : itemAt(model, place);
    return item === null ? null : extentOf(item);
  };

  const isLaidOut = stageSize.width > 0;
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is selected is brought on screen once, not with each change of size
  useEffect(() => {
    const [place, extent] = [placeNow(), wanted.current ?? extentNow()];
    wanted.current = null;
    if (place === null || extent === null) return;
    surface.current?.reveal(extent);
    if (body.current !== null) scrollToRow(body.current, place.row, places);
  }, [selection, by, isLaidOut]);

  const moveTo = (step: Step): void => {
    const next = walk(model, placeNow(), step, surface.current?.leftMin() ?? nowMin);
    const item = next === null ? null : itemAt(model, next);
    if (item !== null) select(selectionOf(item), next, extentOf(item));
  };
  const zoomToSelection = (): void => {
    const extent = extentNow();
    if (extent !== null) jumps.zoomTo(extent);
  };

  const keyDown = (event: KeyboardEvent): void => {
    const drawn = surface.current;
    if (drawn === null || event.ctrlKey || event.altKey || event.metaKey) return;
    const { key } = event;
    const step = STEPS[key];
    if (carry.key(key, event.shiftKey)) event.preventDefault();
    if (event.defaultPrevented) return;
    if (step !== undefined && !event.shiftKey) moveTo(step);
    else if (key === 'ArrowLeft') drawn.pan(-stageSize.width / 4);
    else if (key === 'ArrowRight') drawn.pan(stageSize.width / 4);
    else if (key === '+' || key === '=') drawn.zoom(ZOOM_STEP);
    else if (key === '-') drawn.zoom(1 / ZOOM_STEP);
    else if (key === 'PageUp') drawn.pan(-stageSize.width * 0.8);
    else if (key === 'PageDown') drawn.pan(stageSize.width * 0.8);
    else if (key === 't') drawn.fit('tonight');
    else if (key === 'n') drawn.goToNow();
    else if (key === 'a') jumps.nextHand();
    else if (key === 'z') zoomToSelection();
    else if (key === '?') setShowsKeys(!showsKeys);
    else if (key === 'Escape' && showsKeys) setShowsKeys(false);
    else if (key === 'Escape') select(null);
    else if (key === 'm' && selection?.kind === 'run') carry.takeRun(selection.run);
    else return;
    event.preventDefault();
  };

  /** Beside the pointer, or beside the run itself while keys carry it. */
  const [noteAt, setNoteAt] = useState<Point | null>(null);
  const { held } = carry;
  useLayoutEffect(() => {
    const ghost = held === null || held.pointer !== null ? null : surface.current?.ghost();
    const at = held?.pointer ?? (ghost == null ? null : { x: ghost.x0, y: ghost.y1 });
    const next = at === null ? null : inWindow(at);
    if (next?.x !== noteAt?.x || next?.y !== noteAt?.y) setNoteAt(next);
  });

  const facts = selection === null ? null : factsOf(index, selection);
  const said = carry.said !== '' ? [carry.said] : [jumps.said, facts === null ? '' : sentenceOf(facts)];
  const shown = hover !== null && held === null && !sameSelection(hover.selection, selection) ? hover : null;
  return (
    <section className={styles.timeline} aria-label="Timeline">
      <ToolBar
        {...{ fit, showsKeys, rows: by, onRows: setBy, onNextHand: jumps.nextHand }}
        onFit={(next) => surface.current?.fit(next)}
        onNow={() => surface.current?.goToNow()}
        onSelection={extentNow() === null ? null : zoomToSelection}
        onZoom={(step) => surface.current?.zoom(ZOOM_STEP ** step)}
        onKeys={() => setShowsKeys(!showsKeys)}
      />
      {showsKeys && <KeysPanel canMove={moving.onMove !== undefined} />}
      <Strip
        {...{ ref: strip, host: stripHost, index, limits: model.limits, machines: whole.machines }}
        onShow={(span) => surface.current?.show(span)}
      />
      <div className={styles.axis} ref={axis} />
      <div className={styles.body} ref={body}>
        <RowNames {...{ rows: model.rows, places, withTools, open, onToggle: toggle }} />
        <div
          ref={stage}
          className={styles.stage}
          style={{ height: places.total }}
          data-carrying={held !== null}
          role="application"
          // biome-ignore lint/a11y/noNoninteractiveTabindex: this widget takes the focus and the arrow keys itself
          tabIndex={0}
          aria-roledescription="timeline"
          aria-label={`Runs over time by ${by}. Arrow keys go from run to run, question mark shows all keys.`}
          onKeyDown={keyDown}
          onBlur={carry.letGo}
        >
          <div ref={sight} className={styles.sight} style={{ height: Math.min(bodySize.height, places.total) }} />
        </div>
      </div>
      <Legend rows={by} index={index} compares={ghosts !== undefined} />
      {shown !== null && <Tooltip facts={factsOf(index, shown.selection)} x={shown.x} y={shown.y} />}
      {held !== null && noteAt !== null && (
        <VerdictNote index={index} carried={held.carried} judged={held.judged} {...noteAt} />
      )}
      <output className={styles.unseen} aria-live="polite">
        {said.join(' ').trim()}
      </output>
    </section>
  );
}

function scrollToRow(body: HTMLElement, row: number, places: RowPlaces): void {
  const [top, bottom] = [places.tops[row] ?? 0, places.bottoms[row] ?? 0];
  if (top < body.scrollTop) body.scrollTop = top;
  else if (bottom > body.scrollTop + body.clientHeight) body.scrollTop = bottom - body.clientHeight;
}
