import { clockText, type Interval, type Minute, minuteOf } from '../../core/time';
import { layoutAxis } from './axis-layout';
import { dimmedRows, type GhostBox, ghostBox, type Shown } from './drag/ghost';
import { type Fit, fitSpan } from './fit';
import { FrameLoop } from './frame-loop';
import type { Point } from './gestures';
import { hitAt, runAt } from './hit';
import { type Layout, layoutBars } from './layout';
import { AXIS_CSS, type RowPlaces, rowAt } from './metrics';
import { extentOf, findItem, placeOf, type TimelineModel } from './model';
import { outlinesOf, type Placed } from './overlay';
import { paintAxis } from './paint/axis';
import { paintGrid } from './paint/grid';
import { paintOverlay } from './paint/overlay';
import { paintBars } from './paint/paint';
import type { View } from './placer';
import { fitTo, panBy, reveal, type Scale, spanOf, toMinute, toPx, zoomAt } from './scale';
import type { Selection } from './selection';
import { dpr, type SheetHosts, Sheets } from './sheets';
import { paintStrip, STRIP_CSS } from './strip/paint-strip';
import type { StripModel } from './strip/strip-model';

/** What is drawn, as the screen sets it. */
interface Scene {
  readonly model: TimelineModel;
  readonly strip: StripModel;
  readonly places: RowPlaces;
  readonly widthCss: number;
  /** Height of what is seen of the rows. */
  readonly heightCss: number;
  readonly nowMin: Minute;
  readonly selection: Selection | null;
  /** Local due time of the selected run's job. */
  readonly due: { readonly local: string; readonly text: string } | null;
}

export interface SurfaceEars {
  /** Told whenever the view comes to be, or stops being, one of the fits. */
  fitted(fit: Fit | null): void;
  /** Told with each drawing that shows another time. */
  viewed(span: Interval): void;
}

/**
 * The drawn timeline: its canvases and the scale over them. No React in it; where a canvas cannot draw, nothing is
 * drawn. Points are page pixels from the upper left corner of what is seen of the rows.
 */
export class Surface {
  private readonly frames = new FrameLoop();
  private readonly sheets: Sheets;
  private scene: Scene | null = null;
  private scale: Scale = { leftMin: 0, cssPerMin: 1, widthCss: 1 };
  private topCss = 0;
  private fitted: Fit | null = 'tonight';
  private hover: Selection | null = null;
  private carried: Shown | null = null;
  private drawn: Layout | null = null;
  private isBaseDue = false;
  private isStripDue = false;

  constructor(
    hosts: SheetHosts,
    private readonly ears: SurfaceEars,
  ) {
    this.sheets = new Sheets(hosts);
  }

  setScene(scene: Scene): void {
    const before = this.scene;
    this.scene = scene;
    const moved = before !== null && before.model.clock.origin !== scene.model.clock.origin;
    const resized = before?.widthCss !== scene.widthCss;
    const same = before?.model === scene.model && before.places === scene.places && before.nowMin === scene.nowMin;
    if (same && !resized && before.heightCss === scene.heightCss) {
      this.frames.request(this.draw);
      return;
    }
    this.isStripDue = true;
    if (this.fitted !== null) this.scale = fitTo(fitSpan(scene.model, this.fitted), scene.widthCss);
    else if (moved) this.fit('tonight');
    else if (resized) this.scale = fitTo(spanOf(this.scale), scene.widthCss);
    this.redraw();
  }

  /** How far the rows are scrolled. */
  setTop(topCss: number): void {
    if (topCss === this.topCss) return;
    this.topCss = topCss;
    this.redraw();
  }

  retheme(): void {
    this.sheets.retheme();
    this.isStripDue = true;
    this.redraw();
  }

  fit(fit: Fit): void {
    if (this.scene === null) return;
    this.setScale(fitTo(fitSpan(this.scene.model, fit), this.scene.widthCss), fit);
  }

  /** Shows exactly this time, as far as it lies within the plan. */
  show(span: Interval): void {
    if (this.scene === null) return;
    this.setScale(zoomAt(fitTo(span, this.scene.widthCss), 0, 1, this.scene.model.limits));
  }

  zoom(factor: number, atCss: number | null = null): void {
    if (this.scene === null) return;
    this.setScale(zoomAt(this.scale, atCss ?? this.centreCss(), factor, this.scene.model.limits));
  }

  pan(byCss: number): void {
    if (this.scene === null) return;
    this.setScale(panBy(this.scale, byCss, this.scene.model.limits));
  }

  /** Puts "now" a tenth of the way across. */
  goToNow(): void {
    if (this.scene === null) return;
    this.pan(toPx(this.scale, this.scene.nowMin) - this.scale.widthCss / 10);
  }

  /** Moves the view, if it must, so that `span` is on screen. */
  reveal(span: Interval): void {
    if (this.scene === null) return;
    const scale = reveal(this.scale, span, this.scene.model.limits);
    if (scale !== this.scale) this.setScale(scale);
  }

  leftMin(): Minute {
    return this.scale.leftMin;
  }

