import { clockText, type Minute, minuteOf } from '../../core/time';
import { type AxisLayout, layoutAxis } from './axis-layout';
import { type Fit, fitSpan } from './fit';
import { FrameLoop } from './frame-loop';
import { hitAt } from './hit';
import type { Measure } from './label';
import { type Layout, layoutBars } from './layout';
import { AXIS_CSS, heightOf, type Metrics } from './metrics';
import { extentOf, findItem, type TimelineModel } from './model';
import { overlayOf, paintOverlay } from './overlay';
import { type Brush, barFont, paintBars } from './paint';
import { paintAxis } from './paint-axis';
import { type Palette, readPalette } from './palette';
import { makePatterns, type Patterns } from './patterns';
import { fitTo, panBy, reveal, type Scale, spanOf, toPx, zoomAt } from './scale';
import type { Selection } from './selection';

interface SurfaceCanvases {
  readonly axis: HTMLCanvasElement;
  readonly base: HTMLCanvasElement;
  readonly overlay: HTMLCanvasElement;
}

/** What is drawn, as the screen sets it. */
interface Scene {
  readonly model: TimelineModel;
  readonly metrics: Metrics;
  readonly widthCss: number;
  readonly nowMin: Minute;
  readonly selection: Selection | null;
  /** Local due time of the selected run's job. */
  readonly due: { readonly local: string; readonly text: string } | null;
}

/** The drawn timeline: three canvases and the scale over them. No React in it; where a canvas cannot draw, nothing is drawn. */
export class Surface {
  private readonly frames = new FrameLoop();
  private palette: Palette;
  private patterns: Patterns | null = null;
  private patternDpr = 0;
  private scene: Scene | null = null;
  private scale: Scale = { leftMin: 0, cssPerMin: 1, widthCss: 1 };
  private fitted: Fit | null = 'tonight';
  private hover: Selection | null = null;
  private drawn: Layout | null = null;
  private isBaseDue = false;
  private readonly widths = new Map<string, number>();

  constructor(
    private readonly canvases: SurfaceCanvases,
    /** Told whenever the view comes to be, or stops being, one of the fits. */
    private readonly onFit: (fit: Fit | null) => void,
  ) {
    this.palette = readPalette(canvases.base);
  }

  setScene(scene: Scene): void {
    const before = this.scene;
    this.scene = scene;
    const moved = before !== null && before.model.clock.origin !== scene.model.clock.origin;
    const resized = before?.widthCss !== scene.widthCss;
    if (this.fitted !== null) this.scale = fitTo(fitSpan(scene.model, this.fitted), scene.widthCss);
    else if (moved) this.fit('tonight');
    else if (resized) this.scale = fitTo(spanOf(this.scale), scene.widthCss);
    this.redraw();
  }

  retheme(): void {
    this.palette = readPalette(this.canvases.base);
    this.patterns = null;
    this.widths.clear();
    this.redraw();
  }

  fit(fit: Fit): void {
    if (this.scene === null) return;
    this.scale = fitTo(fitSpan(this.scene.model, fit), this.scene.widthCss);
    this.setFitted(fit);
    this.redraw();
  }

  zoom(factor: number, atCss: number | null = null): void {
    if (this.scene === null) return;
    this.scale = zoomAt(this.scale, atCss ?? this.centreCss(), factor, this.scene.model.limits);
    this.setFitted(null);
    this.redraw();
  }

  pan(byCss: number): void {
    if (this.scene === null) return;
    this.scale = panBy(this.scale, byCss, this.scene.model.limits);
    this.setFitted(null);
    this.redraw();
  }

  /** Puts "now" a tenth of the way across. */
  goToNow(): void {
    if (this.scene === null) return;
    this.pan(toPx(this.scale, this.scene.nowMin) - this.scale.widthCss / 10);
  }

  /** Moves the view, if it must, so that the selection is on screen; returns the row it is in. */
  reveal(selection: Selection): number | null {
    if (this.scene === null) return null;
    const found = findItem(this.scene.model, selection);
    if (found === null) return null;
    const scale = reveal(this.scale, extentOf(found.item), this.scene.model.limits);
    if (scale !== this.scale) {
      this.scale = scale;
      this.setFitted(null);
      this.redraw();
    }
    return found.row;
  }

  leftMin(): Minute {
    return this.scale.leftMin;
  }

