import { type PlanReading, placesOf, storeOf } from '../measure';
import type { Machine, Pallet } from '../shop';
import { type Interval, subtract, union } from '../time';

/** When there are pallets and places to load. */
export interface Supply {
  /** When a pallet with this fixture that fits the machine is free; always if no fixture is needed. */
  palletsFree(fixture: string | null, machine: Machine): readonly Interval[];
  fitting(fixture: string, machine: Machine): Pallet[];
  /** When every place the machine loads into is held, and none by work that only waits to be taken off. */
  placesBlocked(machine: Machine): readonly Interval[];
  /** `its 6 places were`, `the only place of cell C1 is`: to go on with a participle. */
  placesBe(machine: Machine, tense: 'now' | 'then'): string;
}

/** Reads pallets and places out of the plan. */
export function supplyOf(reading: PlanReading): Supply {
  const { shop, window } = reading;
  const freeOf = new Map<string, readonly Interval[]>();
  const blockedOf = new Map<string, readonly Interval[]>();

  function fitting(fixture: string, machine: Machine): Pallet[] {
    return shop.pallets.filter(
      (p) => p.fixture === fixture && (p.machines.length === 0 || p.machines.includes(machine.id)),
    );
  }

  return {
    fitting,
    palletsFree(fixture, machine) {
      if (fixture === null) return [window];
      const key = JSON.stringify([fixture, machine.id]);
      let free = freeOf.get(key);
      if (free === undefined) {
        free = union(
          fitting(fixture, machine).flatMap((pallet) => {
            const runs = reading.onPallet.get(pallet.id) ?? [];
            return subtract(
              [window],
              runs.map((run) => ({ start: run.on, end: run.off })),
            );
          }),
        );
        freeOf.set(key, free);
      }
      return free;
    },
    placesBlocked(machine) {
      const store = storeOf(machine);
      let blocked = blockedOf.get(store);
      if (blocked === undefined) {
        const full = reading.placesFull.get(store) ?? [];
        const finished = (reading.runsInStore.get(store) ?? []).map((run) => ({
          start: run.planned.end,
          end: run.off,
        }));
        blocked = subtract(full, finished);
        blockedOf.set(store, blocked);
      }
      return blocked;
    },
    placesBe(machine, tense) {
      const places = placesOf(shop, machine);
      const verb = tense === 'now' ? ['is', 'are'] : ['was', 'were'];
      const ofCell = machine.cell === null ? '' : ` of cell ${machine.cell}`;
      const which = machine.cell === null ? 'its' : 'the';
      return places === 1 ? `${which} only place${ofCell} ${verb[0]}` : `${which} ${places} places${ofCell} ${verb[1]}`;
    },
  };
}
