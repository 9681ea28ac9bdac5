import type { Round } from '../../core/contract';
import { type Clock, dayText, type Minute } from '../../core/time';

interface RoundDay {
  readonly day: string;
  readonly rounds: readonly Round[];
}

/** Rounds that are not over at `now`, soonest first, by the day on which they begin. */
export function groupRounds(clock: Clock, rounds: readonly Round[], now: Minute): RoundDay[] {
  const days: { day: string; rounds: Round[] }[] = [];
  const ahead = rounds.filter((round) => round.end > now).sort((a, b) => a.start - b.start);
  for (const round of ahead) {
    const day = dayText(clock, round.start);
    const last = days.at(-1);
    if (last?.day === day) last.rounds.push(round);
    else days.push({ day, rounds: [round] });
  }
  return days;
}