  hitAt(x: number, y: number): Selection | null {
    const layout = this.drawn ?? this.layout();
    return layout === null ? null : hitAt(layout, x, y);
  }

  setHover(hover: Selection | null): void {
    this.hover = hover;
    this.frames.request(this.draw);
  }

  dispose(): void {
    this.frames.stop();
  }

  private setFitted(fit: Fit | null): void {
    if (fit === this.fitted) return;
    this.fitted = fit;
    this.onFit(fit);
  }

  /** Zooming with the keyboard keeps the selection in place, or else the middle. */
  private centreCss(): number {
    const { scene } = this;
    const found = scene?.selection == null ? null : findItem(scene.model, scene.selection);
    const x = found === null ? -1 : toPx(this.scale, (found.item.start + found.item.end) / 2);
    return x >= 0 && x <= this.scale.widthCss ? x : this.scale.widthCss / 2;
  }

  private redraw(): void {
    this.isBaseDue = true;
    this.frames.request(this.draw);
  }

  /** The overlay lies over what the base shows, so it is always drawn after it. */
  private readonly draw = (): void => {
    if (this.isBaseDue) this.drawBase();
    this.isBaseDue = false;
    this.drawOverlay();
  };

  private drawBase(): void {
    const { scene } = this;
    this.drawn = this.layout();
    if (scene === null || this.drawn === null) return;
    const height = this.heightCss(scene);
    const base = this.brush(this.canvases.base, height);
    const axisBrush = this.brush(this.canvases.axis, AXIS_CSS);
    if (base === null || axisBrush === null) return;
    const axis = this.axis(scene, base.ctx);
    paintBars(base, this.drawn, axis);
    paintAxis(axisBrush, axis);
  }

  private drawOverlay(): void {
    const { scene, drawn } = this;
    if (scene === null || drawn === null) return;
    const brush = this.brush(this.canvases.overlay, this.heightCss(scene));
    if (brush === null) return;
    const nowX = this.snap(scene.nowMin);
    const due =
      scene.due === null ? null : { x: this.snap(minuteOf(scene.model.clock, scene.due.local)), text: scene.due.text };
    paintOverlay(brush, overlayOf(drawn, scene.selection, this.hover, due, nowX));
  }

  private layout(): Layout | null {
    const { scene } = this;
    if (scene === null) return null;
    const ctx = this.canvases.base.getContext('2d');
    return layoutBars(scene.model, this.scale, scene.nowMin, scene.metrics, dpr(), this.measure(ctx));
  }

  private axis(scene: Scene, ctx: CanvasRenderingContext2D): AxisLayout {
    const label = `now ${clockText(scene.model.clock, scene.nowMin)}`;
    return layoutAxis(scene.model, this.scale, scene.nowMin, label, dpr(), this.measure(ctx));
  }

  private snap(minute: Minute): number {
    return Math.round(toPx(this.scale, minute) * dpr()) / dpr();
  }

  private heightCss(scene: Scene): number {
    return heightOf(scene.metrics, scene.model.machines.length, scene.model.people.length);
  }

  /** Widths are kept: measuring text is the dearest part of a frame. */
  private measure(ctx: CanvasRenderingContext2D | null): Measure {
    return (text) => {
      const known = this.widths.get(text);
      if (known !== undefined || ctx === null) return known ?? text.length * 7;
      ctx.font = barFont(this.palette);
      const width = ctx.measureText(text).width;
      this.widths.set(text, width);
      return width;
    };
  }

  /** A canvas at the display's own density, so that text and hairlines are crisp. */
  private brush(canvas: HTMLCanvasElement, heightCss: number): Brush | null {
    const ctx = canvas.getContext('2d');
    if (ctx === null) return null;
    const density = dpr();
    const [width, height] = [Math.round(this.scale.widthCss * density), Math.round(heightCss * density)];
    if (canvas.width !== width || canvas.height !== height) {
      canvas.width = width;
      canvas.height = height;
      canvas.style.width = `${this.scale.widthCss}px`;
      canvas.style.height = `${heightCss}px`;
    }
    ctx.setTransform(density, 0, 0, density, 0, 0);
    if (this.patterns === null || this.patternDpr !== density) {
      this.patterns = makePatterns(this.palette, density);
      this.patternDpr = density;
    }
    return { ctx, palette: this.palette, patterns: this.patterns, widthCss: this.scale.widthCss, heightCss };
  }
}

function dpr(): number {
  return window.devicePixelRatio || 1;
}
