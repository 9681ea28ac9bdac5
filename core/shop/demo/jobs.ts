import type { ShopInput } from '../schema';
import { FRI, MON, type Moment, NEXT_MON, THU, TUE, WED } from './week';

type JobInput = NonNullable<ShopInput['jobs']>[number];
type OperationInput = JobInput['route'][number];
type Cycles = Readonly<Record<string, number>>;
type More = Omit<Partial<OperationInput>, 'id' | 'name' | 'machines'>;

const HARDENING = 24 * 60;

function stay(id: string, name: string, fixture: string, perPallet: number, cycles: Cycles, more: More) {
  const machines = Object.entries(cycles).map(([machine, cycle]) => ({ machine, cycle }));
  return { id, name, machines, fixture, perPallet, ...more };
}

/** Small parts, four vises on a pallet; up to eight where two lie in one vise. */
const vises = (id: string, name: string, perPallet: number, cycles: Cycles, more: More = {}): OperationInput =>
  stay(id, name, 'VISE4', perPallet, cycles, { load: 12, unload: 8, odds: { block: 0.02, loss: 0.01 }, ...more });

const chuck = (id: string, name: string, perPallet: number, cycles: Cycles, more: More = {}): OperationInput =>
  stay(id, name, 'CHUCK', perPallet, cycles, { load: 10, unload: 6, odds: { block: 0.03, loss: 0.01 }, ...more });

const plate = (id: string, name: string, cycles: Cycles, more: More = {}): OperationInput =>
  stay(id, name, 'PLATE', 1, cycles, { load: 25, unload: 15, odds: { block: 0.02, loss: 0.02 }, ...more });

const magnet = (id: string, name: string, perPallet: number, cycles: Cycles, more: More = {}): OperationInput =>
  stay(id, name, 'MAGNET', perPallet, cycles, { load: 8, unload: 6, odds: { block: 0.015, loss: 0.01 }, ...more });

const bench = (id: string, name: string, perPallet: number, minutes: number): OperationInput => ({
  id,
  name,
  machines: [{ machine: 'B1', cycle: minutes }],
  perPallet,
});

const firstPiece = (after: number, minutes: number): More => ({ firstPiece: { after, minutes } });
const proven = (goodRuns: number, longestAlone: number): More => ({ proof: { goodRuns, longestAlone } });
const program = (name: string, revision: string, tools: Cycles): More => ({
  program: name,
  revision,
  tools: Object.entries(tools).map(([tool, minutes]) => ({ tool, minutes })),
});

export const demoJobs = (on: Moment): JobInput[] => [
  ...milledAndGround(on),
  ...plates(on),
  ...hardened(on),
  ...inserts(on),
  ...small(on),
];

const milledAndGround = (on: Moment): JobInput[] => [
  {
    id: 'J-101',
    name: 'Cavity insert, bottle cap',
    customer: 'Cap mould 8-fold',
    quantity: 8,
    due: on(THU, '14:00'),
    weight: 2,
    suspectLimit: 4,
    route: [
      vises('10', 'Rough mill', 4, { M1: 180, M2: 170, MG1: 190 }, program('1010', 'B', { FM50: 25, EM16: 95 })),
      chuck(
        '20',
        'Finish mill',
        2,
        { M2: 130, MG1: 140 },
        {
          ...program('1020', 'B', { EM10: 30, BN06: 45, BN03: 35 }),
          ...firstPiece(65, 15),
          ...proven(2, 0),
          checks: [{ name: 'Depth of cavity', chance: 0.08, repeat: 14, most: 2 }],
        },
      ),
      magnet(
        '30',
        'Grind parting face',
        8,
        { G1: 120, MG1: 150 },
        {
          ...program('1030', 'A', { WA60: 90 }),
          checks: [{ name: 'Height', chance: 0.03, repeat: 12, most: 1 }],
        },
      ),
    ],
  },
  {
    id: 'J-117',
    name: 'Lifter',
    customer: 'Housing mould',
    quantity: 12,
    due: on(THU, '12:00'),
    route: [
      vises('10', 'Mill complete', 4, { M1: 150, M2: 140, MG1: 155 }, program('1710', 'C', { EM16: 50, EM10: 60 })),
      magnet('20', 'Grind sliding faces', 6, { G1: 90, MG1: 110 }, program('1720', 'A', { WA60: 70 })),
    ],
  },
  {
    id: 'J-116',
    name: 'Core insert, weld repair',
    customer: 'Lid mould',
    due: on(-3, '16:00'),
    overdue: true,
    weight: 3,
    route: [
      chuck('10', 'Mill weld', 1, { M2: 120, MG1: 120 }, { ...firstPiece(40, 20), odds: { block: 0.06, loss: 0.04 } }),
      chuck('20', 'Grind seat', 1, { G1: 50, MG1: 60 }, program('1620', 'A', { WA60: 30 })),
    ],
  },
];

