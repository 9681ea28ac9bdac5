import { type Parse, puzzled, understood } from './parsed';

/** Text as typed, without space at its ends. */
export const parseText: Parse<string> = (text) => understood(text.trim());

/** A short name that rows are known by. */
export const parseId: Parse<string> = (text) => {
  const typed = text.trim();
  if (typed === '') return puzzled('Needs a short name; it is what other rows call it by.');
  if (typed.includes('/')) return puzzled('Must not contain "/", which separates job, operation and run.');
  return understood(typed);
};

/** Like {@link parseId}, where nothing typed means none. */
export const parseOptionalId: Parse<string | null> = (text) => (text.trim() === '' ? understood(null) : parseId(text));

/** Words separated by commas, each once. */
export const parseWords: Parse<string[]> = (text) =>
  understood([
    ...new Set(
      text
        .split(',')
        .map((word) => word.trim())
        .filter((word) => word !== ''),
    ),
  ]);

export function showWords(words: readonly string[]): string {
  return words.join(', ');
}
