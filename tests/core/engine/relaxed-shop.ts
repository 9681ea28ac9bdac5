import { EXTRA_HAND, EXTRA_PALLET, type Relaxation } from '../../../core/engine';
import { type Breach, referee } from '../../../core/referee';
import type { Machine, Plan, PlannedRun, Shop } from '../../../core/shop';
import { WEEKDAYS } from '../../../core/time';

/** The rules a plan of the shop as it is may break for one run, where no other shop stands for what is relaxed. */
const MAY_BREAK: Partial<Record<Relaxation, number>> = { release: 6, route: 6, 'first-piece': 7, tool: 8, lock: 10 };

/** What the referee, which knows nothing of relaxations, says against the plan in the shop they stand for. */
export function breachesRelaxed(shop: Shop, plan: Plan, planned: PlannedRun, relaxed: readonly Relaxation[]): string[] {
  const pardoned = new Set(relaxed.map((relaxation) => MAY_BREAK[relaxation]));
  const breaches = breachesIn(shop, plan, planned, relaxed);
  // With somebody always there the referee lets tools be used up at night, and then another one is next in turn.
  if (!relaxed.includes('person')) return told(breaches, pardoned);
  const others = relaxed.filter((relaxation) => relaxation !== 'person');
  const asItIs = breachesIn(shop, plan, planned, others).filter(({ rule }) => rule === 8);
  return told([...breaches.filter(({ rule }) => rule !== 8), ...asItIs], pardoned);
}

function breachesIn(shop: Shop, plan: Plan, planned: PlannedRun, relaxed: readonly Relaxation[]): Breach[] {
  // The twin is as the machine is by then.
  const twinLast = [...relaxed].sort((a, b) => Number(a === 'machine') - Number(b === 'machine'));
  let [bigger, moved] = [shop, plan];
  for (const relaxation of twinLast) [bigger, moved] = grown(bigger, moved, planned, relaxation);
  return referee(bigger, moved).breaches;
}

function told(breaches: readonly Breach[], pardoned: ReadonlySet<number | undefined>): string[] {
  return breaches
    .filter(({ rule, code }) => code !== 'cost' && !pardoned.has(rule))
    .map(({ rule, say }) => `${rule}: ${say}`);
}

function grown(shop: Shop, plan: Plan, planned: PlannedRun, relaxation: Relaxation): [Shop, Plan] {
  const [jobId, operationId, number] = planned.run.split('/');
  const job = shop.jobs.find(({ id }) => id === jobId)!;
  const operation = job.route.find(({ id }) => id === operationId)!;
  const machine = shop.machines.find(({ id }) => id === planned.machine)!;
  const withMachine = (change: Partial<Machine>): [Shop, Plan] => [
    { ...shop, machines: shop.machines.map((one) => (one === machine ? { ...one, ...change } : one)) },
    plan,
  ];
  const withOperation = (change: Partial<typeof operation>): Shop => ({
    ...shop,
    jobs: shop.jobs.map((one) =>
      one === job
        ? { ...job, route: job.route.map((each) => (each === operation ? { ...each, ...change } : each)) }
        : one,
    ),
  });
  switch (relaxation) {
    case 'person': {
      const skills = [...shop.machines.map(({ skill }) => skill), operation.skill];
      const hours = [{ days: [...WEEKDAYS], from: '00:00', to: '24:00', extra: false }];
      return [
        { ...shop, people: [...shop.people, { id: EXTRA_HAND, name: '', skills, hours, breaks: [], exceptions: [] }] },
        plan,
      ];
    }
    case 'pallet':
      return [
        {
          ...shop,
          pallets: [
            ...shop.pallets,
            { id: EXTRA_PALLET, name: '', fixture: operation.fixture ?? '', machines: [], inUse: true },
          ],
        },
        plan,
      ];
    case 'place':
    case 'station': {
      const what = relaxation === 'place' ? 'places' : 'stations';
      if (machine.cell === null) return withMachine({ [what]: (machine[what] ?? 0) + 1 });
      return [
        {
          ...shop,
          cells: shop.cells.map((cell) => (cell.id === machine.cell ? { ...cell, [what]: cell[what] + 1 } : cell)),
        },
        plan,
      ];
    }
    case 'machine':
      return withTwin(shop, plan, planned, machine, withOperation);
    case 'off':
      return withMachine({ hours: [], closures: [] });
    case 'proof': {
      const trusted = withOperation({ proof: null });
      return [{ ...trusted, jobs: trusted.jobs.map((one) => ({ ...one, suspectLimit: null })) }, plan];
    }
    case 'first-piece':
      return number === '1' ? [withOperation({ firstPiece: null }), plan] : [shop, plan];
    default:
      return [shop, plan];
  }
}

/** Another of the machine's kind beside it, with its tools as they are now, for this one run. */
function withTwin(
  shop: Shop,
  plan: Plan,
  planned: PlannedRun,
  machine: Machine,
  withOperation: (change: Partial<Shop['jobs'][number]['route'][number]>) => Shop,
): [Shop, Plan] {
  const twin = { ...machine, id: `${machine.id}/twin`, spot: machine.spot || machine.id };
  const [jobId, operationId] = planned.run.split('/');
  const operation = shop.jobs.find(({ id }) => id === jobId)!.route.find(({ id }) => id === operationId)!;
  const { cycle } = operation.machines.find((choice) => choice.machine === machine.id) ?? operation.machines[0]!;
  const bigger = withOperation({ machines: [...operation.machines, { machine: twin.id, cycle }] });
  return [
    {
      ...bigger,
      machines: [...shop.machines, twin],
      pallets: shop.pallets.map((pallet) =>
        pallet.machines.includes(machine.id) ? { ...pallet, machines: [...pallet.machines, twin.id] } : pallet,
      ),
      floor: shop.floor.map((entry) =>
        entry.run === planned.run && entry.machine === machine.id ? { ...entry, machine: twin.id } : entry,
      ),
    },
    { ...plan, runs: plan.runs.map((one) => (one.run === planned.run ? { ...one, machine: twin.id } : one)) },
  ];
}
