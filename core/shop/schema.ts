import { z } from 'zod';
import { isLocalTime, isZone, WEEKDAYS } from '../time';

/**
 * The shop in the shop's words. Times of day are local to the shop's zone, lengths are whole minutes, money is in the
 * shop's own currency. Every field a shop can do without has a default, so a short file is a good file; a field the
 * shop does not know is refused, because ignoring it would lose what somebody wrote.
 */

const id = z
  .string('needs a short name in quotes')
  .trim()
  .min(1, 'is empty; give it a short name')
  .max(40, 'is longer than 40 characters; shorten it')
  .regex(/^[^/]+$/, 'must not contain "/", which separates job, operation and run');
const LONG_TEXT = 'is longer than 120 characters; shorten it';
const name = z.string().trim().max(120, LONG_TEXT).default('');
const minutes = z.number('must be a number of minutes').int('must be whole minutes').min(0, 'must not be negative');
const someMinutes = minutes.min(1, 'must be at least 1 minute');
const share = z.number('must be a number from 0 to 1').min(0, 'must be at least 0').max(1, 'must be at most 1');
const chance = z
  .number('must be a chance from 0 to below 1')
  .min(0, 'must be at least 0')
  .lt(1, 'must be below 1: what always fails cannot be planned');
const weight = z.number('must be a number').min(0, 'must not be negative').max(1000, 'must be at most 1000');
const count = z.number('must be a number').int('must be a whole number').min(1, 'must be at least 1');

const clockTime = z.string().regex(/^(([01]\d|2[0-3]):[0-5]\d|24:00)$/, 'must be a time of day such as 06:00 or 22:30');
const date = z.string().refine((d) => isLocalTime(`${d}T00:00`), 'must be a date such as 2026-11-27');
const localTime = z.string().refine(isLocalTime, 'must be a date and time such as 2026-11-27T16:00');

const clockSpan = z.strictObject({ from: clockTime, to: clockTime });
const weeklySpan = clockSpan.extend({
  days: z.array(z.enum(WEEKDAYS, 'must be mon, tue, wed, thu, fri, sat or sun')).min(1, 'needs at least one day'),
});
const dayException = z.strictObject({ date, hours: z.array(clockSpan).default([]) });

/** A shift by name: what the owner's table is cut into. Shifts say nothing about who is there. */
const shift = weeklySpan.extend({ id });

const person = z.strictObject({
  id,
  name,
  /** What this person may attend to; a machine's or operation's `skill` must be among them. */
  skills: z.array(z.string().trim().min(1, 'is empty; name a skill or remove it')).default([]),
  hours: z.array(weeklySpan.extend({ extra: z.boolean().default(false) })).default([]),
  breaks: z.array(clockSpan).default([]),
  exceptions: z.array(dayException).default([]),
});

const cell = z.strictObject({
  id,
  name,
  places: count,
  stations: count.default(1),
  spot: z.string().trim().default(''),
});

const magazineTool = z.strictObject({
  tool: id,
  /** Minutes of life left in each sister tool, in the order in which they follow each other. */
  left: z.array(minutes).default([]),
});

const machine = z.strictObject({
  id,
  name,
  kind: z.enum(['mill', 'grind', 'mill-grind', 'bench'], 'must be mill, grind, mill-grind or bench'),
  inUse: z.boolean().default(true),
  /** Pallet places of its own; 0 is loaded on the table; null is without limit. Ignored inside a cell. */
  places: z.number().int('must be a whole number').min(0, 'must not be negative').nullable().default(0),
  cell: id.nullable().default(null),
  stations: count.default(1),
  /** Where a person stands to attend to it; walking is between spots. */
  spot: z.string().trim().default(''),
  skill: z.string().trim().default(''),
  /** Hours in which it may run; empty is round the clock. */
  hours: z.array(weeklySpan).default([]),
  /** Planned off: care, repair, holidays. */
  closures: z.array(z.strictObject({ from: localTime, to: localTime, why: z.string().default('') })).default([]),
  /** Share of a tool's life that may be used up unattended. */
  nightFraction: share.default(0.8),
  magazine: z.array(magazineTool).default([]),
  ratePerHour: z.number().min(0, 'must not be negative').default(0),
});

const pallet = z.strictObject({
  id,
  name,
  /** False: withdrawn, for repair or measuring. It gets no new load; what is on it comes off as planned. */
  inUse: z.boolean().default(true),
  fixture: id,
  /** Machines it fits; empty is all. */
  machines: z.array(id).default([]),
});

