import type { Machine, Shop } from '../shop';
import { type Clock, expandHours, type Interval, minuteOf, subtract } from '../time';
import { NONE } from './problem';
import { flatIntervals, indexOf } from './rows';

function spotOf(machine: Machine): string {
  return machine.spot || machine.id;
}

/** Machines with their hours, places, load stations and spots. */
export function machinesOf(shop: Shop, clock: Clock, within: Interval) {
  const cells = indexOf(shop.cells);
  const limits = { places: shop.cells.map((c) => c.places), stations: shop.cells.map((c) => c.stations) };
  const machinePlaces: number[] = [];
  const machineStations: number[] = [];
  for (const machine of shop.machines) {
    const cell = machine.cell === null ? undefined : cells.get(machine.cell);
    if (cell !== undefined) {
      machinePlaces.push(cell);
      machineStations.push(cell);
      continue;
    }
    const needsPlace = machine.kind !== 'bench' && machine.places !== null && machine.places > 0;
    machinePlaces.push(needsPlace ? limits.places.push(machine.places ?? 0) - 1 : NONE);
    const hasStation = machine.kind !== 'bench' && machine.places !== 0;
    machineStations.push(hasStation ? limits.stations.push(machine.stations) - 1 : NONE);
  }
  const { spots, walk } = walkingOf(shop);
  return {
    machineCount: shop.machines.length,
    machineIds: shop.machines.map((m) => m.id),
    isBench: Uint8Array.from(shop.machines, (m) => Number(m.kind === 'bench')),
    isTable: Uint8Array.from(shop.machines, (m) => Number(m.kind !== 'bench' && m.cell === null && m.places === 0)),
    open: flatIntervals(shop.machines.map((m) => openHours(m, clock, within))),
    machinePlaces: Int32Array.from(machinePlaces),
    machineStations: Int32Array.from(machineStations),
    placeLimit: Int32Array.from(limits.places),
    stationLimit: Int32Array.from(limits.stations),
    loadSpot: Int32Array.from(shop.machines, (m) => {
      const cell = m.cell === null ? undefined : shop.cells[cells.get(m.cell) ?? NONE];
      return spots.get(cell === undefined ? spotOf(m) : cell.spot || cell.id)!;
    }),
    workSpot: Int32Array.from(shop.machines, (m) => spots.get(spotOf(m))!),
    spotCount: spots.size,
    walk,
  };
}

function openHours(machine: Machine, clock: Clock, within: Interval): Interval[] {
  // What runs now began before `within`; its machine was open then, whatever the pattern says of it.
  const all = machine.hours.length === 0 ? [within] : expandHours(clock, within, machine.hours);
  const closed = machine.closures.map((c) => ({ start: minuteOf(clock, c.from), end: minuteOf(clock, c.to) }));
  return subtract(all, closed);
}

function walkingOf(shop: Shop) {
  const named = [...shop.machines.map(spotOf), ...shop.cells.map((c) => c.spot || c.id)];
  const spots = new Map([...new Set(named)].map((spot, index) => [spot, index]));
  const count = spots.size;
  const walk = new Int32Array(count * count).fill(shop.walking.usual);
  for (let spot = 0; spot < count; spot++) walk[spot * count + spot] = 0;
  for (const { from, to, minutes } of shop.walking.between) {
    const [a, b] = [spots.get(from), spots.get(to)];
    if (a === undefined || b === undefined || a === b) continue;
    walk[a * count + b] = minutes;
    walk[b * count + a] = minutes;
  }
  return { spots, walk };
}
