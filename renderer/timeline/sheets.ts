import type { Measure } from './label';
import { type Brush, barFont } from './paint/brush';
import { type Palette, readPalette } from './paint/palette';
import { makePatterns, type Patterns } from './paint/patterns';

/** From below: the ground with its lines, the bars, what comes and goes; apart, the axis and the strip over the rows. */
const LAYERS = ['grid', 'bars', 'overlay'] as const;
type SheetName = (typeof LAYERS)[number] | 'axis' | 'strip';

/** Where the canvases go. */
export interface SheetHosts {
  readonly axis: HTMLElement;
  readonly strip: HTMLElement;
  /** What is seen of the rows. */
  readonly rows: HTMLElement;
}

/** The canvases, each for what changes together, with what is needed to paint on them at the display's own density. */
export class Sheets {
  private readonly canvases: Readonly<Record<SheetName, HTMLCanvasElement>>;
  private palette: Palette;
  private patterns: Patterns | null = null;
  private patternDpr = 0;
  private readonly widths = new Map<string, number>();

  constructor(hosts: SheetHosts) {
    const sheet = (name: SheetName, host: HTMLElement): HTMLCanvasElement => {
      const canvas = document.createElement('canvas');
      canvas.dataset.layer = name;
      host.append(canvas);
      return canvas;
    };
    const [grid, bars, overlay] = LAYERS.map((name) => sheet(name, hosts.rows));
    const [axis, strip] = [sheet('axis', hosts.axis), sheet('strip', hosts.strip)];
    this.canvases = { axis, strip, grid: grid!, bars: bars!, overlay: overlay! };
    this.palette = readPalette(hosts.rows);
  }

  dispose(): void {
    for (const canvas of Object.values(this.canvases)) canvas.remove();
  }

  retheme(): void {
    this.palette = readPalette(this.canvases.bars);
    this.patterns = null;
    this.widths.clear();
  }

  /** Widths are kept: measuring text is the dearest part of a frame. */
  readonly measure: Measure = (text) => {
    const known = this.widths.get(text);
    if (known !== undefined) return known;
    const ctx = this.canvases.bars.getContext('2d');
    if (ctx === null) return text.length * 7;
    ctx.font = barFont(this.palette);
    const width = ctx.measureText(text).width;
    this.widths.set(text, width);
    return width;
  };

  /** Null where a canvas cannot draw. */
  brush(name: SheetName, widthCss: number, heightCss: number): Brush | null {
    const canvas = this.canvases[name];
    const ctx = canvas.getContext('2d');
    if (ctx === null) return null;
    const density = dpr();
    const [width, height] = [Math.round(widthCss * density), Math.round(heightCss * density)];
    if (canvas.width !== width || canvas.height !== height) {
      canvas.width = width;
      canvas.height = height;
      canvas.style.width = `${widthCss}px`;
      canvas.style.height = `${heightCss}px`;
    }
    ctx.setTransform(density, 0, 0, density, 0, 0);
    if (this.patterns === null || this.patternDpr !== density) {
      this.patterns = makePatterns(this.palette, density);
      this.patternDpr = density;
    }
    return { ctx, palette: this.palette, patterns: this.patterns, widthCss, heightCss };
  }
}

/** Pixels of the display in one of the page. */
export function dpr(): number {
  return window.devicePixelRatio || 1;
}
