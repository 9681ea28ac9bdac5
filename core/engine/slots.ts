import { NONE, type Problem } from '../problem';
import { Attendances } from './attendances';
import { Bookings } from './bookings';
import { Occupancy } from './occupancy';

/** Later than any plan: no slot. */
export const NEVER = 0x3fffffff;

/** An attendance already chosen for the run being placed, which the person's bookings do not hold yet. */
export interface OwnAttendance {
  person: number;
  end: number;
  spot: number;
}

/** Everything a run can take from others - machines, people, pallets, places, stations - and when each is free. */
export class Slots {
  readonly machines: Bookings[];
  readonly people: Attendances[];
  readonly pallets: Bookings[];
  readonly places: Occupancy[];
  readonly stations: Occupancy[];
  /** The person found by the last search for a person. */
  person = -1;

  constructor(readonly problem: Problem) {
    const many = (count: number) => Array.from({ length: count }, () => new Bookings());
    this.machines = many(problem.machineCount);
    this.people = problem.personIds.map(() => new Attendances(problem.walk, problem.spotCount));
    this.pallets = many(problem.palletCount);
    this.places = Array.from(problem.placeLimit, (limit) => new Occupancy(limit));
    this.stations = Array.from(problem.stationLimit, (limit) => new Occupancy(limit));
  }

  clear(): void {
    for (const bookings of this.machines) bookings.clear();
    for (const bookings of this.people) bookings.clear();
    for (const bookings of this.pallets) bookings.clear();
    for (const occupancy of this.places) occupancy.clear();
    for (const occupancy of this.stations) occupancy.clear();
  }

  /** First moment at or after `from` at which the machine is open and free for `length` minutes, or NEVER. */
  machineFrom(machine: number, from: number, length: number): number {
    const { first, start, end } = this.problem.open;
    const bookings = this.machines[machine]!;
    const last = first[machine + 1]!;
    let time = from;
    for (let k = first[machine]!; k < last; k++) {
      if (end[k]! - time < length) continue;
      if (start[k]! > time) time = start[k]!;
      time = bookings.firstGap(time, length);
      if (time + length <= end[k]!) return time;
    }
    return NEVER;
  }

  /** True if the machine's hours have no pause between `from` and `to`. */
  isOpen(machine: number, from: number, to: number): boolean {
    const { first, start, end } = this.problem.open;
    for (let k = first[machine]!; k < first[machine + 1]!; k++) {
      if (end[k]! >= to) return start[k]! <= from;
    }
    return false;
  }

  /**
   * First moment at or after `from` at which somebody of the crew is free for `length` minutes at the spot, with the
   * walk there and on, and a load station as well if `station` is one; nobody but `wanted` if that is one of the crew. Sets
   * {@link person}. NEVER if there is none.
   */
  crewFrom(
    crew: number,
    from: number,
    length: number,
    spot: number,
    station: number,
    own: OwnAttendance,
    wanted: number,
  ): number {
    const { start, items } = this.problem.crews;
    const only = this.isInCrew(wanted, crew) ? wanted : NONE;
    let best = NEVER;
    for (let i = start[crew]!; i < start[crew + 1]!; i++) {
      const person = items[i]!;
      if (only !== NONE && person !== only) continue;
      const time = this.personFrom(person, from, length, spot, station, own, best);
      if (time < best) {
        best = time;
        this.person = person;
      }
    }
    return best;
  }

  private isInCrew(person: number, crew: number): boolean {
    if (person === NONE) return false;
    const { start, items } = this.problem.crews;
    for (let i = start[crew]!; i < start[crew + 1]!; i++) if (items[i] === person) return true;
    return false;
  }

  /** True if this person is free for the attendance just then, walks and load station included. */
  isPersonFree(person: number, start: number, length: number, spot: number, station: number, own: OwnAttendance) {
    return this.personFrom(person, start, length, spot, station, own, start + 1) === start;
  }

