import { type Parse, type Parsed, puzzled, understood } from './parsed';

const PERCENT = /^(\d+(?:[.,]\d+)?)\s*%?$/;

/** Digits kept of a share, so that 14 % is 0.14 and not a hair beside it. */
const DIGITS = 12;

/** A share typed as percent, 0 to 100: `80`, `80 %`, `2,5`. */
export const parseShare: Parse<number> = (text) => {
  const share = shareOf(text);
  return share !== null && share <= 1 ? understood(share) : unfit(text, 'from 0 to 100');
};

/** A chance typed as percent, from 0 to below 100. */
export const parseChance: Parse<number> = (text) => {
  const share = shareOf(text);
  if (share === null) return unfit(text, 'from 0 to below 100');
  if (share < 1) return understood(share);
  return puzzled(`"${text.trim()}" is too much: what always fails cannot be planned. Type a percentage below 100.`);
};

function shareOf(text: string): number | null {
  const match = PERCENT.exec(text.trim());
  return match === null ? null : Number((Number((match[1] as string).replace(',', '.')) / 100).toPrecision(DIGITS));
}

function unfit(text: string, range: string): Parsed<number> {
  return puzzled(`"${text.trim()}" does not fit here. Type a percentage ${range}.`);
}

/** A share as percent without its sign; what {@link parseShare} reads back. */
export function showPercent(share: number): string {
  return String(Number((share * 100).toPrecision(DIGITS)));
}
