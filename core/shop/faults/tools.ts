import { lengthText } from '../../time';
import type { Fault } from '../fault';
import type { Path } from '../place';
import type { Job, Machine, Operation, Tool } from '../schema';
import { nightReserve, sistersLeft, toolNeeds } from '../tools';
import { type Frame, fault, listed } from './frame';

/** Tools that do not last for what is asked of them, or are not where they are used. */
export function toolFaults(frame: Frame): Fault[] {
  return [
    ...overfull(frame),
    ...notHeld(frame),
    ...frame.shop.jobs.flatMap((job, j) =>
      job.route.flatMap((operation, o) => operationFaults(frame, job, operation, ['jobs', j, 'route', o])),
    ),
  ];
}

/**
 * More left in a tool than its kind lasts: no error, for one tool may well last longer, or the life was entered too low;
 * the plan takes the magazine at its word.
 */
function overfull(frame: Frame): Fault[] {
  const life = new Map(frame.shop.tools.map((tool) => [tool.id, tool.life]));
  return frame.shop.machines.flatMap((machine, m) =>
    machine.magazine.flatMap(({ tool, left }, t) => {
      const whole = life.get(tool) ?? Number.POSITIVE_INFINITY;
      return left.flatMap((minutes, i) => {
        if (minutes <= whole) return [];
        const say = `${lengthText(minutes)} are left in it, and a new ${tool} lasts ${lengthText(whole)}; correct the minutes left, or the life of ${tool}.`;
        return [fault(frame, 'warning', 'tool-left-over-life', ['machines', m, 'magazine', t, 'left', i], say)];
      });
    }),
  );
}

/** Tools an operation calls for that a machine of it does not hold. At a bench nobody keeps count of tools. */
function notHeld(frame: Frame): Fault[] {
  return frame.shop.machines.flatMap((machine, m) => {
    if (!machine.inUse || machine.kind === 'bench') return [];
    return frame.shop.tools.flatMap((tool) => {
      if (isHeld(machine, tool)) return [];
      const users = frame.shop.jobs.flatMap((job) =>
        job.route
          .filter((operation) => needOf(frame, job, operation, machine, tool) > 0)
          .map((operation) => `${job.id}/${operation.id}`),
      );
      if (users.length === 0) return [];
      const whose = users.length > 3 ? `${users.slice(0, 3).join(', ')} and ${users.length - 3} more` : listed(users);
      const say = `it holds no ${tool.id}, which ${whose} would use there; a preset tool must be put in first, and is planned as a replacement. If there is one, enter it with its minutes left.`;
      return [fault(frame, 'warning', 'tool-not-held', ['machines', m, 'magazine'], say)];
    });
  });
}

function isHeld(machine: Machine, tool: Tool): boolean {
  return machine.magazine.some((entry) => entry.tool === tool.id && entry.left.length > 0);
}

/** One tool has to give all that a run needs of its kind. */
function isTakenWhole(tool: Tool): boolean {
  return tool.finish || tool.dressing?.by === 'hand';
}

/**
 * The most that one run still to begin needs of a tool on a machine: in one cut where one tool must cover it, else in
 * all its cuts together.
 */
function needOf(frame: Frame, job: Job, operation: Operation, machine: Machine, tool: Tool): number {
  const cycle = operation.machines.find((m) => m.machine === machine.id)?.cycle;
  if (cycle === undefined || !operation.tools.some((use) => use.tool === tool.id)) return 0;
  const begun = new Set(frame.shop.floor.filter((e) => !['locked', 'loaded'].includes(e.state)).map((e) => e.run));
  const tools = new Map([[tool.id, tool]]);
  const count = frame.runs.size === 0 ? 0 : Math.ceil(job.quantity / operation.perPallet);
  let most = 0;
  // All pallets but the last are full, so the first still to come needs the most.
  for (let number = 1; number <= count; number++) {
    const run = frame.runs.get(`${job.id}/${operation.id}/${number}`);
    if (run === undefined || begun.has(run.id)) continue;
    const cuts = toolNeeds(run, cycle, tools).map((need) => need.minutes);
    most = isTakenWhole(tool) ? Math.max(...cuts) : cuts.reduce((sum, minutes) => sum + minutes, 0);
    break;
  }
  return most;
}

