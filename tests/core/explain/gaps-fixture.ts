import { gapsOf } from '../../../core/explain';
import type { Plan, Shop, ShopInput } from '../../../core/shop';
import { at, type OperationInput, personOf, shopOf } from '../measure/fixture';

// Own instances throughout: Anna is in the shop from 06:00 to 14:00, her break is from 10:00 to 10:30.

export const ANNA = personOf('Anna', '06:00', '14:00', [{ from: '10:00', to: '10:30' }], ['mill']);
export const PALLETS = ['P1', 'P2', 'P3'].map((id) => ({ id, fixture: 'F' }));

export function op(id: string, machine: string, cycle: number, parts: Partial<OperationInput> = {}): OperationInput {
  return { id, machines: [{ machine, cycle }], fixture: 'F', load: 20, unload: 10, ...parts };
}

export function shopWith(parts: Partial<ShopInput>): Shop {
  return shopOf({
    people: [ANNA],
    walking: { usual: 0 },
    machines: [
      { id: 'M1', kind: 'mill', places: 2 },
      { id: 'M2', kind: 'mill', places: 2 },
    ],
    pallets: PALLETS,
    ...parts,
  });
}

export function gapsAt(shop: Shop, plan: Plan, machine: string, from: string, to: string) {
  return (gapsOf(shop, plan).get(machine) ?? [])
    .filter((gap) => gap.end > at(from) && gap.start < at(to))
    .map(({ start, end, reason, say }) => [start, end, reason, say]);
}
