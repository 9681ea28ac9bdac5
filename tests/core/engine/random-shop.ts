import { faultsOf, parseShop, runsOf, type Shop, type ShopInput } from '../../../core/shop';

/** A small generator of its own, so that a failing shop can be made again from its number alone. */
export function numbers(seed: number): (below: number) => number {
  let state = (seed * 2654435761 + 12345) >>> 0;
  return (below) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return Math.floor((state / 0x1_0000_0000) * below);
  };
}

const MOMENT = '2026-03-27T13:00';

/**
 * A random small shop over the weekend on which the clocks go forward in Berlin: tables, changers, a cell, benches,
 * people with breaks and skills, routes, lags, first-piece checks, pallets, closures and something on the floor; most of
 * them with tools that wear, wheels dressed by hand, checks, odds, proofs and suspect limits.
 */
export function randomShop(seed: number): { shop: Shop; at: string } {
  const pick = numbers(seed);
  const chance = (percent: number) => pick(100) < percent;
  const people = 1 + pick(2);
  const hasCell = chance(50);
  const machines = 2 + pick(3);
  const fixtures = 1 + pick(3);
  const input: ShopInput = {
    format: 'nightload-shop',
    version: 1,
    name: `Random ${seed}`,
    zone: 'Europe/Berlin',
    horizonDays: 10,
    planFrom: MOMENT,
    walking: { usual: pick(4), between: [{ from: 'M1', to: 'M2', minutes: pick(9) }] },
    people: Array.from({ length: people }, (_, i) => ({
      id: `P${i + 1}`,
      skills: i === 0 || chance(60) ? ['mill', 'grind'] : ['mill'],
      hours: [
        {
          days: ['mon', 'tue', 'wed', 'thu', 'fri'],
          from: i === 0 ? '06:00' : '13:30',
          to: i === 0 ? '15:00' : '22:00',
        },
        ...(chance(40) ? [{ days: ['sat' as const], from: '07:00', to: '12:00', extra: chance(50) }] : []),
      ],
      breaks: chance(60) ? [{ from: i === 0 ? '09:00' : '18:00', to: i === 0 ? '09:20' : '18:30' }] : [],
    })),
    cells: hasCell ? [{ id: 'C1', places: 2 + pick(5), stations: 1 + pick(2) }] : [],
    machines: Array.from({ length: machines }, (_, i) => {
      const kind = i === 3 ? ('bench' as const) : i === 1 ? ('grind' as const) : ('mill' as const);
      return {
        id: `M${i + 1}`,
        kind,
        places: chance(30) ? 0 : 1 + pick(5),
        cell: hasCell && kind === 'mill' && chance(60) ? 'C1' : null,
        skill: chance(50) ? (kind === 'grind' ? 'grind' : 'mill') : '',
        closures: chance(25) ? [{ from: '2026-03-28T08:00', to: '2026-03-30T10:00' }] : [],
        ...(chance(15)
          ? { hours: [{ days: ['mon', 'tue', 'wed', 'thu', 'fri'] as const, from: '05:00', to: '23:00' }] }
          : {}),
      };
    }) as ShopInput['machines'],
    pallets: Array.from({ length: fixtures * (1 + pick(3)) }, (_, i) => ({
      id: `B${i + 1}`,
      fixture: `F${(i % fixtures) + 1}`,
      machines: [],
    })),
    jobs: Array.from({ length: 2 + pick(5) }, (_, j) => ({
      id: `J${j + 1}`,
      quantity: 1 + pick(7),
      due: `2026-03-${28 + pick(4)}T${String(6 + pick(15)).padStart(2, '0')}:00`,
      weight: 1 + pick(3),
      release: chance(20) ? '2026-03-27T20:00' : null,
      route: Array.from({ length: 1 + pick(3) }, (_, k) => {
        const isBench = machines === 4 && k > 0 && chance(30);
        const able = isBench
          ? ['M4']
          : Array.from({ length: Math.min(machines, 3) }, (_, i) => `M${i + 1}`).filter(
              (_, i) => i === pick(3) || chance(40),
            );
        const names = able.length === 0 ? ['M1'] : able;
        return {
          id: `${10 * (k + 1)}`,
          machines: names.map((machine) => ({ machine, cycle: isBench ? 10 + pick(40) : 15 + pick(300) })),
          fixture: isBench ? null : `F${1 + pick(fixtures)}`,
          perPallet: 1 + pick(3),
          load: isBench ? 0 : pick(20),
          unload: isBench ? 0 : pick(15),
          lag: chance(15) ? 60 * pick(10) : 0,
          firstPiece: !isBench && chance(30) ? { after: pick(60), minutes: 5 + pick(20) } : null,
        };
      }),
    })),
  };
  input.floor = randomFloor(input, pick, chance);
  if (chance(60)) addTheNight(input, pick, chance);
  const parsed = parseShop(input);
  if (!parsed.ok) throw new Error(`shop ${seed}: ${parsed.faults[0]?.say}`);
  const errors = faultsOf(parsed.value, MOMENT).filter((f) => f.level === 'error');
  // A fault of chance, such as a fixture nobody carries, is met by taking the next number.
  return errors.length > 0 ? randomShop(seed + 100_003) : { shop: parsed.value, at: MOMENT };
}

