import type { Round } from '../../core/contract';
import { type Clock, dayText, type Minute } from '../../core/time';

interface RoundDay {
  readonly day: string;
  readonly rounds: readonly Round[];
}

/** Rounds that are not over at `now`, soonest first. */
export function roundsAhead(rounds: readonly Round[], now: Minute): Round[] {
  return rounds.filter((round) => round.end > now).sort((a, b) => a.start - b.start);
}

/** Rounds in order, by the day on which they begin. */
export function groupRounds(clock: Clock, rounds: readonly Round[]): RoundDay[] {
  const days: { day: string; rounds: Round[] }[] = [];
  for (const round of rounds) {
    const day = dayText(clock, round.start);
    const last = days.at(-1);
    if (last?.day === day) last.rounds.push(round);
    else days.push({ day, rounds: [round] });
  }
  return days;
}
