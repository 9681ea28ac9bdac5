import type { Job, Operation, Shop, Template } from '../../../core/shop';
import { addDays } from '../../../core/time';
import { nextId } from '../grid/ids';

/** What a row must say; the rest has defaults where it is read. */
type NewRow<Row extends { id: string }> = Partial<Row> & { id: string };
type NewOperation = NewRow<Operation> & Pick<Operation, 'machines'>;

/** A cycle nobody has said yet, minutes. */
const SOME_CYCLE = 60;

/** Of an id proposed, so that it can still be counted up within the 40 an id may have. */
const MOST_LETTERS = 36;

function weekFrom(moment: string): string {
  return `${addDays(moment.slice(0, 10), 7)}T16:00`;
}

/** A job of one part and one operation, due a week from `moment` in the afternoon; or why there can be none yet. */
export function newJob(shop: Shop, moment: string, id: string): NewRow<Omit<Job, 'route'>> | string {
  const operation = newOperation(shop, [], '10');
  if (operation === null) return 'A job needs a machine to run on, and the shop has none. Add a machine first.';
  const job = { id, quantity: 1, due: weekFrom(moment), route: [operation] };
  return job;
}

/** A job of a family: its route and limits, due a week from `moment`, under the number after the last job's. */
export function jobOfFamily(shop: Shop, moment: string, template: Template): NewRow<Job> {
  const { route, weight, suspectLimit } = template;
  const taken = shop.jobs.map((job) => job.id);
  const id = nextId(taken.at(-1) ?? 'J-0', taken);
  const name = template.name === '' ? template.id : template.name;
  return { id, name, quantity: 1, due: weekFrom(moment), weight, suspectLimit, route };
}

/** The family that a job's route begins, named after its part. */
export function templateOf(job: Job, taken: readonly string[]): Template {
  const { name, weight, suspectLimit, route } = job;
  const wanted = name.replaceAll('/', ' ').slice(0, MOST_LETTERS).trim();
  const id = wanted === '' ? job.id : wanted;
  return { id: taken.includes(id) ? nextId(id, taken) : id, name, weight, suspectLimit, route };
}

/** One more operation: like the last one of the route where there is one; null if the shop has no machine. */
export function newOperation(shop: Shop, route: readonly Operation[], id: string): NewOperation | null {
  const last = route.at(-1);
  if (last !== undefined) {
    const { machines, fixture, perPallet, load, unload, skill } = last;
    return { id, machines, fixture, perPallet, load, unload, skill };
  }
  const machine = shop.machines.find((m) => m.inUse && m.kind !== 'bench') ?? shop.machines[0];
  if (machine === undefined) return null;
  const fits = shop.pallets.find((p) => p.machines.length === 0 || p.machines.includes(machine.id));
  return {
    id,
    machines: [{ machine: machine.id, cycle: SOME_CYCLE }],
    fixture: fits?.fixture ?? null,
    load: 10,
    unload: 5,
  };
}

/** The next operation number, in tens as is usual. */
export function nextOperationId(route: readonly Operation[]): string {
  const highest = Math.max(0, ...route.map((operation) => Number.parseInt(operation.id, 10) || 0));
  return String(Math.floor(highest / 10) * 10 + 10);
}
