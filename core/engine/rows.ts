import { NONE, type Rows } from '../problem';

/** Row `i` lists the indices whose key is `i`, rising. */
export function rowsBy(keys: Int32Array, count: number): Rows {
  const start = new Int32Array(count + 1);
  for (const key of keys) if (key !== NONE) start[key + 1]!++;
  for (let row = 0; row < count; row++) start[row + 1]! += start[row]!;
  const next = start.slice();
  const items = new Int32Array(start[count]!);
  keys.forEach((key, index) => {
    if (key !== NONE) items[next[key]!++] = index;
  });
  return { start, items };
}
