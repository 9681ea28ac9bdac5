import type { AttendanceRole, Machine, Shop } from '../shop';

/** Where people stand, and how long they walk from one such spot to another. */
export interface Walks {
  /** The spot of an attendance: the cell's for loading and unloading in a cell, else the machine's. */
  spotOf(machine: Machine, role: AttendanceRole | 'care'): string;
  /** Minutes; 0 on one spot. */
  between(from: string, to: string): number;
}

/** The walks of a shop. */
export function walksOf(shop: Shop): Walks {
  const cellSpots = new Map(shop.cells.map((cell) => [cell.id, cell.spot || cell.id]));
  const named = new Map<string, number>();
  for (const { from, to, minutes } of shop.walking.between) {
    named.set(JSON.stringify([from, to]), minutes);
    named.set(JSON.stringify([to, from]), minutes);
  }
  return {
    spotOf(machine, role) {
      const cell = role === 'load' || role === 'unload' ? machine.cell : null;
      return cell === null ? machine.spot || machine.id : (cellSpots.get(cell) ?? cell);
    },
    between(from, to) {
      return from === to ? 0 : (named.get(JSON.stringify([from, to])) ?? shop.walking.usual);
    },
  };
}
