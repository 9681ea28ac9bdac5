import type { ShopInput } from '../schema';
import { type Moment, THU, WED } from './week';

type Rows<T extends keyof ShopInput> = NonNullable<ShopInput[T]>;

const workdays: ('mon' | 'tue' | 'wed' | 'thu' | 'fri')[] = ['mon', 'tue', 'wed', 'thu', 'fri'];

export const demoShifts: Rows<'shifts'> = [
  { id: 'First', days: workdays, from: '06:00', to: '14:00' },
  { id: 'Second', days: workdays, from: '14:00', to: '22:00' },
  { id: 'Third', days: workdays, from: '22:00', to: '06:00' },
];

export const demoPeople = (on: Moment): Rows<'people'> => [
  {
    id: 'Jana',
    skills: ['milling', 'grinding', 'fitting'],
    hours: [{ days: workdays, from: '06:00', to: '14:00' }],
    breaks: [
      { from: '09:00', to: '09:15' },
      { from: '12:00', to: '12:30' },
    ],
  },
  {
    id: 'Tomas',
    skills: ['milling', 'grinding'],
    hours: [{ days: workdays, from: '14:00', to: '22:00' }],
    breaks: [
      { from: '17:30', to: '18:00' },
      { from: '20:00', to: '20:15' },
    ],
    // Leaves early on Thursday, which makes that night two hours longer.
    exceptions: [{ date: on(THU, '00:00').slice(0, 10), hours: [{ from: '14:00', to: '20:00' }] }],
  },
];

export const demoCells: Rows<'cells'> = [{ id: 'CELL', name: 'Pallet cell', places: 8, stations: 1, spot: 'cell' }];

/** One of each way to load: places of its own, places shared in a cell, on the table, and all by hand. */
export const demoMachines = (on: Moment): Rows<'machines'> => [
  {
    id: 'M1',
    name: 'Mill 1',
    kind: 'mill',
    places: 6,
    spot: 'hall',
    skill: 'milling',
    ratePerHour: 62,
    magazine: [
      { tool: 'FM50', left: [150, 240] },
      { tool: 'EM16', left: [40, 120, 120] },
      { tool: 'EM10', left: [70, 90] },
      { tool: 'BN06', left: [95] },
      // What is cutting takes 55 of the first; for the next 55 there are then 20 and 35, and two halves leave a mark.
      { tool: 'BN03', left: [75, 35] },
      { tool: 'DR08', left: [110] },
    ],
  },
  {
    id: 'M2',
    name: 'Mill 2',
    kind: 'mill',
    cell: 'CELL',
    spot: 'cell',
    skill: 'milling',
    ratePerHour: 78,
    magazine: [
      { tool: 'FM50', left: [240] },
      { tool: 'EM16', left: [120, 120] },
      { tool: 'EM10', left: [15, 90, 90] },
      { tool: 'BN06', left: [60, 150] },
      { tool: 'BN03', left: [130, 130] },
      { tool: 'DR08', left: [180] },
    ],
  },
  {
    id: 'MG1',
    name: 'Mill-grinder 1',
    kind: 'mill-grind',
    cell: 'CELL',
    spot: 'cell',
    skill: 'milling',
    ratePerHour: 95,
    nightFraction: 0.7,
    magazine: [
      { tool: 'FM50', left: [180] },
      // The pallet loaded there needs 110: one of them has to be replaced before it starts.
      { tool: 'EM16', left: [60, 40] },
      { tool: 'EM10', left: [90, 90] },
      { tool: 'BN06', left: [150] },
      { tool: 'BN03', left: [130] },
      { tool: 'WA46', left: [700] },
      { tool: 'WA60', left: [1400] },
      { tool: 'CB91', left: [2600] },
    ],
  },
  {
    id: 'G1',
    name: 'Grinder 1',
    kind: 'grind',
    places: 0,
    spot: 'grinding',
    skill: 'grinding',
    ratePerHour: 54,
    closures: [{ from: on(WED, '10:00'), to: on(WED, '12:00'), why: 'Coolant change' }],
    magazine: [
      { tool: 'WA46', left: [900] },
      { tool: 'WA60', left: [1700] },
    ],
  },
  { id: 'B1', name: 'Bench', kind: 'bench', spot: 'bench', skill: 'fitting', ratePerHour: 0 },
];

/** Four kinds of fixture; chucks and magnets go from mill to grinder, plates only into the mills. */
export const demoPallets: Rows<'pallets'> = [
  ...['P-01', 'P-02', 'P-03', 'P-04'].map((id) => ({
    id,
    name: 'Four vises',
    fixture: 'VISE4',
    machines: ['M1', 'M2', 'MG1'],
  })),
  { id: 'P-05', name: 'Chuck', fixture: 'CHUCK' },
  { id: 'P-06', name: 'Chuck', fixture: 'CHUCK' },
  { id: 'P-07', name: 'Chuck, tall', fixture: 'CHUCK', machines: ['M2', 'MG1', 'G1'] },
  { id: 'P-08', name: 'Chuck, tall', fixture: 'CHUCK', machines: ['M2', 'MG1', 'G1'] },
  { id: 'P-09', name: 'Plate with clamps', fixture: 'PLATE', machines: ['M1', 'M2'] },
  { id: 'P-10', name: 'Plate with clamps', fixture: 'PLATE', machines: ['M1'] },
  { id: 'P-11', name: 'Magnet', fixture: 'MAGNET', machines: ['G1', 'MG1'] },
  { id: 'P-12', name: 'Magnet', fixture: 'MAGNET', machines: ['G1', 'MG1'] },
];

export const demoTools: Rows<'tools'> = [
  { id: 'FM50', name: 'Face mill 50', life: 240, lifeSpread: 0.25, replaceMinutes: 8 },
  { id: 'EM16', name: 'Roughing end mill 16', life: 120, replaceMinutes: 5 },
  { id: 'EM10', name: 'End mill 10', life: 90, replaceMinutes: 5 },
  { id: 'BN06', name: 'Ball nose 6', life: 150, lifeSpread: 0.2, finish: true, replaceMinutes: 6 },
  { id: 'BN03', name: 'Ball nose 3', life: 130, lifeSpread: 0.25, finish: true, replaceMinutes: 6 },
  { id: 'DR08', name: 'Drill 8', life: 180, replaceMinutes: 4 },
  {
    id: 'WA46',
    name: 'Corundum wheel, grain 46',
    kind: 'wheel',
    life: 1200,
    replaceMinutes: 30,
    dressing: { every: 60, minutes: 4, by: 'machine', usesMm: 0.03, leftMm: 22 },
  },
  {
    id: 'WA60',
    name: 'Corundum wheel, grain 60',
    kind: 'wheel',
    life: 1800,
    finish: true,
    replaceMinutes: 30,
    dressing: { every: 90, minutes: 5, by: 'machine', usesMm: 0.02, leftMm: 26 },
  },
  {
    id: 'CB91',
    name: 'Boron nitride wheel, grain 91',
    kind: 'wheel',
    life: 3000,
    lifeSpread: 0.15,
    replaceMinutes: 40,
    dressing: { every: 240, minutes: 20, by: 'hand', usesMm: 0.01, leftMm: 2.4 },
  },
];

/** Invented, as all of it: what stops several machines in one night. */
export const demoNight: NonNullable<ShopInput['night']> = {
  shared: [
    { name: 'Probe battery', chance: 0.01, machines: ['M1', 'M2', 'MG1'] },
    { name: 'Coolant supply', chance: 0.005, machines: ['M1', 'M2', 'MG1', 'G1'] },
  ],
};
