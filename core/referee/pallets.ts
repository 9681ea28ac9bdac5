import type { Context } from './context';
import type { Occupation } from './occupation';
import type { Stay } from './stay';
import { groupBy, overlapping } from './sweep';
import { type Finding, finding, isBegun } from './verdict';
import { at } from './words';

/** Rule 5: the right pallet, on a machine it fits, for one run at a time. */
export function checkPallets(ctx: Context, occupations: readonly Occupation[]): Finding[] {
  return [...ctx.stays.flatMap((stay) => checkSuits(ctx, stay)), ...checkOverlaps(ctx, occupations)];
}

function checkSuits(ctx: Context, { planned, need, entry }: Stay): Finding[] {
  const { run, machine, pallet: id } = planned;
  const { fixture } = need.operation;
  const say = (code: string, text: string): Finding[] => [finding(5, code, [run], text, 'pallet')];
  if (id === null) {
    return fixture === null
      ? []
      : say('pallet-missing', `Run ${run} needs a pallet with fixture ${fixture} and has none.`);
  }
  if (fixture === null) return say('pallet-not-needed', `Run ${run} needs no pallet and is given ${id}.`);
  const pallet = ctx.pallets.get(id);
  if (pallet === undefined)
    return say('unknown-pallet', `Run ${run} is on pallet ${id}, which the shop does not have.`);
  if (pallet.fixture !== fixture) {
    return say('pallet-fixture', `Run ${run} needs fixture ${fixture}; pallet ${id} carries ${pallet.fixture}.`);
  }
  if (pallet.machines.length > 0 && !pallet.machines.includes(machine)) {
    return say('pallet-machine', `Run ${run} is on ${machine}, which pallet ${id} does not fit.`);
  }
  if (!pallet.inUse && !isBegun(entry)) {
    return say('pallet-withdrawn', `Run ${run} is to be loaded on pallet ${id}, which is withdrawn.`);
  }
  return [];
}

function checkOverlaps(ctx: Context, occupations: readonly Occupation[]): Finding[] {
  const spans = occupations.flatMap(({ run, pallet, stay }) => (pallet === null ? [] : [{ run, pallet, ...stay }]));
  return [...groupBy(spans, (span) => span.pallet)].flatMap(([pallet, group]) =>
    overlapping(group).map(([a, b]) => {
      const say = `Pallet ${pallet} carries ${a.run} until ${at(ctx.clock, a.end)} and ${b.run} from ${at(ctx.clock, b.start)}.`;
      return finding(5, 'pallet-overlap', [a.run, b.run], say, 'held');
    }),
  );
}
