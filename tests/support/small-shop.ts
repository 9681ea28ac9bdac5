import { type Shop, type ShopInput, shopSchema } from '../../core/shop';

/** Own instance: one mill with four places, one person, two pallets, two jobs; small enough to plan by eye. */
export function smallShop(change: Partial<ShopInput> = {}): Shop {
  const route = (cycle: number) => [
    { id: '10', machines: [{ machine: 'M1', cycle }], fixture: 'vice', load: 10, unload: 5 },
  ];
  return shopSchema.parse({
    format: 'nightload-shop',
    version: 1,
    name: 'Small shop',
    zone: 'Europe/Berlin',
    horizonDays: 3,
    planFrom: '2026-11-25T08:00',
    people: [{ id: 'Ida', hours: [{ days: ['wed', 'thu', 'fri'], from: '06:00', to: '16:00' }] }],
    cells: [{ id: 'C1', places: 6 }],
    machines: [{ id: 'M1', kind: 'mill', places: 4 }],
    pallets: [
      { id: 'P1', fixture: 'vice', machines: ['M1'] },
      { id: 'P2', fixture: 'vice' },
    ],
    tools: [{ id: 'T1', life: 600 }],
    jobs: [
      { id: 'A', due: '2026-11-26T12:00', route: route(120) },
      { id: 'B', due: '2026-11-27T12:00', route: route(300) },
    ],
    ...change,
  });
}
