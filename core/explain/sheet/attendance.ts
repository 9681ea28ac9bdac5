import type { PersonReport, Round, SheetRound, SheetStop, Stop } from '../../contract';
import { personName } from '../../measure';
import type { Shop } from '../../shop';
import { type SheetSpan, timeOn, timeText } from './span';

/** Who is in the shop until it is left alone: `Jana until 14:00`, `Tomas 14:00 to 22:00`. In order of going. */
export function peopleOn(shop: Shop, people: readonly PersonReport[], span: SheetSpan): string[] {
  const until = span.alone?.start ?? span.end;
  return people
    .flatMap(({ person, present }) =>
      present
        .filter((one) => one.start < until && one.end > span.start)
        .map((one) => ({ ...one, name: personName(shop, person) })),
    )
    .sort((a, b) => a.end - b.end)
    .map(({ name, start, end }) => {
      const to = timeText(timeOn(span, end));
      return start <= span.start ? `${name} until ${to}` : `${name} ${timeText(timeOn(span, start))} to ${to}`;
    });
}

/** The rounds that begin within the span, each cut down to its stops at these machines. */
export function roundsAt(
  shop: Shop,
  rounds: readonly Round[],
  span: SheetSpan,
  machines: ReadonlySet<string>,
): SheetRound[] {
  return rounds.flatMap(({ person, stops }) => {
    const here = stops.filter((stop) => machines.has(stop.machine) && stop.start < span.end && stop.end > span.start);
    return here.length === 0
      ? []
      : [{ person: personName(shop, person), stops: here.map((stop) => stopOf(shop, person, stop, span)) }];
  });
}

/** Tools replaced and wheels dressed at these machines within the span. */
export function careAt(
  shop: Shop,
  rounds: readonly Round[],
  span: SheetSpan,
  machines: ReadonlySet<string>,
): SheetStop[] {
  const care = rounds.map(({ stops, ...round }) => ({ ...round, stops: stops.filter(({ role }) => role === 'care') }));
  return roundsAt(shop, care, span, machines).flatMap(({ stops }) => stops);
}

function stopOf(shop: Shop, person: string, { machine, start, latest, say }: Stop, span: SheetSpan): SheetStop {
  return {
    person: personName(shop, person),
    machine,
    start: timeOn(span, start),
    latest: timeOn(span, latest),
    say,
  };
}

/** The first round from the end of the span on, and when it comes to these machines: `Tue 06:00 Jana, here from 06:12`. */
export function morningAt(
  shop: Shop,
  rounds: readonly Round[],
  span: SheetSpan,
  machines: ReadonlySet<string>,
): string | null {
  const after = rounds.filter(({ start }) => start >= span.end);
  const [first] = after;
  if (first === undefined) return null;
  const say = `${timeText(timeOn(span, first.start))} ${personName(shop, first.person)}`;
  const here = after.flatMap(({ stops }) => stops).find(({ machine }) => machines.has(machine));
  if (here === undefined) return say;
  const { day, time } = timeOn(span, here.start);
  const isSameDay = day === timeOn(span, first.start).day;
  return `${say}, here from ${isSameDay ? time : timeText({ day, time })}`;
}
