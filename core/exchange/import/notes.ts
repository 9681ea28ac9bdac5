import type { Check, Machine, Operation, Person } from '../../shop';
import { WEEKDAYS, type Weekday } from '../../time';
import { type Cell, means, quoted, unclear } from './cell';
import { clockCell, listCell, minutesCell, momentCell } from './cells';

/** Short writings of what is more than one value. Each cell holds a list; what does not come back so is JSON. */

const DAY_NAMES: readonly string[] = WEEKDAYS;

/** `mon tue wed`, `mon-fri`. */
function daysFrom(text: string): Weekday[] | null {
  const days = text
    .toLowerCase()
    .split(/[\s,]+/)
    .filter((word) => word !== '')
    .flatMap((word) => {
      const [first = '', last = first, ...more] = word.split(/[-–]/).map((name) => name.slice(0, 3));
      const [from, to] = [DAY_NAMES.indexOf(first), DAY_NAMES.indexOf(last)];
      return from < 0 || to < from || more.length > 0 ? [null] : WEEKDAYS.slice(from, to + 1);
    });
  return days.length === 0 || days.includes(null) ? null : days.filter((day) => day !== null);
}

/** `mon tue wed thu fri` as `mon-fri`, where that is shorter. */
function daysText(days: readonly Weekday[]): string {
  const first = WEEKDAYS.indexOf(days[0] as Weekday);
  const isRow = days.length > 2 && days.every((day, at) => day === WEEKDAYS[first + at]);
  return isRow ? `${days[0]}-${days.at(-1)}` : days.join(' ');
}

const SPAN = /^(\S+?)\s*[-–]\s*(\S+)$/;

interface Span {
  readonly from: string;
  readonly to: string;
}

const spanCell: Cell<Span> = {
  read(text, reading) {
    const match = SPAN.exec(text);
    const from = match === null ? null : clockCell.read(match[1] as string, reading);
    const to = match === null ? null : clockCell.read(match[2] as string, reading);
    if (from?.ok && to?.ok) return means({ from: from.value, to: to.value });
    return unclear(`${quoted(text)} is not a span of time; write it as 06:00-14:00`);
  },
  write: ({ from, to }) => `${from}-${to}`,
};

/** Breaks: `09:00-09:15; 12:00-12:30`. */
export const spansCell: Cell<Span[]> = listCell(spanCell);

/** Hours of every week: `mon-fri 06:00-14:00`. */
const weeklyCell: Cell<Machine['hours'][number]> = {
  read(text, reading) {
    const match = /^(.*?)\s+([\d:.h]+\s*[-–]\s*[\d:.h]+)$/.exec(text);
    const days = daysFrom(match?.[1] ?? '');
    if (match === null || days === null) {
      return unclear(`${quoted(text)} is not hours of a week; write them as mon-fri 06:00-14:00`);
    }
    const span = spanCell.read(match[2] as string, reading);
    return span.ok ? means({ from: span.value.from, to: span.value.to, days }) : span;
  },
  write: ({ days, from, to }) => `${daysText(days)} ${from}-${to}`,
};

export const weekCell: Cell<Machine['hours']> = listCell(weeklyCell);

const EXTRA = /\s+extra$/i;

/** A person's hours, those outside normal hours marked: `mon-fri 06:00-14:00; sat 06:00-12:00 extra`. */
export const hoursCell: Cell<Person['hours']> = listCell<Person['hours'][number]>({
  read(text, reading) {
    const weekly = weeklyCell.read(text.replace(EXTRA, ''), reading);
    return weekly.ok ? means({ ...weekly.value, extra: EXTRA.test(text) }) : weekly;
  },
  write: (hours) => `${weeklyCell.write(hours)}${hours.extra ? ' extra' : ''}`,
});