/**
 * As {@link randomShop}, with runs locked behind others - alone, in chains, several behind one, beside a start, a machine or a
 * pallet, on machines in common or not - and pallets withdrawn, some of them with a load on.
 */
export function randomLockedShop(seed: number): { shop: Shop; at: string } {
  const { shop, at } = randomShop(seed);
  const pick = numbers(seed + 7);
  const chance = (percent: number) => pick(100) < percent;
  const held = new Set(shop.floor.map((entry) => entry.run));
  const runs = runsOf(shop).map(({ id }) => id);
  const free = runs.filter((run) => !held.has(run));
  const floor = [...shop.floor];
  const faulty = (changed: Shop) => faultsOf(changed, at).some(({ level }) => level === 'error');
  for (let count = 1 + pick(4); count > 0 && free.length > 0; count--) {
    const run = free.splice(pick(free.length), 1)[0]!;
    const { operation } = runsOf(shop).find(({ id }) => id === run)!;
    const entry = {
      run,
      state: 'locked' as const,
      machine: chance(25) ? operation.machines[pick(operation.machines.length)]!.machine : null,
      pallet: chance(15) ? (shop.pallets.find(({ fixture }) => fixture === operation.fixture)?.id ?? null) : null,
      start: chance(25) ? `2026-03-${chance(50) ? '27' : '30'}T1${4 + pick(6)}:00` : null,
      end: null,
      after: chance(85) ? runs[pick(runs.length)]! : null,
    };
    // Orders that run in a circle are refused before planning.
    if (!faulty({ ...shop, floor: [...floor, entry] })) floor.push(entry);
  }
  const locked = { ...shop, floor };
  const pallets = shop.pallets.map((pallet) => ({ ...pallet, inUse: !chance(20) }));
  return { shop: faulty({ ...locked, pallets }) ? locked : { ...locked, pallets }, at };
}

/** What the night asks: tools, checks and repeats, odds, proofs and suspect limits. */
function addTheNight(input: ShopInput, pick: (n: number) => number, chance: (p: number) => boolean): void {
  const kinds = 1 + pick(4);
  input.tools = Array.from({ length: kinds }, (_, i) => ({
    id: `T${i + 1}`,
    kind: i === 3 ? ('wheel' as const) : ('cutter' as const),
    life: 60 + pick(400),
    finish: chance(30),
    replaceMinutes: pick(12),
    dressing: i === 3 ? { every: 60 + pick(200), minutes: pick(15), by: chance(70) ? 'hand' : 'machine' } : null,
  }));
  for (const machine of input.machines ?? []) {
    machine.nightFraction = (5 + pick(6)) / 10;
    machine.magazine = input.tools.flatMap(({ id, life }) =>
      chance(75) ? [{ tool: id, left: Array.from({ length: 1 + pick(3) }, () => pick(life + 1)) }] : [],
    );
  }
  for (const job of input.jobs ?? []) {
    if (chance(30)) job.suspectLimit = 1 + pick(5);
    for (const operation of job.route) {
      const cycle = Math.min(...operation.machines.map((m) => m.cycle));
      operation.tools = input.tools.flatMap(({ id, life }) =>
        chance(45) ? [{ tool: id, minutes: 1 + pick(Math.min(cycle, life)) }] : [],
      );
      if (chance(30)) operation.checks = [{ chance: pick(40) / 100, repeat: pick(cycle), most: 1 + pick(3) }];
      if (chance(60)) operation.odds = { block: pick(20) / 100, loss: pick(10) / 100 };
      if (chance(25)) operation.proof = { goodRuns: pick(6), longestAlone: pick(200) };
    }
  }
}

/** At most one run on each machine and pallet, as it would be found at lunch time. */
function randomFloor(
  input: ShopInput,
  pick: (n: number) => number,
  chance: (p: number) => boolean,
): ShopInput['floor'] {
  const floor: NonNullable<ShopInput['floor']> = [];
  const usedMachines = new Set<string>();
  const usedPallets = new Set<string>();
  for (const job of input.jobs ?? []) {
    const operation = job.route[0]!;
    if (!chance(35) || (job.release ?? null) !== null) continue;
    const machine = operation.machines[0]!.machine;
    const pallet = input.pallets?.find((p) => p.fixture === operation.fixture && !usedPallets.has(p.id));
    if (usedMachines.has(machine) || pallet === undefined) continue;
    usedMachines.add(machine);
    usedPallets.add(pallet.id);
    const run = `${job.id}/${operation.id}/1`;
    const state = (['running', 'loaded', 'finished', 'done', 'locked'] as const)[pick(5)]!;
    if (state === 'running')
      floor.push({ run, state, machine, pallet: pallet.id, start: `2026-03-27T12:${10 + pick(50)}` });
    else if (state === 'locked')
      floor.push({ run, state, machine, start: chance(50) ? `2026-03-27T1${4 + pick(6)}:00` : null });
    else if (state === 'done') floor.push({ run, state });
    else floor.push({ run, state, machine, pallet: pallet.id });
  }
  return floor;
}
