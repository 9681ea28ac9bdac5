import { lengthText } from '../time';
import type { PersonTime, Visit, Walk } from './attendance';
import type { Context } from './context';
import { clip, covers, groupBy, isEmpty, successions } from './sweep';
import { type Finding, finding } from './verdict';
import { at, nameOf } from './words';

/** Rule 2: one attendance at a time, in hours, outside breaks, with the skill, and with time to walk. */
export function checkPeople(
  ctx: Context,
  visits: readonly Visit[],
  walk: Walk,
  times: ReadonlyMap<string, PersonTime>,
): Finding[] {
  return [...groupBy(visits, (visit) => visit.person)].flatMap(([person, own]) => [
    ...own.flatMap((visit) => checkVisit(ctx, visit, times.get(person))),
    ...checkOrder(ctx, own, walk),
  ]);
}

function checkVisit(ctx: Context, visit: Visit, time: PersonTime | undefined): Finding[] {
  const person = ctx.people.get(visit.person);
  const { does, skill } = visit;
  const runs = [...visit.runs];
  const excuse = excuseFor(visit);
  if (person === undefined || time === undefined) {
    return [finding(2, 'unknown-person', runs, `${visit.person}, who ${does}, is nobody of the shop.`)];
  }
  const found: Finding[] = [];
  if (skill !== '' && !person.skills.includes(skill)) {
    found.push(finding(2, 'skill', runs, `${nameOf(person)} ${does} and has not the skill "${skill}".`, excuse));
  }
  const span = clip(visit, ctx.ahead);
  if (isEmpty(span) || covers(time.free, span)) return found;
  const when = `from ${at(ctx.clock, span.start)} to ${at(ctx.clock, span.end)}`;
  return covers(time.present, span)
    ? [...found, finding(2, 'person-break', runs, `${nameOf(person)} ${does} ${when}, in a break.`, excuse)]
    : [...found, finding(2, 'person-hours', runs, `${nameOf(person)} ${does} ${when}, outside their hours.`, excuse)];
}

/** The floor holds no attendance to tools: it could always be put elsewhere. */
function excuseFor(...visits: readonly Visit[]): Finding['excuse'] {
  return visits.some((visit) => visit.role === 'care') ? 'none' : 'held';
}

function checkOrder(ctx: Context, visits: readonly Visit[], walk: Walk): Finding[] {
  // What was attended to before `now` has happened; only its rest is planned.
  const ahead = visits.map((visit) => ({ ...visit, start: Math.max(visit.start, ctx.now) }));
  return successions(ahead).flatMap(([before, after]) => {
    const minutes = walk(before.spot, after.spot);
    const between = after.start - before.end;
    if (between >= minutes) return [];
    const runs = [...before.runs, ...after.runs];
    const excuse = excuseFor(before, after);
    const person = ctx.people.get(after.person);
    const who = person === undefined ? after.person : nameOf(person);
    const first = `${who} ${before.does} until ${at(ctx.clock, before.end)}`;
    const second = `${after.does} from ${at(ctx.clock, after.start)}`;
    return between < 0
      ? [finding(2, 'person-overlap', runs, `${first} and ${second}.`, excuse)]
      : [finding(2, 'walk', runs, `${first} and ${second}; the walk takes ${lengthText(minutes)}.`, excuse)];
  });
}
