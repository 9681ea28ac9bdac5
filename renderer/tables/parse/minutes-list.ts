import { parseLength } from './length';
import { type Parse, puzzled, understood } from './parsed';

/** Lengths in their order, in whole minutes: `150, 240`; nothing typed is none. */
export const parseMinutesList: Parse<number[]> = (text) => {
  const lengths = text
    .split(/[\s,;]+/)
    .filter((part) => part !== '')
    .map((part) => ({ part, parsed: parseLength(part) }));
  const minutes = lengths.flatMap(({ parsed }) => (parsed.ok ? [parsed.value] : []));
  const wrong = lengths.find(({ parsed }) => !parsed.ok);
  if (wrong === undefined) return understood(minutes);
  return puzzled(`"${wrong.part}" is no number of minutes. Type the minutes left in each tool in order, as 150, 240.`);
};

export function showMinutesList(minutes: readonly number[]): string {
  return minutes.join(', ');
}
