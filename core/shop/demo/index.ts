import { addDays, weekdayOf } from '../../time';
import { type Shop, shopSchema } from '../schema';
import { demoJobs } from './jobs';
import { demoCells, demoMachines, demoNight, demoPallets, demoPeople, demoShifts, demoTools } from './plant';
import { withSheet } from './sheet';
import type { Moment } from './week';

/**
 * An invented die-and-mold shop to learn the program with, as it stands on the first Monday on or after `today`
 * (`YYYY-MM-DD`) at 13:00: one hour before the shifts change, two mills cutting, a week of work ahead.
 */
export function demoShop(today: string): Shop {
  let monday = today;
  while (weekdayOf(monday) !== 'mon') monday = addDays(monday, 1);
  const on: Moment = (day, time) => `${addDays(monday, day)}T${time}`;
  return shopSchema.parse({
    format: 'nightload-shop',
    version: 1,
    name: 'Demo shop',
    zone: 'Europe/Berlin',
    horizonDays: 14,
    planFrom: on(0, '13:00'),
    night: demoNight,
    shifts: demoShifts,
    walking: {
      usual: 2,
      between: [
        { from: 'hall', to: 'cell', minutes: 1 },
        { from: 'hall', to: 'grinding', minutes: 3 },
        { from: 'cell', to: 'grinding', minutes: 2 },
        { from: 'grinding', to: 'bench', minutes: 4 },
      ],
    },
    people: demoPeople(on),
    cells: demoCells,
    machines: demoMachines(on),
    pallets: demoPallets,
    tools: demoTools,
    jobs: withSheet(demoJobs(on), on).sort((a, b) => (a.id < b.id ? -1 : 1)),
    floor: [
      { run: 'J-111/10/1', state: 'finished', machine: 'M1', pallet: 'P-04', end: on(0, '12:05') },
      { run: 'J-118/10/1', state: 'running', machine: 'M1', pallet: 'P-01', start: on(0, '12:10') },
      { run: 'J-118/10/2', state: 'loaded', machine: 'M1', pallet: 'P-03' },
      { run: 'J-101/10/1', state: 'running', machine: 'M2', pallet: 'P-02', start: on(0, '11:30') },
      { run: 'J-108/10/1', state: 'loaded', machine: 'MG1', pallet: 'P-05' },
      { run: 'J-120/10/1', state: 'done', machine: 'G1', pallet: 'P-08', end: on(0, '12:40') },
    ],
  });
}

/** A shop with nothing in it but its zone, to be filled in. */
export function emptyShop(zone: string): Shop {
  return shopSchema.parse({ format: 'nightload-shop', version: 1, name: 'New shop', zone });
}
