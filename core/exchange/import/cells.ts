import { clockTimeFrom, isLocalTime, lengthFrom } from '../../time';
import { type Cell, type CellRead, jsonIn, means, quoted, type Reading, shortOrJson, unclear } from './cell';

/** The word for an empty list or no value: an empty cell only leaves what is there. */
const NONE = 'none';

/** A text as it stands, or as JSON where it would not come back so. */
export function readText(text: string): string {
  const json = text.startsWith('"') ? jsonIn(text) : undefined;
  return typeof json === 'string' ? json : text;
}

export const textCell: Cell<string> = {
  read: (text) => means(readText(text)),
  write: (value) => (value === '' ? '' : shortOrJson(value, value, (text) => means(readText(text)))),
};

/** A text or, by the word, none. */
export const optionalTextCell: Cell<string | null> = {
  read: readOptionalText,
  write: (value) => (value === null ? '' : shortOrJson(value, value, readOptionalText)),
};

function readOptionalText(text: string): CellRead<string | null> {
  return text.toLowerCase() === NONE ? means(null) : means(readText(text));
}

/** Whole minutes; hours and minutes are read too. */
export const minutesCell: Cell<number> = {
  read(text) {
    const minutes = lengthFrom(text);
    if (minutes !== null) return means(minutes);
    return unclear(`${quoted(text)} is not a length of time; write minutes as 105, or hours and minutes as 1:45`);
  },
  write: String,
};

export const wholeCell: Cell<number> = {
  read(text) {
    const whole = /^\d+(?:[.,]0+)?$/.test(text) && !/^[1-9]\d{0,2}[.,]000$/.test(text);
    return whole
      ? means(Number.parseInt(text, 10))
      : unclear(`${quoted(text)} is not a whole number; write it as 1200`);
  },
  write: String,
};

const NUMBER = /^\d+(?:[.,]\d+)?(?:e[+-]?\d+)?$/i;
/** `1,500`: one and a half to some, fifteen hundred to others. A point is always a decimal point, as we write it. */
const AMBIGUOUS = /^[1-9]\d{0,2},\d{3}$/;

function numberFrom(text: string): CellRead<number> {
  if (AMBIGUOUS.test(text)) {
    const [plain, decimal] = [text.replace(',', ''), text.replace(',', '.')];
    return unclear(`${quoted(text)} can mean ${plain} or ${decimal}; write it as one of these`);
  }
  return NUMBER.test(text)
    ? means(Number(text.replace(',', '.')))
    : unclear(`${quoted(text)} is not a number; write it as 1.5 or 1,5`);
}

/** A number from 0 up, with decimal point or comma. */
export const amountCell: Cell<number> = { read: numberFrom, write: String };

/** A share or chance: `0.8`, `0,8` or `80 %`. */
export const shareCell: Cell<number> = {
  read(text) {
    const percent = /^(.*?)\s*%$/.exec(text);
    const number = numberFrom(percent?.[1] ?? text);
    if (!number.ok) return unclear(`${quoted(text)} is not a share; write it as 0.8 or 80 %`);
    if (percent !== null) return means(Number((number.value / 100).toPrecision(12)));
    if (number.value <= 1) return number;
    return unclear(`${quoted(text)} is more than all; write it as 0.8 or 80 %`);
  },
  write: String,
};

const YES = ['true', 'yes', 'y', 'x', '1'];
const NO = ['false', 'no', 'n', '0', '-'];

export const tickCell: Cell<boolean> = {
  read(text) {
    const word = text.toLowerCase();
    if (YES.includes(word)) return means(true);
    return NO.includes(word) ? means(false) : unclear(`${quoted(text)} is neither yes nor no; write yes or no`);
  },
  write: (value) => (value ? 'yes' : 'no'),
};

/** Pallet places: `table` is 0, `no limit` is null. */
export const placesCell: Cell<number | null> = {
  read(text, reading) {
    const word = text.toLowerCase();
    if (word === 'table') return means(0);
    if (word === 'no limit') return means(null);
    const whole = wholeCell.read(text, reading);
    return whole.ok ? whole : unclear(`${quoted(text)} is not a number of places; write 4, table or no limit`);
  },
  write: (value) => (value === null ? 'no limit' : String(value)),
};