const plates = (on: Moment): JobInput[] => [
  {
    id: 'J-102',
    name: 'Core pin plate',
    customer: 'Cap mould 8-fold',
    quantity: 2,
    due: on(FRI, '12:00'),
    route: [
      plate('10', 'Mill and drill', { M1: 300, M2: 280 }, program('0210', 'A', { FM50: 60, EM16: 80, DR08: 90 })),
      magnet('20', 'Grind both faces', 1, { G1: 90 }, { load: 15, unload: 10 }),
    ],
  },
  {
    id: 'J-104',
    name: 'Ejector plate',
    customer: 'Housing mould',
    quantity: 3,
    due: on(THU, '10:00'),
    route: [
      plate(
        '10',
        'Mill and drill',
        { M1: 240, M2: 225 },
        {
          ...program('0410', 'D', { FM50: 45, DR08: 110 }),
          ...proven(6, 480),
        },
      ),
      bench('20', 'Deburr and measure', 3, 45),
    ],
  },
  {
    id: 'J-114',
    name: 'Stripper plate',
    customer: 'Blanking die',
    quantity: 2,
    due: on(THU, '16:00'),
    weight: 1.5,
    route: [
      plate('10', 'Mill complete', { M1: 330, M2: 310 }, { ...firstPiece(90, 25), ...proven(0, 0) }),
      magnet('20', 'Grind both faces', 1, { G1: 90 }, { load: 15, unload: 10 }),
    ],
  },
  {
    id: 'J-119',
    name: 'Base plate',
    customer: 'Blanking die',
    release: on(WED, '06:00'),
    due: on(FRI, '14:00'),
    route: [plate('10', 'Mill complete', { M1: 360 }), bench('20', 'Deburr and measure', 1, 40)],
  },
];

const hardened = (on: Moment): JobInput[] => [
  {
    id: 'J-105',
    name: 'Blanking punch',
    customer: 'Blanking die',
    quantity: 24,
    due: on(FRI, '14:00'),
    suspectLimit: 8,
    route: [
      vises('10', 'Mill soft', 8, { M1: 180, M2: 170, MG1: 190 }, program('0510', 'A', { EM16: 70, EM10: 60 })),
      magnet(
        '20',
        'Grind hard',
        4,
        { G1: 80, MG1: 95 },
        {
          lag: HARDENING,
          ...program('0520', 'B', { WA46: 60 }),
          ...firstPiece(25, 12),
          checks: [{ name: 'Width of punch', chance: 0.12, repeat: 10, most: 2 }],
        },
      ),
    ],
  },
  {
    id: 'J-106',
    name: 'Die ring',
    customer: 'Deep drawing die',
    quantity: 5,
    due: on(NEXT_MON, '12:00'),
    route: [
      chuck('10', 'Mill soft', 1, { M2: 200, MG1: 210 }, program('0610', 'A', { EM16: 85, EM10: 40 })),
      chuck(
        '20',
        'Grind hard',
        1,
        { MG1: 105 },
        {
          lag: HARDENING,
          ...program('0620', 'A', { CB91: 80 }),
          ...firstPiece(50, 18),
        },
      ),
    ],
  },
  {
    // Hardening alone takes it past its due time, whatever the shop does.
    id: 'J-115',
    name: 'Forming punch',
    customer: 'Deep drawing die',
    quantity: 4,
    due: on(TUE, '14:00'),
    weight: 2,
    route: [
      chuck('10', 'Mill soft', 2, { M1: 285, M2: 270, MG1: 280 }, proven(4, 300)),
      chuck('20', 'Grind hard', 2, { MG1: 180, G1: 200 }, { lag: HARDENING, ...firstPiece(60, 15) }),
    ],
  },
];

