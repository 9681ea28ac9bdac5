import { type Shop, type ShopInput, shopSchema } from '../../core/shop';
import { addDays } from '../../core/time';

export interface NightSize {
  readonly machines: number;
  readonly runs: number;
}

/** From a small shop to the largest the program is meant for. */
export const NIGHT_SIZES: readonly NightSize[] = [
  { machines: 4, runs: 60 },
  { machines: 8, runs: 150 },
  { machines: 16, runs: 400 },
  { machines: 30, runs: 1000 },
  { machines: 50, runs: 2000 },
];

type Rows<T extends keyof ShopInput> = NonNullable<ShopInput[T]>;
type Pick = (below: number) => number;

const MONDAY = '2026-11-02';
const WORKDAYS: ('mon' | 'tue' | 'wed' | 'thu' | 'fri')[] = ['mon', 'tue', 'wed', 'thu', 'fri'];
const HORIZON_DAYS = 21;

/** Machines that stand together: two mills in a cell, a mill with places of its own, a grinder loaded on the table. */
const GROUP = 4;

/** Machines a person looks after in a shift. */
const MACHINES_PER_PERSON = 8;

/**
 * An invented shop of a given size as it stands on a Monday at 13:00, its hands there in two shifts on five days: mills
 * in cells and with places of their own, grinders, three kinds of fixture, jobs of one to three operations on which
 * several machines can work. The same size and seed give the same shop.
 */
export function nightShop(size: NightSize, seed: number): Shop {
  const pick = picker(seed);
  const machines = machinesOf(size.machines);
  const idsOf = (...kinds: string[]) => machines.filter(({ kind }) => kinds.includes(kind)).map(({ id }) => id);
  return shopSchema.parse({
    format: 'nightload-shop',
    version: 1,
    name: `Night of ${size.machines} machines and ${size.runs} runs, seed ${seed}`,
    zone: 'Europe/Berlin',
    horizonDays: HORIZON_DAYS,
    planFrom: `${MONDAY}T13:00`,
    walking: { usual: 2 },
    people: peopleOf(Math.max(1, Math.ceil(size.machines / MACHINES_PER_PERSON))),
    cells: groupsOf(size.machines).map((group) => ({
      id: `C${group + 1}`,
      places: 10,
      spot: `hall ${group + 1}`,
    })),
    machines,
    pallets: palletsOf(size.machines, idsOf('mill')),
    jobs: jobsOf(size, pick, idsOf('mill'), idsOf('grind')),
  } satisfies ShopInput);
}

/** Whole numbers from 0 to below, by xorshift (Marsaglia, J. Statistical Software 8(14), 2003). */
function picker(seed: number): Pick {
  let state = (Math.imul(seed + 1, 0x9e3779b1) | 1) >>> 0;
  const next = (): number => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    state >>>= 0;
    return state;
  };
  // Neighbouring seeds begin alike.
  for (let i = 0; i < 8; i++) next();
  return (below) => Math.floor((next() / 0x1_0000_0000) * below);
}

function groupsOf(machines: number): number[] {
  return Array.from({ length: Math.ceil(machines / GROUP) }, (_, group) => group);
}

function machinesOf(count: number): (Rows<'machines'>[number] & { id: string; kind: 'mill' | 'grind' })[] {
  return Array.from({ length: count }, (_, i) => {
    const [group, seat] = [Math.floor(i / GROUP), i % GROUP];
    const spot = `hall ${group + 1}`;
    if (seat < 2) return { id: `M${i + 1}`, kind: 'mill', cell: `C${group + 1}`, spot };
    return seat === 2
      ? { id: `M${i + 1}`, kind: 'mill', places: 6, spot }
      : { id: `G${i + 1}`, kind: 'grind', places: 2, spot };
  });
}

/** So many people in each of two shifts. */
function peopleOf(each: number): Rows<'people'> {
  return Array.from({ length: each }, (_, i) => [
    {
      id: `E${i + 1}`,
      hours: [{ days: WORKDAYS, from: '06:00', to: '14:00' }],
      breaks: [{ from: '09:30', to: '10:00' }],
    },
    {
      id: `L${i + 1}`,
      hours: [{ days: WORKDAYS, from: '14:00', to: '22:00' }],
      breaks: [{ from: '18:00', to: '18:30' }],
    },
  ]).flat();
}

/** Per machine two vises, a plate for the mills and a chuck that goes everywhere. */
function palletsOf(machines: number, mills: string[]): Rows<'pallets'> {
  const several = (count: number, prefix: string, row: { fixture: string; machines?: string[] }) =>
    Array.from({ length: count }, (_, i) => ({ id: `${prefix}${i + 1}`, ...row }));
  return [
    ...several(2 * machines, 'V', { fixture: 'VISE', machines: mills }),
    ...several(machines, 'P', { fixture: 'PLATE', machines: mills }),
    ...several(machines, 'K', { fixture: 'CHUCK' }),
  ];
}

function jobsOf(size: NightSize, pick: Pick, mills: readonly string[], grinders: readonly string[]): Rows<'jobs'> {
  const jobs: Rows<'jobs'> = [];
  for (let left = size.runs; left > 0; ) {
    const steps = Math.min(left, 1 + pick(3));
    const pallets = Math.min(Math.floor(left / steps), 1 + pick(5));
    const perPallet = 1 + pick(4);
    const urgency = pick(100);
    const days = urgency < 25 ? 1 + pick(2) : 2 + pick(8);
    jobs.push({
      id: `J-${jobs.length + 1}`,
      quantity: pallets * perPallet,
      due: `${addDays(MONDAY, days)}T${pick(2) === 0 ? '12:00' : '18:00'}`,
      weight: 1 + pick(3),
      release: pick(100) < 15 ? `${addDays(MONDAY, 1)}T06:00` : null,
      route: Array.from({ length: steps }, (_, step) => {
        const isGround = step > 0 && step === steps - 1 && pick(100) < 60;
        return operationOf(step, perPallet, isGround ? grinders : mills, isGround, pick);
      }),
    });
    left -= steps * pallets;
  }
  return jobs;
}

function operationOf(
  step: number,
  perPallet: number,
  able: readonly string[],
  isGround: boolean,
  pick: Pick,
): Rows<'jobs'>[number]['route'][number] {
  const first = pick(able.length);
  const choices = Math.min(able.length, 1 + pick(isGround ? 2 : 4));
  const cycle = isGround ? 20 + pick(70) : 30 + pick(10) * pick(25);
  return {
    id: String(10 * (step + 1)),
    machines: Array.from({ length: choices }, (_, i) => ({
      machine: able[(first + i) % able.length]!,
      cycle: cycle + (i > 0 ? pick(10) : 0),
    })),
    fixture: isGround ? 'CHUCK' : (['VISE', 'VISE', 'PLATE', 'CHUCK'] as const)[pick(4)]!,
    perPallet,
    load: 4 + pick(6),
    unload: 2 + pick(4),
    lag: step > 0 && pick(100) < 15 ? 60 : 0,
    firstPiece: step === 0 && pick(100) < 20 ? { after: 15, minutes: 10 } : null,
  };
}