/** What all tools of a kind that a machine has pockets for give one run when they are new, minutes. */
function givenNew(machine: Machine, tool: Tool, kept: number): number {
  const one = Math.max(0, tool.life - kept);
  if (tool.dressing?.by === 'hand') return Math.min(one, tool.dressing.every);
  return tool.finish ? one : one * sistersLeft(machine, tool).length;
}

/** A tool that stands in the way of an operation on a machine. */
interface Obstacle {
  readonly machine: Machine;
  readonly why: string;
  readonly remedy: string;
}

function operationFaults(frame: Frame, job: Job, operation: Operation, at: Path): Fault[] {
  const machines = operation.machines.flatMap(({ machine }) => {
    const known = frame.machines.get(machine);
    return known?.inUse === true && known.kind !== 'bench' ? [known] : [];
  });
  const used = new Set(operation.tools.map((use) => use.tool));
  return frame.shop.tools
    .filter((tool) => used.has(tool.id))
    .flatMap((tool) => {
      const place = [...at, 'tools', operation.tools.findIndex((use) => use.tool === tool.id)];
      const needs = machines.map((machine) => ({ machine, need: needOf(frame, job, operation, machine, tool) }));
      const blocked = needs.flatMap(({ machine, need }) => obstacleOf(machine, tool, need) ?? []);
      const free = needs.filter(({ machine }) => !blocked.some((obstacle) => obstacle.machine === machine));
      return [
        ...tooShort(frame, tool, blocked, free.length === 0, place),
        ...dayOnly(frame, tool, free, machines.length, place),
      ];
    });
}

function obstacleOf(machine: Machine, tool: Tool, need: number): Obstacle | null {
  const given = givenNew(machine, tool, 0);
  if (need <= given) return null;
  const needs = `a run on ${machine.id} needs ${lengthText(need)} of it`;
  if (tool.dressing?.by === 'hand' && tool.dressing.every < tool.life)
    return {
      machine,
      why: `${needs}, and it is dressed by hand after ${lengthText(tool.dressing.every)}`,
      remedy: 'put fewer parts on a pallet, or dress it less often',
    };
  if (isTakenWhole(tool))
    return {
      machine,
      why: `${needs} in one cut, and a new one lasts ${lengthText(given)}`,
      remedy: 'put fewer parts on a pallet, split the cut between two tools, or correct its life',
    };
  const pockets = sistersLeft(machine, tool).length;
  const all = pockets === 1 ? 'the one there' : `all ${pockets} there`;
  return {
    machine,
    why: `${needs}, and ${all} new last ${lengthText(given)}`,
    remedy: `give ${machine.id} more sister tools, put fewer parts on a pallet, or correct its life`,
  };
}

function tooShort(frame: Frame, tool: Tool, blocked: readonly Obstacle[], isAll: boolean, at: Path): Fault[] {
  if (blocked.length === 0) return [];
  const whys = blocked.map((obstacle) => obstacle.why).join('; ');
  const remedies = listed([...new Set(blocked.map((obstacle) => obstacle.remedy))], 'or');
  if (isAll) return [fault(frame, 'error', 'tool-too-short', at, `no plan can cut it: ${whys}. To help: ${remedies}.`)];
  const where = listed(blocked.map((obstacle) => obstacle.machine.id));
  const say = `${tool.id} does not last on ${where}, so the operation is never cut there: ${whys}. To help: ${remedies}.`;
  return [fault(frame, 'warning', 'tool-too-short', at, say)];
}

/** Enough with a person there, too little of a new tool for a cut at night. */
function dayOnly(
  frame: Frame,
  tool: Tool,
  needs: readonly { readonly machine: Machine; readonly need: number }[],
  machines: number,
  at: Path,
): Fault[] {
  const short = needs.filter(({ machine, need }) => need > givenNew(machine, tool, nightReserve(machine, tool)));
  const [first] = short;
  if (first === undefined) return [];
  const where = short.length === machines ? '' : ` on ${listed(short.map(({ machine }) => machine.id))}`;
  const given = givenNew(first.machine, tool, nightReserve(first.machine, tool));
  const say = `the operation runs by day only${where}: a run needs ${lengthText(first.need)} of ${tool.id}, of which ${first.machine.id} may use up ${lengthText(given)} at night even when it is new. To help: put fewer parts on a pallet, or let ${first.machine.id} use up more at night.`;
  return [fault(frame, 'warning', 'tool-day-only', at, say)];
}
