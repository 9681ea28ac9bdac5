import { lengthText, minuteOf } from '../../time';
import type { Fault } from '../fault';
import type { Path } from '../place';
import { cutMinutes, type RunNeed } from '../runs';
import type { FloorEntry, Job, Machine, Operation } from '../schema';
import { type Frame, fault, listed, longest } from './frame';

/** Jobs whose dates are wrong, and operations no machine can take. */
export function workFaults(frame: Frame): Fault[] {
  const floor = new Map(frame.shop.floor.map((entry) => [entry.run, entry.state]));
  return frame.shop.jobs.flatMap((job, j) => [
    ...dateFaults(frame, job, ['jobs', j], floor),
    ...job.route.flatMap((operation, o) => operationFaults(frame, job, operation, ['jobs', j, 'route', o], floor)),
  ]);
}

type Floor = ReadonlyMap<string, FloorEntry['state']>;

function runsOfOperation(frame: Frame, job: Job, operation: Operation): RunNeed[] {
  const count = Math.ceil(job.quantity / operation.perPallet);
  const ids = Array.from({ length: frame.runs.size === 0 ? 0 : count }, (_, i) => `${job.id}/${operation.id}/${i + 1}`);
  return ids.flatMap((id) => frame.runs.get(id) ?? []);
}

function dateFaults(frame: Frame, job: Job, at: Path, floor: Floor): Fault[] {
  const found: Fault[] = [];
  const open = job.route.some((o) => runsOfOperation(frame, job, o).some((run) => floor.get(run.id) !== 'done'));
  const due = minuteOf(frame.clock, job.due);
  if (open && !job.overdue && due < frame.now) {
    const say = `${job.due.replace('T', ' ')} is past; enter the date now promised, or mark the job overdue.`;
    found.push(fault(frame, 'error', 'due-past', [...at, 'due'], say));
  }
  if (job.release !== null && minuteOf(frame.clock, job.release) > due) {
    const say = `it may begin only after it is due (${job.due.replace('T', ' ')}); correct one of the two.`;
    found.push(fault(frame, 'warning', 'release-after-due', [...at, 'release'], say));
  }
  return found;
}

/** Why one machine cannot take an operation, and what would help. */
interface Obstacle {
  readonly code: string;
  readonly why: string;
  readonly remedy: string;
}

function operationFaults(frame: Frame, job: Job, operation: Operation, at: Path, floor: Floor): Fault[] {
  const runs = runsOfOperation(frame, job, operation).filter((run) => floor.get(run.id) !== 'done');
  if (runs.length === 0) return [];
  const known = operation.machines.flatMap(({ machine, cycle }) => {
    const found = frame.machines.get(machine);
    return found === undefined ? [] : [{ machine: found, need: needOf(operation, runs, found, cycle, floor) }];
  });
  const blocked = known.flatMap(({ machine, need }) => {
    const obstacle = obstacleOf(frame, operation, machine, need);
    return obstacle === null ? [] : [{ machine, obstacle }];
  });
  const [first] = blocked;
  if (known.length > 0 && blocked.length === known.length && first !== undefined) {
    const codes = new Set(blocked.map((b) => b.obstacle.code));
    const code = codes.size === 1 ? first.obstacle.code : 'no-machine-can';
    const whys = [...new Set(blocked.map((b) => b.obstacle.why))];
    const remedies = [...new Set(blocked.map((b) => b.obstacle.remedy))];
    const say = `no machine can take it: ${whys.join('; ')}. To help: ${listed(remedies, 'or')}.`;
    return [fault(frame, 'error', code, at, say)];
  }
  return blocked
    .filter(({ machine }) => machine.inUse)
    .map(({ machine, obstacle }) => {
      const index = operation.machines.findIndex((m) => m.machine === machine.id);
      const say = `it is never used here: ${obstacle.why}. To help: ${obstacle.remedy}.`;
      return fault(frame, 'warning', obstacle.code, [...at, 'machines', index], say);
    });
}

/** What the longest run still to come asks of a machine and of people, in minutes. */
interface Need {
  readonly cut: number;
  /** The whole stay, hands included. */
  readonly whole: number;
  /** Some run has yet to go on a pallet. */
  readonly isToLoad: boolean;
  /** Each attendance by what it is. */
  readonly hands: readonly { readonly what: string; readonly minutes: number }[];
}

