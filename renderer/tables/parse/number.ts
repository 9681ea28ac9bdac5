import { type Parse, puzzled, understood } from './parsed';

/** A whole number from `least` up. */
export function parseWhole(least: number): Parse<number> {
  return (text) => {
    const typed = text.trim();
    const value = Number(typed);
    if (/^\d+$/.test(typed) && value >= least) return understood(value);
    return puzzled(`"${typed}" does not fit here. Type a whole number, ${least} or more.`);
  };
}

/** A number from 0 up; decimal point or comma. */
export const parseAmount: Parse<number> = (text) => {
  const typed = text.trim();
  if (/^\d+([.,]\d+)?$/.test(typed)) return understood(Number(typed.replace(',', '.')));
  return puzzled(`"${typed}" does not fit here. Type a number, 0 or more.`);
};

/** Like {@link parseWhole} from 1 up, where nothing typed means no limit. */
export const parseOptionalWhole: Parse<number | null> = (text) =>
  text.trim() === '' ? understood(null) : parseWhole(1)(text);

const TABLE_WORDS = ['table', '0'];
const UNLIMITED_WORDS = ['no limit', 'unlimited', 'any'];

/** Pallet places of a machine: a number, `table` for none, `no limit` for null. */
export const parsePlaces: Parse<number | null> = (text) => {
  const typed = text.trim().toLowerCase();
  if (TABLE_WORDS.includes(typed)) return understood(0);
  if (UNLIMITED_WORDS.includes(typed)) return understood(null);
  if (/^\d+$/.test(typed)) return understood(Number(typed));
  return puzzled(
    `"${text.trim()}" does not fit here. Type how many pallets it holds, "table" if it is loaded on the table, or "no limit".`,
  );
};

export function showPlaces(places: number | null): string {
  if (places === null) return 'no limit';
  return places === 0 ? 'table' : String(places);
}
