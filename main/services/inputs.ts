import { z } from 'zod';
import type { CallName, Sent } from '../../core/contract';
import { PLAN_LISTS } from '../../core/exchange';
import { shopSchema, type TableName, tableSchemas } from '../../core/shop';
import { isLocalTime } from '../../core/time';
import { seatSchema } from '../store';

const planId = z.number().int('must be a whole number');
const nothing = z.null('takes nothing (null)');
const putRow = z.object({ replaces: z.string().nullable(), row: z.unknown() });
const TABLES = Object.keys(tableSchemas) as TableName[];
const table = z.enum(TABLES, 'must be the name of a table of the shop');

const seconds = z.number().min(0.1, 'must be at least 0.1').max(3600, 'must be at most 3600');
const seed = z.number().int('must be a whole number').min(0, 'must not be negative').max(0x7fffffff, 'is too large');
const planName = z.string().trim().max(80, 'is longer than 80 characters; shorten it');
const copyName = planName.min(1, 'is empty; give the copy a name');
/** Part of a file's name, so nothing but digits. */
const copyId = z.string().regex(/^\d{1,9}$/, 'must be the number of a copy');
const planRef = z.object({ copy: copyId.nullable(), plan: planId.nullable() });
const localTime = z.string().refine(isLocalTime, 'must be a date and time such as 2026-11-27T02:00');
const lock = z.object({
  run: z.string(),
  machine: z.string().nullable(),
  pallet: z.string().nullable(),
  start: localTime.nullable(),
  after: z.string().nullable(),
});
const whyAbout = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('run'), run: z.string() }),
  z.object({ kind: z.literal('gap'), machine: z.string(), start: z.number().int() }),
  z.object({ kind: z.literal('late'), job: z.string() }),
]);
const deskChange = z.object({ locks: z.array(lock), withdraw: z.array(z.string()), rush: z.unknown() });
/** Rows of a sheet read at once: more than a year of a large shop. */
const MOST_ROWS = 20_000;

/** What may be sent with each call: everything from outside is unknown until it went through here. */
export const inputs = {
  'shop.read': nothing,
  'shop.put': z.object({ table, replaces: z.string().nullable(), row: z.unknown() }),
  'shop.putMany': z.object({ table, rows: z.array(putRow), say: z.string() }),
  'rows.read': z.object({
    table,
    cells: z.array(z.array(z.string())).max(MOST_ROWS, `has more than ${MOST_ROWS} rows; import it in parts`),
    header: z.boolean().nullable(),
    columns: z.array(z.string().nullable()).nullable(),
    timeOfDay: z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, 'must be a time of day such as 16:00'),
  }),
  'shop.remove': z.object({ table, id: z.string() }),
  'shop.settings': shopSchema.pick({
    name: true,
    zone: true,
    horizonDays: true,
    planFrom: true,
    weights: true,
    walking: true,
    night: true,
  }),
  'shop.import': z.object({ text: z.string() }),
  'shop.export': nothing,
  'list.export': z.object({ list: z.enum([...TABLES, 'floor', ...PLAN_LISTS], 'must be the name of a list') }),
  'shop.reset': z.object({ to: z.enum(['demo', 'empty'], 'must be demo or empty') }),
  'change.undo': nothing,
  'change.redo': nothing,
  'change.list': nothing,
  'desk.try': z.object({ change: deskChange, seconds: z.number().min(0, 'must not be negative').max(60) }),
  'desk.take': z.object({ change: deskChange, trial: z.number().nullable() }),
  'plan.start': z.object({
    seconds,
    seed,
    near: z.boolean(),
  }),
  'plan.stop': nothing,
  'plan.current': nothing,
  'plan.list': nothing,
  'plan.read': z.object({ id: planId }),
  'plan.name': z.object({ id: planId, name: planName }),
  'plan.use': z.object({ id: planId, withShop: z.boolean() }),
  'plan.why': z.object({ id: planId, about: whyAbout }),
  'plan.tools': z.object({ id: planId }),
  'plan.substitutes': z.object({ id: planId, run: z.string() }),
  'plan.compare': z.object({ before: planRef, after: planRef }),
  'plan.release': z.object({ id: planId, checked: z.array(z.string()) }),
  'tonight.read': z.object({ id: planId }),
  'tonight.buy': z.object({
    id: planId,
    visitAt: localTime.nullable(),
  }),
  'copy.list': nothing,
  'copy.make': z.object({ name: copyName }),
  'copy.name': z.object({ id: copyId, name: copyName }),
  'copy.discard': z.object({ id: copyId }),
  'copy.adopt': z.object({ id: copyId }),
  'copy.plan': z.object({ ids: z.array(copyId), seconds, seed }),
  'copy.call': z.object({ copy: copyId, call: z.string(), sent: z.unknown() }),
  'sheet.read': z.object({ id: planId }),
  'sheet.pdf': z.object({ id: planId, paper: z.enum(['A4', 'Letter'], 'must be A4 or Letter') }),
  'seat.read': nothing,
  'seat.put': seatSchema,
} satisfies { readonly [K in CallName]: z.ZodType<Sent<K>> };