function needOf(o: Operation, runs: RunNeed[], machine: Machine, cycle: number, floor: Floor): Need {
  const toLoad = runs.filter((run) => !['loaded', 'running', 'finished'].includes(floor.get(run.id) ?? ''));
  const toCut = runs.filter((run) => !['running', 'finished'].includes(floor.get(run.id) ?? ''));
  const cut = Math.max(0, ...toCut.map((run) => cutMinutes(run, cycle)));
  const load = toLoad.length > 0 ? o.load : 0;
  const isToLoad = toLoad.length > 0;
  if (machine.kind === 'bench') {
    const work = cut === 0 ? 0 : o.load + cut + o.unload;
    return { cut: work, whole: work, isToLoad, hands: work === 0 ? [] : [{ what: 'bench work', minutes: work }] };
  }
  const check = toCut.some((run) => run.number === 1) ? (o.firstPiece?.minutes ?? 0) : 0;
  const hands = [
    { what: 'loading', minutes: load },
    { what: 'the first-piece check', minutes: check },
    { what: 'unloading', minutes: o.unload },
  ].filter((hand) => hand.minutes > 0);
  return { cut, whole: load + cut + o.unload, isToLoad, hands };
}

function obstacleOf(frame: Frame, operation: Operation, machine: Machine, need: Need): Obstacle | null {
  if (!machine.inUse)
    return {
      code: 'not-in-use',
      why: `${machine.id} is not in use`,
      remedy: `set ${machine.id} in use, or name another machine`,
    };
  return (
    palletObstacle(frame, operation, machine, need) ??
    timeObstacle(frame, machine, need) ??
    handObstacle(frame, operation, machine, need)
  );
}

function palletObstacle(frame: Frame, { fixture }: Operation, machine: Machine, need: Need): Obstacle | null {
  const carriers = frame.shop.pallets.filter((pallet) => pallet.fixture === fixture);
  // No carrier at all is an unknown fixture, said elsewhere.
  if (fixture === null || carriers.length === 0) return null;
  const fitting = carriers.filter(({ machines }) => machines.length === 0 || machines.includes(machine.id));
  if (fitting.length === 0)
    return {
      code: 'no-pallet-fits',
      why: `no pallet with fixture ${fixture} fits ${machine.id}`,
      remedy: `add a pallet with fixture ${fixture} for ${machine.id}`,
    };
  if (!need.isToLoad || fitting.some(({ inUse }) => inUse)) return null;
  const names = fitting.map(({ id }) => id);
  return {
    code: 'pallets-withdrawn',
    why: `${listed(names)}, the only ${names.length === 1 ? 'pallet' : 'pallets'} with fixture ${fixture} for ${machine.id}, ${names.length === 1 ? 'is' : 'are'} withdrawn`,
    remedy: `set ${listed(names, 'or')} in use`,
  };
}

function timeObstacle(frame: Frame, machine: Machine, need: Need): Obstacle | null {
  const days = frame.shop.horizonDays;
  if (need.whole > frame.ahead.end - frame.now)
    return {
      code: 'longer-than-horizon',
      why: `on ${machine.id} it takes ${lengthText(need.whole)}, longer than the ${days} days planned`,
      remedy: 'shorten the cycle, put fewer parts on a pallet, or plan more days ahead',
    };
  const room = longest(frame.open(machine));
  if (need.cut > room)
    return {
      code: 'longer-than-open',
      why: `it cuts ${lengthText(need.cut)} and ${machine.id} is never open longer than ${lengthText(room)} at a stretch`,
      remedy: `give ${machine.id} longer hours`,
    };
  return null;
}

function handObstacle(frame: Frame, operation: Operation, machine: Machine, need: Need): Obstacle | null {
  const skill = operation.skill || machine.skill;
  const able = frame.shop.people.filter((person) => skill === '' || person.skills.includes(skill));
  const hand = need.hands.reduce((most, h) => (h.minutes > most.minutes ? h : most), { what: '', minutes: 0 });
  if (hand.minutes === 0) return null;
  if (able.length === 0)
    return {
      code: 'nobody-able',
      why: `${hand.what} on ${machine.id} needs ${skill === '' ? 'a person' : `skill "${skill}"`} and nobody has it`,
      remedy: skill === '' ? 'add a person' : `give somebody skill "${skill}"`,
    };
  const room = Math.max(...able.map((person) => longest(frame.free(person))));
  const names = listed(able.map((person) => person.id));
  if (room === 0)
    return {
      code: 'nobody-there',
      why: `${hand.what} on ${machine.id} needs ${names}, never there in the ${frame.shop.horizonDays} days planned`,
      remedy: `give ${names} hours`,
    };
  if (hand.minutes > room)
    return {
      code: 'hands-too-long',
      why: `${hand.what} on ${machine.id} takes ${lengthText(hand.minutes)} and ${names} never has more than ${lengthText(room)} without a break`,
      remedy: 'split the operation, or give longer hours',
    };
  return null;
}