/** A number or, by the word, none. */
export function optionalCell<V>(cell: Cell<V>): Cell<V | null> {
  return {
    read: (text, reading) => (text.toLowerCase() === NONE ? means(null) : cell.read(text, reading)),
    write: (value) => (value === null ? '' : cell.write(value)),
  };
}

export const clockCell: Cell<string> = {
  read(text) {
    const time = clockTimeFrom(text.replace(/^(\d{1,2}:\d{2}):00$/, '$1'));
    return time === null ? unclear(`${quoted(text)} is not a time of day; write it as 06:00 or 22:30`) : means(time);
  },
  write: (value) => value,
};

const ISO = /^(\d{4})-(\d{1,2})-(\d{1,2})(?:(?:T|\s+)(\S+))?$/;
const DOTTED = /^(\d{1,2})\.(\d{1,2})\.(\d{4})(?:\s+(\S+))?$/;
const HOW = 'write it as 2026-11-27 16:00 or 27.11.2026 16:00';

/** A local time; a date alone is at the reading's time of day. */
export const momentCell: Cell<string> = {
  read(text, reading) {
    if (/^\d{1,4}\/\d/.test(text)) {
      return unclear(`${quoted(text)} means other days in other countries; ${HOW}`);
    }
    const [iso, dotted] = [ISO.exec(text), DOTTED.exec(text)];
    const [year, month, day, time] =
      iso !== null ? iso.slice(1) : dotted !== null ? [dotted[3], dotted[2], dotted[1], dotted[4]] : [];
    if (year === undefined || month === undefined || day === undefined) {
      return unclear(`${quoted(text)} is not a date and time; ${HOW}`);
    }
    if (time === undefined) reading.timeless += 1;
    const clock = time === undefined ? means(reading.timeOfDay) : clockCell.read(time, reading);
    if (!clock.ok) return clock;
    const local = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}T${clock.value}`;
    return isLocalTime(local) ? means(local) : unclear(`there is no day ${quoted(text)}; ${HOW}`);
  },
  write: (value) => value.replace('T', ' '),
};

/** A date; a time of day after it means nothing here. */
export const dateCell: Cell<string> = {
  read(text, reading) {
    const moment = momentCell.read(text, { ...reading });
    return moment.ok ? means(moment.value.slice(0, 10)) : moment;
  },
  write: (value) => value,
};

/** One of a few words; spaces and capitals do not matter. */
export function wordCell<W extends string>(words: readonly W[]): Cell<W> {
  const bare = (text: string): string => text.toLowerCase().replace(/ and |[\s_-]/g, '');
  return {
    read(text) {
      const word = words.find((one) => bare(one) === bare(text));
      return word === undefined
        ? unclear(`${quoted(text)} is not one of ${words.join(', ')}; write one of these`)
        : means(word);
    },
    write: (value) => value,
  };
}

/** A list in one cell, its items parted by `;`; one that cannot be parted so is JSON. */
export function listCell<V>(item: Cell<V>, parts: RegExp = /;/): Cell<V[]> {
  const read = (text: string, reading: Reading): CellRead<V[]> => {
    if (text.toLowerCase() === NONE) return means([]);
    if (text.startsWith('[')) {
      const json = jsonIn(text);
      if (Array.isArray(json)) return means(json as V[]);
    }
    const items = text
      .split(parts)
      .map((part) => part.trim())
      .filter((part) => part !== '')
      .map((part) => item.read(part, reading));
    const wrong = items.find((one) => !one.ok);
    if (wrong !== undefined && !wrong.ok) return unclear(wrong.say);
    return means(items.flatMap((one) => (one.ok ? [one.value] : [])));
  };
  const alone: Reading = { timeOfDay: '00:00', timeless: 0 };
  return {
    read,
    write: (values) =>
      values.length === 0
        ? ''
        : shortOrJson(values, values.map((value) => item.write(value)).join('; '), (text) => read(text, alone)),
  };
}

/** Names, parted by `;` or `,`. */
export const namesCell: Cell<string[]> = listCell(textCell, /[;,]/);

/** Names or, by the word, none; an empty list is JSON. */
export const optionalNamesCell: Cell<string[] | null> = {
  read: (text, reading) => (text.toLowerCase() === NONE ? means(null) : namesCell.read(text, reading)),
  write: (value) => (value === null ? '' : value.length === 0 ? '[]' : namesCell.write(value)),
};