  private personFrom(
    person: number,
    from: number,
    length: number,
    spot: number,
    station: number,
    own: OwnAttendance,
    before: number,
  ): number {
    const { free, walk, spotCount } = this.problem;
    const bookings = this.people[person]!;
    const last = free.first[person + 1]!;
    let time = from;
    if (own.person === person) time = Math.max(time, own.end + walk[own.spot * spotCount + spot]!);
    let next = bookings.firstEndingAfter(time);
    if (next > 0) time = Math.max(time, bookings.end[next - 1]! + walk[bookings.spot[next - 1]! * spotCount + spot]!);
    let k = firstEnding(free.end, free.first[person]!, last, time);
    while (k < last && time < before) {
      if (free.start[k]! > time) time = free.start[k]!;
      if (time + length > free.end[k]!) {
        k++;
        continue;
      }
      if (next < bookings.count) {
        // The walk on to the next attendance must fit as well.
        const on = walk[spot * spotCount + bookings.spot[next]!]!;
        if (time + length + on > bookings.start[next]!) {
          next = bookings.nextAfterGap(next + 1, length);
          time = Math.max(time, bookings.end[next - 1]! + walk[bookings.spot[next - 1]! * spotCount + spot]!);
          continue;
        }
      }
      const full = station < 0 ? -1 : this.stations[station]!.lastFull(time, time + length);
      if (full < 0) return time;
      time = full;
    }
    return NEVER;
  }

  /**
   * Last moment at which somebody of the crew is free for `length` minutes that end by `end`, not before `notBefore`;
   * otherwise as {@link crewFrom}. `own` is an attendance after it: the walk on to it must fit. -1 if there is none.
   */
  crewUntil(
    crew: number,
    notBefore: number,
    end: number,
    length: number,
    spot: number,
    station: number,
    own: OwnAttendance & { start: number },
    wanted: number,
  ): number {
    const { start, items } = this.problem.crews;
    const only = this.isInCrew(wanted, crew) ? wanted : NONE;
    let best = -1;
    for (let i = start[crew]!; i < start[crew + 1]!; i++) {
      const person = items[i]!;
      if (only !== NONE && person !== only) continue;
      const time = this.personUntil(person, Math.max(notBefore, best + 1), end, length, spot, station, own);
      if (time > best) {
        best = time;
        this.person = person;
      }
    }
    return best;
  }

  private personUntil(
    person: number,
    notBefore: number,
    end: number,
    length: number,
    spot: number,
    station: number,
    own: OwnAttendance & { start: number },
  ): number {
    const { free, walk, spotCount } = this.problem;
    const bookings = this.people[person]!;
    const first = free.first[person]!;
    let until = end;
    if (own.person === person) until = Math.min(until, own.start - walk[spot * spotCount + own.spot]!);
    // `next` is the first attendance after the slot, `next - 1` the one before it.
    let next = bookings.firstEndingAfter(until - 1);
    if (next < bookings.count) {
      until = Math.min(until, bookings.start[next]! - walk[spot * spotCount + bookings.spot[next]!]!);
    }
    let k = free.first[person + 1]! - 1;
    while (k >= first && until - length >= notBefore) {
      if (free.end[k]! < until) until = free.end[k]!;
      const time = until - length;
      if (time < free.start[k]!) {
        k--;
        continue;
      }
      if (next > 0) {
        const there = walk[bookings.spot[next - 1]! * spotCount + spot]!;
        if (bookings.end[next - 1]! + there > time) {
          next = bookings.previousAfterGap(next - 1, length);
          until = Math.min(until, bookings.start[next]! - walk[spot * spotCount + bookings.spot[next]!]!);
          continue;
        }
      }
      const full = station < 0 ? -1 : this.stations[station]!.firstFull(time, until);
      if (full < 0) return time >= notBefore ? time : -1;
      until = full;
    }
    return -1;
  }
}

/** First index from `low` whose end is after `time`; `high` if there is none. */
function firstEnding(ends: Int32Array, low: number, high: number, time: number): number {
  let [from, to] = [low, high];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (ends[middle]! > time) to = middle;
    else from = middle + 1;
  }
  return from;
}
