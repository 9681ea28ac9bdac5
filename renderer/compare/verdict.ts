import type { FigureChange, FigureKey, LocalSpan, PlanComparison } from '../../core/contract';
import { countText } from '../../core/measure';
import { showMoment } from '../tables';

/** How a figure is shown, and which way it is better. */
export interface FigureWords {
  readonly label: string;
  /** `h`, or empty for a number of things. */
  readonly unit: 'h' | '';
  readonly decimals: 0 | 1;
  readonly better: 'more' | 'less';
}

/** In the order in which they make a plan better. */
export const FIGURES: Readonly<Record<FigureKey, FigureWords>> = {
  tonight: { label: 'To expect tonight, by odds', unit: 'h', decimals: 1, better: 'more' },
  loaded: { label: 'Loaded for tonight', unit: 'h', decimals: 1, better: 'more' },
  lateness: { label: 'Late, weighted', unit: 'h', decimals: 1, better: 'less' },
  lateJobs: { label: 'Jobs late', unit: '', decimals: 0, better: 'less' },
  morning: { label: 'Machines still cutting in the morning', unit: '', decimals: 0, better: 'more' },
  rounds: { label: 'Rounds', unit: '', decimals: 0, better: 'less' },
  extraHours: { label: 'By hand outside normal hours', unit: 'h', decimals: 1, better: 'less' },
  finish: { label: 'Until the last run is off', unit: 'h', decimals: 1, better: 'less' },
  total: { label: "All by the shop's weights", unit: '', decimals: 1, better: 'less' },
};

/** `other night`: hours of two nights that are not the same hours do not compare. */
export type Judgement = 'better' | 'worse' | 'same' | 'other night';

/** A figure as it is shown: what differs is the difference of the numbers that are read. */
export interface FigureRow extends FigureWords {
  readonly key: FigureKey;
  readonly before: number;
  readonly after: number;
  readonly difference: number;
  /** Of the plan after. */
  readonly judgement: Judgement;
}

export function figureRows({ figures, nights }: PlanComparison): FigureRow[] {
  return (Object.keys(FIGURES) as FigureKey[]).flatMap((key) => {
    const change = figures.find((figure) => figure.key === key);
    return change === undefined ? [] : [rowOf(change, nights)];
  });
}

function rowOf({ key, before, after }: FigureChange, nights: Nights): FigureRow {
  const words = FIGURES[key];
  const difference = differenceOf(before, after);
  const isOther = OF_THE_NIGHT.includes(key) && !sameNight(nights);
  return { ...words, key, before, after, difference, judgement: isOther ? 'other night' : judge(words, difference) };
}

/** Of the numbers as they are read, with one decimal. */
export function differenceOf(before: number, after: number): number {
  return (Math.round(after * 10) - Math.round(before * 10)) / 10;
}

function judge({ better }: FigureWords, difference: number): Judgement {
  if (difference === 0) return 'same';
  return difference > 0 === (better === 'more') ? 'better' : 'worse';
}

type Nights = PlanComparison['nights'];

function sameNight({ before, after }: Nights): boolean {
  return before?.start === after?.start && before?.end === after?.end;
}

/** Which of two plans to work by, in a few words; `winner` null: neither. */
export interface Verdict {
  readonly winner: 'before' | 'after' | null;
  readonly say: string;
}

/** Figures that count the hours of one night, and nothing of another. */
const OF_THE_NIGHT: readonly FigureKey[] = ['tonight', 'loaded', 'morning'];

/** What decides, and what is only told beside it. */
const FIRST: readonly FigureKey[] = ['lateness', 'tonight'];
const NEXT: readonly FigureKey[] = ['morning', 'rounds', 'extraHours'];

/**
 * Lateness and the hours of tonight decide; where both are the same, what comes after them. Where they disagree it is a
 * trade that people decide. `names` are those of the plans.
 */
export function verdictOf(comparison: PlanComparison, names: Readonly<Record<'before' | 'after', string>>): Verdict {
  const rows = figureRows(comparison);
  const of = (keys: readonly FigureKey[], judgement: Judgement) =>
    rows.filter((row) => keys.includes(row.key) && row.judgement === judgement);
  const isDecided = of(FIRST, 'better').length + of(FIRST, 'worse').length > 0;
  const deciding = isDecided ? FIRST : NEXT;
  const [better, worse] = [of(deciding, 'better'), of(deciding, 'worse')];
  if (better.length > 0 && worse.length > 0) {
    return { winner: null, say: `${names.after}: ${texts(better, 1)}, but ${texts(worse, 1)}` };
  }
  if (better.length + worse.length === 0) return { winner: null, say: 'Neither is better' };
  const [winner, sign] = better.length > 0 ? (['after', 1] as const) : (['before', -1] as const);
  const against = isDecided ? of(NEXT, winner === 'after' ? 'worse' : 'better') : [];
  const but = against.length === 0 ? '' : `, but ${texts(against, sign)}`;
  return { winner, say: `${names[winner]} is better: ${texts([...better, ...worse], sign)}${but}` };
}

/** Where the hours of tonight do not compare, which hours they are; null where they do. */
export function nightsText({ nights }: PlanComparison): string | null {
  if (sameNight(nights)) return null;
  return `The night is not the same: ${nightText(nights.before)} before, ${nightText(nights.after)} after. Hours cut in it do not compare.`;
}

function nightText(night: LocalSpan | null): string {
  if (night === null) return 'somebody always there';
  return `nobody there ${showMoment(night.start, night.start)} to ${night.end.slice(11)}`;
}

/** What the plan after has more or less of; with `sign` -1, what the plan before has. */
function texts(rows: readonly FigureRow[], sign: 1 | -1): string {
  return rows.map((row) => moreText(row.key, sign * row.difference)).join(', ');
}

function moreText(key: FigureKey, difference: number): string {
  const amount = Math.abs(difference);
  const more = difference > 0 ? 'more' : 'less';
  switch (key) {
    case 'lateness':
      return `${amount.toFixed(1)} weighted h ${difference > 0 ? 'later' : 'less late'}`;
    case 'tonight':
      return `${amount.toFixed(1)} h ${more} to expect tonight`;
    case 'extraHours':
      return `${amount.toFixed(1)} h ${more} by hand outside normal hours`;
    case 'morning':
      return `${countText(amount, 'machine')} ${difference > 0 ? 'more' : 'fewer'} still cutting in the morning`;
    default:
      return `${countText(amount, 'round')} ${difference > 0 ? 'more' : 'fewer'}`;
  }
}
