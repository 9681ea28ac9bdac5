import type { Freeing } from '../contract';
import type { Relaxation } from '../engine';
import { isTable, type PlanReading } from '../measure';
import { lengthText } from '../time';
import type { Freed } from './freedom';
import { listText } from './words';
import { machineName } from './work';

/** `One more pallet of fixture F2`: what a relaxation stands for. */
function remedyOf({ shop }: PlanReading, { need, machine }: Freed, kind: Relaxation): string {
  const name = machineName(shop, machine.id);
  const store = machine.cell === null ? `at ${name}` : `in cell ${machine.cell}`;
  const before = need.job.route[need.step - 1]?.id ?? '';
  const remedies: Record<Relaxation, string> = {
    lock: 'no lock',
    release: `${need.job.id} released at once`,
    route: `op ${before} done already`,
    'first-piece': 'its first piece passed already',
    off: `${name} never planned off`,
    proof: 'trust to run alone',
    tool: `tools without limit on ${name}`,
    machine: isTable(machine) ? `another table like ${name}` : `${name} free of other work`,
    pallet: `one more pallet with fixture ${need.operation.fixture}`,
    place: `one more place ${store}`,
    station: `one more load station ${store}`,
    person: 'a hand always there',
  };
  return remedies[kind];
}

/** `One more pallet with fixture F2: 2 h 10 min earlier`; what is gained is said by `gainText`. */
export function freeingOf(reading: PlanReading, freed: Freed, gainText: (freed: Freed) => string): Freeing {
  const remedy = listText(freed.relaxed.map((kind) => remedyOf(reading, freed, kind)));
  return { say: `${remedy.charAt(0).toUpperCase()}${remedy.slice(1)}: ${gainText(freed)}`, gain: freed.gain };
}

/** `2 h 10 min earlier`. */
export function earlierText({ gain }: Pick<Freed, 'gain'>): string {
  return `${lengthText(gain)} earlier`;
}
