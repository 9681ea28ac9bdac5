import { type CaseJob, type CaseMachine, type CaseStep, type NightCase, NOW } from './night-case';

/** A small generator of its own, so that a night can be made again from its number alone. */
export function numbers(seed: number): (below: number) => number {
  let state = (seed * 2654435761 + 12345) >>> 0;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 0x1_0000_0000) * below);
  };
}

const SLOT = 30;

/** What a generated night has besides one or two machines with places of their own. */
export interface Shape {
  readonly weights: NightCase['weights'];
  readonly table?: boolean;
  readonly cell?: boolean;
  readonly routes?: boolean;
  readonly checks?: boolean;
  readonly pause?: boolean;
  readonly closed?: boolean;
}

/** A random night of four to six runs. */
export function nightOf(seed: number, shape: Shape): NightCase {
  const pick = numbers(seed);
  const chance = (percent: number) => pick(100) < percent;
  const slots = (least: number, most: number) => SLOT * (least + pick(most - least + 1));

  const count = shape.table === true || shape.cell === true ? 2 : 1 + pick(2);
  const machines: CaseMachine[] = Array.from({ length: count }, (_, i) => ({
    id: `M${i + 1}`,
    places: shape.table === true && i === 0 ? 0 : 1 + pick(3),
    inCell: shape.cell === true,
    ...(shape.closed === true && i === 0 ? { closed: { from: 18 * 60, to: 18 * 60 + slots(2, 8) } } : {}),
  }));
  const step = (k: number): CaseStep => {
    const able = machines.filter(() => chance(60));
    const chosen = able.length > 0 ? able : [machines[pick(count)]!];
    const cycle = slots(2, 12);
    return {
      machines: chosen.map(({ id }) => ({ machine: id, cycle: cycle + (chance(30) ? slots(1, 3) : 0) })),
      fixture: chance(70) ? 'Vice' : 'Plate',
      load: chance(85) ? slots(1, 2) : 0,
      unload: chance(85) ? SLOT : 0,
      lag: k > 0 && chance(30) ? slots(1, 3) : 0,
      check: shape.checks === true && chance(50) ? { after: slots(0, 2), minutes: SLOT } : null,
    };
  };
  const jobs: CaseJob[] = [];
  let runs = 0;
  while (runs < 4) {
    const steps = Array.from({ length: shape.routes === true ? 2 : 1 }, (_, k) => step(k));
    const quantity = 1 + pick(2);
    jobs.push({
      id: `J${jobs.length + 1}`,
      runs: quantity,
      due: NOW + slots(6, 44),
      weight: 1 + pick(3),
      release: chance(20) ? NOW + slots(1, 6) : NOW,
      steps,
    });
    runs += quantity * steps.length;
  }
  return {
    name: `Night ${seed}`,
    slot: SLOT,
    weights: shape.weights,
    machines,
    cellPlaces: shape.cell === true ? 2 + pick(2) : null,
    pause: shape.pause === true ? { from: 18 * 60, to: 18 * 60 + SLOT } : null,
    pallets: { Vice: 1 + pick(3), Plate: 1 + pick(2) },
    jobs,
  };
}