const tool = z.strictObject({
  id,
  name,
  kind: z.enum(['cutter', 'wheel'], 'must be cutter or wheel').default('cutter'),
  life: someMinutes,
  /** Coefficient of variation of its life. About 0.3 for high-speed steel: Wager & Barash, J. Eng. Ind. 93 (1971). */
  lifeSpread: z.number().min(0, 'must not be negative').max(1, 'must be at most 1').default(0.3),
  /** A finish tool must cover its whole cut: two halves leave a mark. */
  finish: z.boolean().default(false),
  replaceMinutes: minutes.default(5),
  dressing: z
    .strictObject({
      /** Minutes of grinding between two dressings. */
      every: someMinutes,
      /** Minutes of one dressing; by the machine they are part of its cycle. */
      minutes,
      by: z.enum(['machine', 'hand'], 'must be machine or hand').default('machine'),
      /** Wheel radius used by one dressing, millimetres. */
      usesMm: z.number().min(0, 'must not be negative').default(0),
      /** Wheel radius still usable in each wheel in use now, millimetres; not looked at where a dressing uses none. */
      leftMm: z.number().min(0, 'must not be negative').default(0),
    })
    .nullable()
    .default(null),
});

const check = z.strictObject({
  name: z.string().default(''),
  /** Chance that the feature is out of limits and the program goes back. */
  chance: chance.default(0),
  /** Minutes cut again. */
  repeat: minutes.default(0),
  /** Times it may go back before the pallet is set aside. */
  most: count.default(1),
});

/**
 * What to do when a run stops its machine. `skip`: set the pallet aside and go on with the next one; `leave`: let it
 * stand until somebody comes; `call`: call the person on duty.
 */
const ifStops = z.enum(['skip', 'leave', 'call'], 'must be skip, leave or call');

/** The last correction of a program, so that whoever stands before the next part knows of it. */
const correction = z.strictObject({
  text: z.string().trim().min(1, 'is empty; say what was corrected, or make it null').max(120, LONG_TEXT),
  why: z.string().trim().max(120, LONG_TEXT).default(''),
  at: date,
});

/** What an operation has earned; it is lost when the program's revision or the tools are others than these. */
const proof = z.strictObject({
  /** Good runs with a person in the shop. */
  goodRuns: z.number('must be a number').int('must be a whole number').min(0, 'must not be negative').default(0),
  /** The longest it has run with nobody in the shop, minutes. */
  longestAlone: minutes.default(0),
  /** The revision this was earned with; null is the operation's own. */
  revision: z.string().nullable().default(null),
  /** The tools it was earned with, by id; null is the operation's own. */
  tools: z.array(id).nullable().default(null),
});

const operation = z.strictObject({
  id,
  name,
  machines: z
    .array(z.strictObject({ machine: id, cycle: someMinutes }))
    .min(1, 'has no machine; name at least one that can do it'),
  fixture: id.nullable().default(null),
  perPallet: count.default(1),
  load: minutes.default(0),
  unload: minutes.default(0),
  skill: z.string().trim().default(''),
  /** The first run cuts `after` minutes, is held, a person measures for `minutes`, then it goes on. Null: not needed. */
  firstPiece: z.strictObject({ after: minutes, minutes: someMinutes }).nullable().default(null),
  /** Minutes to wait after the operation before it: cooling, outside work. */
  lag: minutes.default(0),
  program: z.string().default(''),
  revision: z.string().default(''),
  tools: z.array(z.strictObject({ tool: id, minutes: someMinutes })).default([]),
  checks: z.array(check).default([]),
  odds: z.strictObject({ block: chance.default(0), loss: chance.default(0) }).prefault({}),
  /** Null: nobody keeps count here, and it is taken as proven. */
  proof: proof.nullable().default(null),
  /** What a person measures on its parts, for the run sheet. */
  measure: z.string().trim().max(120, LONG_TEXT).default(''),
  ifStops: ifStops.default('call'),
  correction: correction.nullable().default(null),
});

const job = z.strictObject({
  id,
  name,
  customer: z.string().default(''),
  quantity: count.max(10_000, 'must be at most 10000; split the job').default(1),
  release: localTime.nullable().default(null),
  due: localTime,
  /** How much an hour late costs beside other jobs; 1 is ordinary. */
  weight: weight.default(1),
  /** Said to be late already: a due time in the past is then no mistake. */
  overdue: z.boolean().default(false),
  /** Most parts that may be made between two checks; null is no limit. */
  suspectLimit: count.nullable().default(null),
  /** Blanks beyond the quantity, to begin again with where a part is lost; they are not planned. */
  spareBlanks: z.number('must be a number').int('must be a whole number').min(0, 'must not be negative').default(0),
  route: z.array(operation).min(1, 'has no operation; add one'),
});

/** `job/operation/number`, for example `J-104/10/2`. */
const runName = z.string().regex(/^[^/]+\/[^/]+\/[1-9]\d*$/, 'must be job/operation/number, for example J-104/10/2');
/** A family of parts by its name: what its jobs begin with. Nothing is planned from it. */
const template = z.strictObject({
  id,
  name,
  weight: weight.default(1),
  suspectLimit: count.nullable().default(null),
  route: z.array(operation).min(1, 'has no operation; add one'),
});

/**
 * Where a run is held or how far it has come. `locked` holds whatever of machine, pallet, start and order is given;
 * `loaded` waits in the machine's places; `running` began at `start`; `finished` waits to be taken off; `done` was taken
 * off at `end`.
 */
