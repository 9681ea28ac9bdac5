import { accept, type Result, refuse } from '../shop';

/** A line of numbers; lines are counted from 1, as editors do. */
export interface NumberLine {
  readonly line: number;
  readonly numbers: readonly number[];
}

const NUMBER = /^[+-]?(\d+(\.\d*)?|\.\d+)$/;

/** The lines of numbers in a text. Comments and blank lines are skipped, so is any text before the first number. */
export function numberLines(text: string): Result<NumberLine[]> {
  const found: NumberLine[] = [];
  for (const [index, raw] of text.split(/\r\n|\r|\n/).entries()) {
    const words = raw
      .replace(/^\uFEFF/, '')
      .replace(/(#|;|%|\/\/).*$/, '')
      .split(/[\s,]+/)
      .filter((word) => word !== '');
    const first = words[0];
    if (first === undefined || (found.length === 0 && !/^[+\-.\d]*\d/.test(first))) continue;
    const odd = words.find((word) => !NUMBER.test(word));
    if (odd !== undefined) {
      const say = `Job-shop file, line ${index + 1}: ${JSON.stringify(odd.slice(0, 20))} is not a number. Correct it, or begin the line with # if it is a remark.`;
      return refuse({ code: 'bad-job-shop', at: [index + 1], say, level: 'error' });
    }
    found.push({ line: index + 1, numbers: words.map(Number) });
  }
  return accept(found);
}
