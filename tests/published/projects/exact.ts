import { LinearProgramBuilder, type LinearSolution, solveLinear } from '../../../core/linear';
import type { StaffedProject } from './project';

/**
 * An exact model of its own: an integer program with a column for each activity and each minute at which it may begin
 * (Pritsker, Watters & Wolfe, Management Science 16, 1969), solved by HiGHS. People of one skill are alike, so that no
 * more may be busy in a minute than there are is all it takes: intervals of which no more than so many overlap can
 * always be shared out among so many people.
 */
export async function leastMakespan({ people, chains }: StaffedProject, horizon: number): Promise<LinearSolution> {
  const builder = new LinearProgramBuilder('minimise');
  const makespan = builder.column(1);
  const begins = chains.map((chain) => {
    const length = chain.reduce((sum, { duration }) => sum + duration, 0);
    let before = 0;
    return chain.map(({ duration }) => {
      const [from, to] = [before, horizon - (length - before)];
      before += duration;
      const minutes = Array.from({ length: to - from + 1 }, (_, i) => ({
        at: from + i,
        column: builder.column(0, { upper: 1, integer: true }),
      }));
      const once = builder.equal(1);
      for (const { column } of minutes) builder.term(once, column, 1);
      return minutes;
    });
  });
  for (const [c, chain] of chains.entries()) {
    for (const [s, { duration }] of chain.entries()) {
      const next = begins[c]![s + 1];
      if (next === undefined) {
        const row = builder.atLeast(duration);
        builder.term(row, makespan, 1);
        for (const { at, column } of begins[c]![s]!) builder.term(row, column, -at);
      } else {
        // By any minute no more of the next has begun than of this one has ended.
        for (const { at: minute } of next) {
          const row = builder.atMost(0);
          for (const { at, column } of next) if (at <= minute) builder.term(row, column, 1);
          for (const { at, column } of begins[c]![s]!) if (at + duration <= minute) builder.term(row, column, -1);
        }
      }
    }
  }
  for (const [skill, count] of people.entries()) {
    for (let minute = 0; minute < horizon; minute++) {
      const row = builder.atMost(count);
      for (const [c, chain] of chains.entries()) {
        for (const [s, task] of chain.entries()) {
          if (task.skill !== skill) continue;
          for (const { at, column } of begins[c]![s]!) {
            if (at <= minute && minute < at + task.duration) builder.term(row, column, 1);
          }
        }
      }
    }
  }
  return solveLinear(builder.build(), { solver: 'highs' });
}
