import type { Fault } from '../fault';
import { countRuns, type Frame, fault, MOST_RUNS } from './frame';

/** Machines, cells and people as such, before any job is looked at. */
export function plantFaults(frame: Frame): Fault[] {
  return [...nothingToPlan(frame), ...closedMachines(frame), ...emptyCells(frame), ...absentPeople(frame)];
}

function nothingToPlan(frame: Frame): Fault[] {
  const { shop } = frame;
  const found: Fault[] = [];
  if (shop.machines.length === 0)
    found.push(fault(frame, 'error', 'no-machines', ['machines'], 'nothing to plan on; add a machine.'));
  else if (!shop.machines.some((machine) => machine.inUse))
    found.push(fault(frame, 'error', 'no-machines', ['machines'], 'none is in use; set one in use.'));
  if (shop.jobs.length === 0) found.push(fault(frame, 'error', 'no-jobs', ['jobs'], 'nothing to plan; add a job.'));
  const runs = countRuns(shop);
  if (runs > MOST_RUNS) {
    const say = `they call for ${runs} runs, and at most ${MOST_RUNS} can be planned; check quantities and parts per pallet.`;
    found.push(fault(frame, 'error', 'too-many-runs', ['jobs'], say));
  }
  return found;
}

function closedMachines(frame: Frame): Fault[] {
  return frame.shop.machines.flatMap((machine, m) => {
    if (!machine.inUse || frame.open(machine).length > 0) return [];
    const say = `it is closed in all ${frame.shop.horizonDays} days planned; open it, or set it out of use.`;
    return [fault(frame, 'error', 'machine-closed', ['machines', m], say)];
  });
}

function emptyCells(frame: Frame): Fault[] {
  const used = new Set(frame.shop.machines.map((machine) => machine.cell));
  return frame.shop.cells.flatMap((cell, c) => {
    if (used.has(cell.id)) return [];
    const say = 'no machine belongs to it; name it as the cell of a machine, or remove it.';
    return [fault(frame, 'warning', 'empty-cell', ['cells', c], say)];
  });
}

function absentPeople(frame: Frame): Fault[] {
  return frame.shop.people.flatMap((person, p) => {
    if (frame.free(person).length > 0) return [];
    const say = `never in the shop in the ${frame.shop.horizonDays} days planned; give hours if that is wrong.`;
    return [fault(frame, 'warning', 'person-absent', ['people', p, 'hours'], say)];
  });
}