  minuteAt(x: number): Minute {
    return toMinute(this.scale, x);
  }

  /** What is seen of the rows. */
  size(): { readonly width: number; readonly height: number } | null {
    return this.scene === null ? null : { width: this.scene.widthCss, height: this.scene.heightCss };
  }

  /** The row at a height of what is seen, or null. */
  rowAt(y: number): number | null {
    return this.scene === null ? null : rowAt(this.scene.places, y + this.topCss);
  }

  hitAt({ x, y }: Point): Selection | null {
    const layout = this.layoutNow();
    return layout === null ? null : hitAt(layout, x, y);
  }

  runAt({ x, y }: Point): string | null {
    const layout = this.layoutNow();
    return layout === null ? null : runAt(layout, x, y);
  }

  setHover(hover: Selection | null): void {
    this.hover = hover;
    this.frames.request(this.draw);
  }

  /** Shows a run as carried; null puts it down. */
  setCarried(carried: Shown | null): void {
    this.carried = carried;
    this.frames.request(this.draw);
  }

  /** Where the run that is carried is drawn. */
  ghost(): GhostBox | null {
    const { scene, carried } = this;
    if (scene === null || carried === null) return null;
    return ghostBox(scene.model, this.view(scene), carried, this.sheets.measure);
  }

  /** Before the next drawing at most once, whatever asks for it. */
  inFrame(act: () => void): void {
    this.frames.request(act);
  }

  dispose(): void {
    this.frames.stop();
    this.sheets.dispose();
  }

  private setScale(scale: Scale, fit: Fit | null = null): void {
    this.scale = scale;
    if (fit !== this.fitted) {
      this.fitted = fit;
      this.ears.fitted(fit);
    }
    this.redraw();
  }

  /** Zooming with the keyboard keeps the selection in place, or else the middle. */
  private centreCss(): number {
    const { scene } = this;
    const item = scene?.selection == null ? null : findItem(scene.model, scene.selection);
    const extent = item === null ? null : extentOf(item);
    const x = extent === null ? -1 : toPx(this.scale, (extent.start + extent.end) / 2);
    return x >= 0 && x <= this.scale.widthCss ? x : this.scale.widthCss / 2;
  }

  private redraw(): void {
    this.isBaseDue = true;
    this.frames.request(this.draw);
  }

  /** The overlay lies over what the bars show, so it is always drawn after them. */
  private readonly draw = (): void => {
    const { scene } = this;
    if (scene === null) return;
    if (this.isStripDue) this.drawStrip(scene);
    this.isStripDue = false;
    if (this.isBaseDue) this.drawBase(scene);
    this.isBaseDue = false;
    if (this.drawn !== null) this.drawOverlay(scene, this.drawn);
  };

  private drawStrip({ model, strip, widthCss, nowMin }: Scene): void {
    const brush = this.sheets.brush('strip', widthCss, STRIP_CSS);
    if (brush !== null) paintStrip(brush, strip, model.clock, model.limits, nowMin);
  }

  private drawBase(scene: Scene): void {
    const { sheets } = this;
    const view = this.view(scene);
    this.drawn = layoutBars(scene.model, view, sheets.measure);
    this.ears.viewed(spanOf(this.scale));
    const grid = sheets.brush('grid', scene.widthCss, scene.heightCss);
    const bars = sheets.brush('bars', scene.widthCss, scene.heightCss);
    const axis = sheets.brush('axis', scene.widthCss, AXIS_CSS);
    if (grid === null || bars === null || axis === null) return;
    const nowLabel = `now ${clockText(scene.model.clock, scene.nowMin)}`;
    const axisLayout = layoutAxis(scene.model, this.scale, scene.nowMin, nowLabel, view.dpr, sheets.measure);
    paintGrid(grid, this.drawn, axisLayout);
    paintBars(bars, this.drawn);
    paintAxis(axis, axisLayout);
  }

  private drawOverlay(scene: Scene, drawn: Layout): void {
    const brush = this.sheets.brush('overlay', scene.widthCss, scene.heightCss);
    if (brush === null) return;
    const { model, due } = scene;
    const view = this.view(scene);
    const snap = (minute: Minute): number => Math.round(toPx(this.scale, minute) * view.dpr) / view.dpr;
    const placed = (selection: Selection | null): Placed | null =>
      selection === null ? null : { selection, place: placeOf(model, selection) };
    paintOverlay(brush, {
      ...outlinesOf(drawn, placed(scene.selection), placed(this.hover)),
      due: due === null ? null : { x: snap(minuteOf(model.clock, due.local)), text: due.text },
      nowX: snap(scene.nowMin),
      dimmed: this.carried === null ? [] : dimmedRows(model, view, this.carried.able),
      ghost: this.ghost(),
    });
  }

  private layoutNow(): Layout | null {
    if (this.drawn !== null || this.scene === null) return this.drawn;
    return layoutBars(this.scene.model, this.view(this.scene), this.sheets.measure);
  }

  private view({ places, heightCss, nowMin }: Scene): View {
    return { scale: this.scale, nowMin, places, topCss: this.topCss, heightCss, dpr: dpr() };
  }
}
