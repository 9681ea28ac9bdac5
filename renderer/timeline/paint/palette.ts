import type { MachineKind } from '../rows/row';

/** The look's colours and type as a canvas needs them: the tokens' values, read and never invented. */
export interface Palette {
  readonly ground: string;
  readonly panel: string;
  readonly raised: string;
  readonly line: string;
  readonly lineStrong: string;
  readonly ink: string;
  readonly inkSoft: string;
  readonly inkFaint: string;
  readonly accent: string;
  readonly bad: string;
  readonly focus: string;
  readonly attended: string;
  readonly unattended: string;
  readonly bars: Readonly<Record<MachineKind, string>>;
  readonly barInk: string;
  readonly font: string;
}

export function readPalette(element: Element): Palette {
  const style = getComputedStyle(element);
  const token = (name: string): string => style.getPropertyValue(name).trim();
  return {
    ground: token('--ground'),
    panel: token('--panel'),
    raised: token('--raised'),
    line: token('--line'),
    lineStrong: token('--line-strong'),
    ink: token('--ink'),
    inkSoft: token('--ink-soft'),
    inkFaint: token('--ink-faint'),
    accent: token('--accent'),
    bad: token('--bad'),
    focus: token('--focus'),
    attended: token('--attended'),
    unattended: token('--unattended'),
    bars: {
      mill: token('--bar-mill'),
      grind: token('--bar-grind'),
      'mill-grind': token('--bar-mill-grind'),
      bench: token('--bar-bench'),
    },
    barInk: token('--bar-ink'),
    font: token('--font') || 'sans-serif',
  };
}

/** Calls `changed` whenever the theme may have changed; returns how to stop. */
export function watchTheme(changed: () => void): () => void {
  const dark = window.matchMedia('(prefers-color-scheme: dark)');
  dark.addEventListener('change', changed);
  const observer = new MutationObserver(changed);
  observer.observe(document.documentElement, { attributes: true });
  return () => {
    dark.removeEventListener('change', changed);
    observer.disconnect();
  };
}
