import { numbers } from '../published/exact/generate';
import { type CaseJob, type CaseMachine, type CaseStep, type NightCase, NOW } from '../published/exact/night-case';

/** A night to compare on; every time in it is a multiple of `slot`, so that the slots lose nothing. */
export interface CompareSize {
  readonly machines: number;
  readonly runs: number;
  readonly slot: number;
}

/** The finer the slots, the more runs one operator can load, and the larger the programs of the general solvers. */
export const COMPARE_SIZES: readonly CompareSize[] = [
  { machines: 2, runs: 6, slot: 30 },
  { machines: 3, runs: 10, slot: 30 },
  { machines: 4, runs: 16, slot: 15 },
  { machines: 4, runs: 24, slot: 15 },
  { machines: 4, runs: 40, slot: 10 },
];

/**
 * An invented night of a given size for one operator, here from 14:00 to 22:00 and again from 6:00: a grinder loaded on
 * the table, mills with places, the last two of four in a cell. The same size and seed give the same night. The weights
 * are those a shop begins with, but only for lateness, tonight and the finish: rounds and extra hours are not linear in
 * the times.
 */
export function compareCase({ machines: count, runs: most, slot }: CompareSize, seed: number): NightCase {
  const pick = numbers(seed);
  const chance = (percent: number) => pick(100) < percent;
  /** So many minutes, at least one slot, in whole slots. */
  const about = (least: number, range: number) => slot * Math.max(1, Math.round((least + pick(range + 1)) / slot));
  const machines: CaseMachine[] = Array.from({ length: count }, (_, i) => ({
    id: `M${i + 1}`,
    places: i === 0 ? 0 : 4,
    inCell: count >= 4 && i >= count - 2,
  }));

  const step = (k: number): CaseStep => {
    const first = pick(count);
    const choices = 1 + pick(Math.min(3, count));
    const cycle = about(45, 240);
    return {
      machines: Array.from({ length: choices }, (_, i) => ({
        machine: machines[(first + i) % count]!.id,
        cycle: cycle + (chance(30) ? about(0, 45) : 0),
      })),
      fixture: chance(70) ? 'Vise' : 'Plate',
      load: slot,
      unload: slot,
      lag: k > 0 && chance(20) ? about(30, 30) : 0,
      check: chance(15) ? { after: about(0, 30), minutes: slot } : null,
    };
  };

  const jobs: CaseJob[] = [];
  for (let left = most; left > 0; ) {
    const steps = Array.from({ length: Math.min(left, chance(30) ? 2 : 1) }, (_, k) => step(k));
    const runs = Math.min(Math.floor(left / steps.length), 1 + pick(3));
    jobs.push({
      id: `J${jobs.length + 1}`,
      runs,
      due: NOW + about(4 * 60, 20 * 60),
      weight: 1 + pick(3),
      release: chance(15) ? NOW + about(60, 180) : NOW,
      steps,
    });
    left -= runs * steps.length;
  }
  return {
    name: `Night of ${count} machines and ${most} runs, seed ${seed}`,
    slot,
    weights: { lateness: 1, tonight: 2, finish: 0.01 },
    machines,
    cellPlaces: count >= 4 ? 8 : null,
    pause: { from: 18 * 60, to: 18 * 60 + 30 },
    pallets: { Vise: Math.ceil(most / 2), Plate: Math.ceil(most / 4) },
    jobs,
  };
}