const inserts = (on: Moment): JobInput[] => [
  {
    id: 'J-108',
    name: 'Cavity insert, housing top',
    customer: 'Housing mould',
    quantity: 2,
    due: on(FRI, '18:00'),
    weight: 1.5,
    route: [
      chuck('10', 'Rough mill', 1, { M1: 250, M2: 235, MG1: 240 }, program('0810', 'A', { FM50: 40, EM16: 110 })),
      chuck(
        '20',
        'Finish mill',
        1,
        { M2: 345, MG1: 360 },
        {
          ...program('0820', 'A', { EM10: 60, BN06: 100, BN03: 90 }),
          ...firstPiece(80, 20),
          ...proven(1, 0),
          checks: [{ name: 'Wall thickness', chance: 0.05, repeat: 25, most: 1 }],
        },
      ),
      bench('30', 'Polish and measure', 2, 90),
    ],
  },
  {
    id: 'J-109',
    name: 'Cavity insert, housing bottom',
    customer: 'Housing mould',
    quantity: 3,
    due: on(NEXT_MON, '14:00'),
    route: [
      chuck('10', 'Rough mill', 1, { M1: 230, M2: 215, MG1: 220 }, program('0910', 'A', { FM50: 35, EM16: 100 })),
      chuck('20', 'Finish mill', 1, { M2: 330, MG1: 340 }, { ...proven(3, 360), ...firstPiece(75, 20) }),
      bench('30', 'Polish and measure', 3, 110),
    ],
  },
  {
    id: 'J-110',
    name: 'Core insert',
    customer: 'Cap mould 8-fold',
    quantity: 8,
    due: on(FRI, '10:00'),
    route: [
      vises('10', 'Rough mill', 2, { M1: 165, M2: 155, MG1: 165 }, program('1110', 'A', { EM16: 80, EM10: 30 })),
      chuck(
        '20',
        'Finish mill',
        1,
        { M1: 100, M2: 90, MG1: 95 },
        {
          ...program('1120', 'A', { BN06: 30, BN03: 25 }),
          ...firstPiece(45, 15),
          ...proven(5, 240),
        },
      ),
    ],
  },
];

const small = (on: Moment): JobInput[] => [
  {
    id: 'J-103',
    name: 'Slide',
    customer: 'Housing mould',
    quantity: 20,
    due: on(WED, '14:00'),
    route: [
      vises('10', 'Mill complete', 4, { M1: 115, M2: 110, MG1: 120 }, proven(12, 420)),
      bench('20', 'Fit and measure', 10, 60),
    ],
  },
  {
    id: 'J-107',
    name: 'Electrode holder',
    quantity: 24,
    due: on(TUE, '14:00'),
    route: [vises('10', 'Mill complete', 4, { M1: 55, M2: 50, MG1: 60 }, proven(20, 480))],
  },
  {
    id: 'J-111',
    name: 'Guide block',
    customer: 'Blanking die',
    quantity: 10,
    due: on(WED, '10:00'),
    route: [vises('10', 'Mill complete', 4, { M1: 75, M2: 70 }, proven(8, 300))],
  },
  {
    id: 'J-118',
    name: 'Copper electrode, ribs',
    customer: 'Housing mould',
    quantity: 24,
    due: on(TUE, '18:00'),
    weight: 1.5,
    route: [
      vises('10', 'Mill complete', 4, { M1: 100, M2: 95, MG1: 105 }, program('1810', 'E', { EM10: 25, BN03: 55 })),
    ],
  },
  {
    id: 'J-112',
    name: 'Support strip',
    customer: 'Cap mould 8-fold',
    quantity: 12,
    due: on(WED, '12:00'),
    route: [magnet('10', 'Grind to height', 6, { G1: 140, MG1: 165 }, proven(15, 480))],
  },
  {
    id: 'J-113',
    name: 'Wear plate',
    quantity: 20,
    due: on(FRI, '12:00'),
    route: [magnet('10', 'Grind to height', 4, { G1: 70, MG1: 85 }, program('1310', 'A', { WA46: 50 }))],
  },
  {
    id: 'J-120',
    name: 'Die segment',
    customer: 'Deep drawing die',
    quantity: 8,
    release: on(MON, '06:00'),
    due: on(TUE, '10:00'),
    route: [
      chuck('10', 'Grind profile', 2, { G1: 125, MG1: 115 }, { ...firstPiece(40, 15), ...proven(3, 125) }),
      bench('20', 'Measure', 8, 35),
    ],
  },
];
