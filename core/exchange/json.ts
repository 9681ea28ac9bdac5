import { accept, type Result, refuse } from '../shop';

/** How the caller calls what it reads, for the sentence: `shop file`. */
type Kind = 'shop file' | 'plan file';

/** JSON text as a value; unreadable text is refused with the line and column at which it stops making sense. */
export function readJson(text: string, kind: Kind): Result<unknown> {
  // Some editors put a byte order mark in front.
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  if (body.trim() === '') return unreadable(`This ${kind} is empty. Choose another file.`);
  try {
    return accept(JSON.parse(body) as unknown);
  } catch {
    const at = failsAt(body);
    const [line, column] = lineAndColumn(body, at);
    const place = `line ${line}, column ${column}`;
    // A number or a word may have been cut through, such as `0.` or `tru`.
    if (/^[\w.+-]*$/.test(body.trimEnd().slice(at))) {
      return unreadable(
        `This ${kind} ends in the middle, at ${place}: it was cut off. Fetch a whole copy, or restore a backup.`,
      );
    }
    const found = JSON.stringify(body.slice(at, at + 12));
    return unreadable(
      `This ${kind} cannot be read at ${place}, near ${found}: it is not JSON there. Correct that place, or choose another file.`,
    );
  }
}

function unreadable<T>(say: string): Result<T> {
  return refuse({ code: 'unreadable', at: [], say, level: 'error' });
}

/** Lines and columns are counted from 1. */
function lineAndColumn(text: string, at: number): [number, number] {
  const before = text.slice(0, at);
  const line = before.split('\n').length;
  return [line, at - (before.lastIndexOf('\n') + 1) + 1];
}

const LITERAL = /true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y;
// biome-ignore lint/suspicious/noControlCharactersInRegex: JSON (RFC 8259 section 7) forbids them inside strings.
const STRING = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[\da-fA-F]{4}))*"/y;
const SPACE = /[ \t\r\n]*/y;

/**
 * Where text that JSON.parse refuses stops being JSON (RFC 8259). JavaScript engines word their messages differently
 * and some leave the place out, so it is found here.
 */
function failsAt(text: string): number {
  let at = 0;
  const eat = (pattern: RegExp): boolean => {
    pattern.lastIndex = at;
    const match = pattern.exec(text);
    if (match === null) return false;
    at += match[0].length;
    return true;
  };
  const eatChar = (char: string): boolean => {
    eat(SPACE);
    if (text[at] !== char) return false;
    at += 1;
    return true;
  };
  const eatString = (): boolean => {
    eat(SPACE);
    if (eat(STRING)) return true;
    // A string that never closes is cut off at the end of the text, not at its first quote.
    if (text[at] === '"' && !/["\n]/.test(text.slice(at + 1))) at = text.length;
    return false;
  };
  const closers: string[] = [];
  // Stands where a value must come; walks without recursion because text may be nested deeper than the stack.
  for (;;) {
    eat(SPACE);
    if (eatChar('{')) {
      if (eatChar('}')) {
        // An empty record is a value like any other.
      } else {
        if (!eatString() || !eatChar(':')) return at;
        closers.push('}');
        continue;
      }
    } else if (eatChar('[')) {
      if (!eatChar(']')) {
        closers.push(']');
        continue;
      }
    } else if (!eatString() && (at >= text.length || !eat(LITERAL))) return at;
    // A value is complete: close what ends here, then go on after a comma.
    let next = false;
    while (!next) {
      const closer = closers.at(-1);
      if (closer === undefined) {
        eat(SPACE);
        return at;
      }
      if (eatChar(closer)) closers.pop();
      else if (!eatChar(',')) return at;
      else {
        if (closer === '}' && (!eatString() || !eatChar(':'))) return at;
        next = true;
      }
    }
  }
}

/** Two spaces deep and ending in a line break, so that files compare line by line. */
export function writeJson(value: unknown): string {
  return `${JSON.stringify(value, null, 2)}\n`;
}