const floorEntry = z.strictObject({
  run: runName,
  state: z.enum(
    ['locked', 'loaded', 'running', 'finished', 'done'],
    'must be locked, loaded, running, finished or done',
  ),
  machine: id.nullable().default(null),
  pallet: id.nullable().default(null),
  start: localTime.nullable().default(null),
  end: localTime.nullable().default(null),
  /** Locked behind this run: cut on the same machine, and only when that one's cut has ended; others may lie between. */
  after: runName.nullable().default(null),
});

/**
 * What is usual of the shop's nights. The defaults are common practice without a source, to be put right by what the
 * shop has measured.
 */
const night = z.strictObject({
  /** A run with checks is planned so long that this share of its repeats fits; its program may go back and cut again. */
  repeatShare: z
    .number('must be a number from 0 to 1')
    .min(0, 'must be at least 0')
    .max(1, 'must be at most 1')
    .default(0.8),
  /** Coefficient of variation of a cycle beside its repeats. */
  cycleSpread: z.number('must be a number').min(0, 'must not be negative').max(1, 'must be at most 1').default(0.02),
  /** Chance that one pallet change stops the machine. */
  handling: chance.default(0.001),
  /** What stops several machines at once, with its chance in one unattended stretch. */
  shared: z
    .array(
      z.strictObject({
        name: z.string().trim().min(1, 'is empty; name the cause'),
        chance,
        machines: z.array(id).default([]),
      }),
    )
    .default([]),
  /** Attended good runs after which an operation may run alone at all. */
  goodRuns: count.default(3),
  /** How long it may then run alone first, minutes; after that twice its longest time alone. */
  firstAlone: someMinutes.default(120),
});

/** Cost of one unit of each part of the objective; the lead can change them. */
const weights = z.strictObject({
  /** Per weighted hour late. */
  lateness: weight.default(1),
  /** Gain per hour to expect in tonight's unattended stretch. */
  tonight: weight.default(2),
  /** Gain per hour to expect in the unattended stretches after tonight. */
  laterNights: weight.default(0),
  /** Gain per machine still cutting when the first person comes in. */
  morning: weight.default(1),
  /** Per round. */
  rounds: weight.default(0.2),
  /** Per hand hour outside normal hours. */
  extraHours: weight.default(3),
  /** Per run moved from the released plan. */
  moved: weight.default(0.1),
  /** Per hour until a run's cut ends, over all runs: keeps machines from standing where nothing else asks them to run. */
  flow: weight.default(0.01),
  /** Per hour until the last run is off. */
  finish: weight.default(0.01),
});

export const shopSchema = z.strictObject({
  format: z.literal('nightload-shop'),
  version: z.literal(1),
  name: z.string().trim().min(1, 'is empty; give the shop a name'),
  zone: z.string().refine(isZone, 'is no time zone this program knows; use a name such as Europe/Berlin'),
  /** Days planned ahead. */
  horizonDays: z
    .number()
    .int('must be whole days')
    .min(1, 'must be at least 1 day')
    .max(3000, 'must be at most 3000 days')
    .default(14),
  /** Plan as of this moment instead of the present one; null is the present. */
  planFrom: localTime.nullable().default(null),
  weights: weights.prefault({}),
  night: night.prefault({}),
  shifts: z.array(shift).default([]),
  /** Minutes to walk between two spots; pairs not named take `usual`. */
  walking: z
    .strictObject({
      usual: minutes.default(1),
      between: z.array(z.strictObject({ from: z.string().trim(), to: z.string().trim(), minutes })).default([]),
    })
    .prefault({}),
  people: z.array(person).default([]),
  cells: z.array(cell).default([]),
  machines: z.array(machine).default([]),
  pallets: z.array(pallet).default([]),
  tools: z.array(tool).default([]),
  jobs: z.array(job).default([]),
  templates: z.array(template).default([]),
  floor: z.array(floorEntry).default([]),
});

export type Shop = z.infer<typeof shopSchema>;
/** What may be written in a shop file: fields with defaults may be missing. */
export type ShopInput = z.input<typeof shopSchema>;
export type Shift = Shop['shifts'][number];
export type Person = Shop['people'][number];
export type Cell = Shop['cells'][number];
export type Machine = Shop['machines'][number];
export type Pallet = Shop['pallets'][number];
export type Tool = Shop['tools'][number];
export type Job = Shop['jobs'][number];
export type Template = Shop['templates'][number];
export type Operation = Job['route'][number];
export type FloorEntry = Shop['floor'][number];
export type Weights = Shop['weights'];
export type Check = Operation['checks'][number];
export type IfStops = Operation['ifStops'];
export type Fixture = string;

/** The tables of a shop: lists of records with an `id`, edited row by row. */
export const tableSchemas = {
  shifts: shift,
  people: person,
  cells: cell,
  machines: machine,
  pallets: pallet,
  tools: tool,
  jobs: job,
  templates: template,
} as const;
export type TableName = keyof typeof tableSchemas;
export type RowOf<T extends TableName> = Shop[T][number];

/** The JSON Schema (draft 2020-12) of the shop file. */
export function shopJsonSchema(): unknown {
  return z.toJSONSchema(shopSchema, { io: 'input', unrepresentable: 'any' });
}
