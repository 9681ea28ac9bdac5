import { type LinearProgram, LinearProgramBuilder } from '../linear';
import { type CoverCase, leastByMinutes, newTool } from './presets-case';

/** Cuts times unattended cuts up to which the program is built: no queue of one night has as many. */
const MOST_SHARES = 1_000;

/**
 * The fewest new tools that cover cuts which tools may share. A tool is told by the last unattended cut it takes part
 * in: through that cut it gives all but the reserve, afterwards attended cuts may have the reserve too; one that takes
 * part in none gives attended cuts all it has. Tools with the same last cut are one pool, so there is nothing to tell
 * new ones apart by and no solution comes twice: what the pool gives can be shared out among them as one likes, for each
 * keeps back the same. Null if there are too many cuts.
 */
export function sharedProgram(cover: CoverCase): LinearProgram | null {
  const { cuts, held, reserve } = cover;
  const nights = cuts.flatMap(({ alone }, i) => (alone && reserve > 0 ? [i] : []));
  if (cuts.length * (nights.length + 1) > MOST_SHARES) return null;
  const builder = new LinearProgramBuilder('minimise');
  const covered = cuts.map(({ minutes }, i) => builder.atLeast(minutes, `cut ${i} is covered`));
  const least = builder.atLeast(leastByMinutes(cover), 'by minutes alone');
  const once = held.map((_, j) => builder.atMost(1, `held ${j} once`));

  for (const last of [null, ...nights]) {
    const through = last === null ? null : builder.atMost(0, `through cut ${last}`);
    const inAll = builder.atMost(0, `last cut ${last ?? 'by day'}`);
    const join = (column: number, left: number): void => {
      builder.term(inAll, column, -left);
      if (through !== null) builder.term(through, column, reserve - left);
    };
    const added = builder.column(1, { integer: true, name: `new, last cut ${last ?? 'by day'}` });
    builder.term(least, added, 1);
    join(added, newTool(cover).left);
    for (const [j, { left }] of held.entries()) {
      if (left === 0 || (last !== null && left <= reserve)) continue;
      const joins = builder.column(0, { integer: true, name: `held ${j}, last cut ${last ?? 'by day'}` });
      builder.term(once[j]!, joins, 1);
      join(joins, left);
    }
    for (const [i, { alone }] of cuts.entries()) {
      if (alone && reserve > 0 && i > (last ?? -1)) continue;
      const minutes = builder.column(0);
      builder.term(covered[i]!, minutes, 1);
      builder.term(inAll, minutes, 1);
      if (through !== null && i <= (last ?? -1)) builder.term(through, minutes, 1);
    }
  }
  return builder.build();
}
