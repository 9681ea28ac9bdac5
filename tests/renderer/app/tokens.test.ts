import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const css = readFileSync('renderer/look/tokens.css', 'utf8');

/** The colours set in the block that this selector opens. */
function coloursOf(selector: string): Map<string, string> {
  const start = css.indexOf(`${selector} {`);
  const block = css.slice(start, css.indexOf('}', start));
  return new Map(
    [...block.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(([, name, value]) => [name as string, value as string]),
  );
}

/** Relative luminance: WCAG 2.2. */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Contrast ratio: WCAG 2.2. */
function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

const LIGHT = coloursOf(':root');
const DARK = coloursOf(':root[data-theme="dark"]');
const GROUNDS = ['ground', 'panel', 'raised', 'attended', 'unattended'];
const TEXTS = ['ink', 'ink-soft', 'ink-faint', 'accent', 'good', 'bad', 'focus'];
const BARS = ['bar-mill', 'bar-grind', 'bar-mill-grind', 'bar-bench'];

describe.each([
  ['light', LIGHT],
  ['dark', DARK],
])('%s colours', (_, colours) => {
  const of = (name: string): string => colours.get(name) as string;

  it.each(TEXTS)('%s reads on every ground (4.5:1, WCAG 2.2 AA)', (text) => {
    for (const ground of GROUNDS) {
      expect(contrast(of(text), of(ground)), `${text} on ${ground}`).toBeGreaterThanOrEqual(4.5);
    }
  });

  it.each(BARS)('text on %s reads (4.5:1, WCAG 2.2 AA)', (bar) => {
    expect(contrast(of('bar-ink'), of(bar))).toBeGreaterThanOrEqual(4.5);
  });

  it('text on what needs a hand now, on a pressed day and on the main button reads', () => {
    expect(contrast(of('accent-ink'), of('accent'))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(of('ground'), of('ink-soft'))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(of('ground'), of('ink'))).toBeGreaterThanOrEqual(4.5);
  });

  it('edges of fields and the focus stand out from every ground (3:1, WCAG 2.2 AA)', () => {
    for (const edge of ['line-strong', 'focus']) {
      for (const ground of ['ground', 'panel', 'raised']) {
        expect(contrast(of(edge), of(ground)), `${edge} on ${ground}`).toBeGreaterThanOrEqual(3);
      }
    }
  });
});

describe('the palette', () => {
  it('is the same in the dark whether the system or the seat chose it', () => {
    expect(coloursOf(':root:not([data-theme="light"])')).toEqual(DARK);
  });

  it('has every colour in light and in dark', () => {
    expect([...DARK.keys()]).toEqual([...LIGHT.keys()]);
  });
});