/** Dates that differ: `2026-12-24 closed; 2026-12-31 06:00-12:00, 13:00-15:00`. */
export const exceptionsCell: Cell<Person['exceptions']> = listCell<Person['exceptions'][number]>({
  read(text, reading) {
    const [, date = '', rest = ''] = /^(\S+)\s+(.+)$/.exec(text) ?? [];
    if (date === '') return unclear(`${quoted(text)} says no hours; write 2026-12-24 closed or 2026-12-31 06:00-12:00`);
    const day = momentCell.read(`${date} 00:00`, reading);
    if (!day.ok) return day;
    if (rest === 'closed') return means({ date: day.value.slice(0, 10), hours: [] });
    const spans = rest.split(',').map((span) => spanCell.read(span.trim(), reading));
    const wrong = spans.find((span) => !span.ok);
    if (wrong !== undefined && !wrong.ok) return wrong;
    return means({ date: day.value.slice(0, 10), hours: spans.flatMap((span) => (span.ok ? [span.value] : [])) });
  },
  write: ({ date, hours }) => `${date} ${hours.length === 0 ? 'closed' : hours.map(spanCell.write).join(', ')}`,
});

/** Times planned off: `2026-11-27 06:00 to 2026-11-27 14:00 Spindle care`. */
export const closuresCell: Cell<Machine['closures']> = listCell<Machine['closures'][number]>({
  read(text, reading) {
    const [, start = '', end = '', why = ''] = /^(\S+ \S+) to (\S+ \S+)(?: (.*))?$/.exec(text) ?? [];
    const [from, to] = [momentCell.read(start, reading), momentCell.read(end, reading)];
    if (from.ok && to.ok) return means({ from: from.value, to: to.value, why });
    return unclear(`${quoted(text)} is not a time off; write it as 2026-11-27 06:00 to 2026-11-27 14:00 Spindle care`);
  },
  write: ({ from, to, why }) => `${momentCell.write(from)} to ${momentCell.write(to)}${why === '' ? '' : ` ${why}`}`,
});

/** A tool and, behind the slash that no name has, minutes: `EM10/40; DR08/12`. */
export const toolsCell: Cell<Operation['tools']> = listCell<Operation['tools'][number]>({
  read(text, reading) {
    const [, tool = '', length = ''] = /^([^/]+)\/(.+)$/.exec(text) ?? [];
    const minutes = minutesCell.read(length.trim(), reading);
    if (tool === '' || !minutes.ok)
      return unclear(`${quoted(text)} is not a tool with its minutes; write it as EM10/40`);
    return means({ tool: tool.trim(), minutes: minutes.value });
  },
  write: ({ tool, minutes }) => `${tool}/${minutes}`,
});

/** A tool and the minutes left in each: `EM10/90 120; DR08/300`. */
export const magazineCell: Cell<Machine['magazine']> = listCell<Machine['magazine'][number]>({
  read(text) {
    const [, tool, left = ''] = /^([^/]+)\/\s*([\d ]*)$/.exec(text) ?? [];
    if (tool === undefined)
      return unclear(`${quoted(text)} is not a tool with its minutes left; write it as EM10/90 120`);
    return means({
      tool: tool.trim(),
      left: left
        .split(' ')
        .filter((part) => part !== '')
        .map(Number),
    });
  },
  write: ({ tool, left }) => `${tool}/${left.join(' ')}`,
});

/** Features measured by the machine: `Bore 8 % 14 min 2 times`. */
export const checksCell: Cell<Check[]> = listCell<Check>({
  read(text) {
    const match = /^(?:(.*) )?(\d+(?:[.,]\d+)?) % (\d+) min (\d+) times$/.exec(text);
    if (match === null) return unclear(`${quoted(text)} is not a check; write it as Bore 8 % 14 min 2 times`);
    const [, name = '', chance = '', repeat, most] = match;
    const share = Number((Number(chance.replace(',', '.')) / 100).toPrecision(12));
    return means({ name, chance: share, repeat: Number(repeat), most: Number(most) });
  },
  write: ({ name, chance, repeat, most }) =>
    `${name === '' ? '' : `${name} `}${Number((chance * 100).toPrecision(12))} % ${repeat} min ${most} times`,
});
