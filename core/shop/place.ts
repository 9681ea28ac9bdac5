/** Keys and indices from the top of a file to the thing meant. */
export type Path = readonly (string | number)[];

/** One entry of a list, in the shop's words. */
const ENTRY: Readonly<Record<string, string>> = {
  between: 'walk',
  breaks: 'break',
  cells: 'cell',
  checks: 'check',
  closures: 'closure',
  conflicts: 'conflict',
  days: 'day',
  exceptions: 'exception',
  floor: 'floor entry',
  hours: 'hours',
  jobs: 'job',
  left: 'left',
  machines: 'machine',
  magazine: 'magazine tool',
  pallets: 'pallet',
  people: 'person',
  route: 'operation',
  runs: 'run',
  shared: 'shared cause',
  shifts: 'shift',
  skills: 'skill',
  templates: 'template',
  tools: 'tool',
};

/** What an entry calls itself: the first of these fields it has. */
const NAMING = ['id', 'run', 'machine', 'tool', 'date', 'name'];

function member(value: unknown, key: string | number): unknown {
  return typeof value === 'object' && value !== null ? (value as Record<string | number, unknown>)[key] : undefined;
}

function ownName(entry: unknown): string | null {
  for (const field of NAMING) {
    const value = member(entry, field);
    if (typeof value === 'number') return String(value);
    if (typeof value === 'string' && value.trim() !== '') return value.trim().slice(0, 40);
  }
  return null;
}

/**
 * Where `path` leads in `root`, in the shop's words: `Job J-104, operation 10, fixture`. An entry goes by its id; one
 * without goes by its number counted from 1. `root` may be anything, parsed or not.
 */
export function placeOf(root: unknown, path: Path): string {
  const words: string[] = [];
  let list = '';
  let value = root;
  for (const [depth, key] of path.entries()) {
    value = member(value, key);
    if (typeof key === 'number') words.push(`${ENTRY[list] ?? list} ${ownName(value) ?? key + 1}`.trim());
    // The list itself is named by its entry, if the path goes on into one.
    else if (typeof path[depth + 1] !== 'number') words.push(key);
    list = String(key);
  }
  const place = words.join(', ');
  return place === '' ? 'The file' : place.charAt(0).toUpperCase() + place.slice(1);
}
