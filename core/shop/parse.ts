import type { z } from 'zod';
import { accept, type Fault, type Result, refuse } from './fault';
import { type Path, placeOf } from './place';
import { type Plan, planSchema } from './plan';
import { type RowOf, type Shop, shopSchema, type TableName, tableSchemas } from './schema';

const FORMATS = { 'nightload-shop': 'shop file', 'nightload-plan': 'plan file' } as const;
type Format = keyof typeof FORMATS;
const VERSION = 1;

/** A shop as read from a file or sent by a screen. Faults name the place by the ids found in `input`. */
export function parseShop(input: unknown): Result<Shop> {
  const wrong = headerFault(input, 'nightload-shop');
  return wrong === null ? checked(shopSchema, input, input, []) : refuse(wrong);
}

/** A plan as read from a file. Whether it is legal, and for which shop, is not looked at here. */
export function parsePlan(input: unknown): Result<Plan> {
  const wrong = headerFault(input, 'nightload-plan');
  return wrong === null ? checked(planSchema, input, input, []) : refuse(wrong);
}

/** One row as edited in a table. `at` of its faults begins at the row: `['route', 0, 'fixture']`. */
export function parseRow<T extends TableName>(table: T, row: unknown): Result<RowOf<T>> {
  const schema = tableSchemas[table] as unknown as z.ZodType<RowOf<T>>;
  return checked(schema, row, { [table]: [row] }, [table, 0]);
}

/** Format and version come first: of any other file every single field would be wrong. */
function headerFault(input: unknown, wanted: Format): Fault | null {
  const kind = FORMATS[wanted];
  const fault = (code: string, at: Path, say: string): Fault => ({ code, at, say, level: 'error' });
  if (typeof input !== 'object' || input === null || Array.isArray(input)) {
    return fault('no-object', [], `This is no ${kind}: it holds ${kindOf(input)}. Choose a ${kind} instead.`);
  }
  const { format, version } = input as { format?: unknown; version?: unknown };
  if (format !== wanted) {
    if (typeof format === 'string' && Object.hasOwn(FORMATS, format)) {
      const other = FORMATS[format as Format];
      return fault('other-kind', ['format'], `This is a ${other}, not a ${kind}. Choose a ${kind} instead.`);
    }
    const found = format === undefined ? 'it has no format' : `its format is ${quote(format)}`;
    const say = `This is no ${kind}: ${found}. Choose another file, or if it is one, set format to "${wanted}".`;
    return fault('no-format', ['format'], say);
  }
  if (version === VERSION) return null;
  const found = version === undefined ? 'does not say its version' : `has version ${quote(version)}`;
  const newer = typeof version === 'number' && version > VERSION;
  const remedy = newer
    ? 'Update this program, or write the file again with the older one.'
    : `If it was written by hand, set version to ${VERSION}; otherwise write it again.`;
  return fault('other-version', ['version'], `This ${kind} ${found}; this program reads version ${VERSION}. ${remedy}`);
}

function checked<T>(schema: z.ZodType<T>, input: unknown, root: unknown, prefix: Path): Result<T> {
  const parsed = schema.safeParse(input, { error: wording });
  if (parsed.success) return accept(parsed.data);
  const faults: Fault[] = [];
  const seen = new Set<string>();
  for (const issue of parsed.error.issues) {
    const at = issue.path.map((key) => (typeof key === 'symbol' ? String(key) : key));
    // A field that is wrong in two ways (empty, so also without a letter) is said once.
    const key = JSON.stringify([at, issue.code === 'unrecognized_keys']);
    if (seen.has(key)) continue;
    seen.add(key);
    const place = placeOf(root, [...prefix, ...at]);
    if (issue.code === 'unrecognized_keys') faults.push(...issue.keys.map((field) => unknownField(place, at, field)));
    else faults.push({ code: 'bad-field', at, say: `${place}: ${issue.message}.`, level: 'error' });
  }
  return refuse(...faults);
}

function unknownField(place: string, at: Path, field: string): Fault {
  const say = `${place}: there is no field ${quote(field)} here; correct its spelling or take it out.`;
  return { code: 'unknown-field', at: [...at, field], say, level: 'error' };
}

const EXPECTED: Readonly<Record<string, string>> = {
  array: 'a list',
  boolean: 'true or false',
  int: 'a whole number',
  number: 'a number',
  object: 'a record of fields',
  string: 'a text in quotes',
};

/** Words for what the schema has no words of its own for. */
const wording: z.core.$ZodErrorMap = (issue) => {
  switch (issue.code) {
    case 'invalid_type': {
      const wanted = EXPECTED[issue.expected] ?? issue.expected;
      return issue.input === undefined
        ? `is missing; give ${wanted}`
        : `is ${kindOf(issue.input)}; it must be ${wanted}`;
    }
    case 'invalid_value':
      return `must be ${issue.values.map(quote).join(' or ')}`;
    default:
      return 'is not as it should be; compare it with the description of the file format';
  }
};

function quote(value: unknown): string {
  if (typeof value === 'object' && value !== null) return kindOf(value);
  const text = typeof value === 'string' ? JSON.stringify(value) : String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

function kindOf(value: unknown): string {
  if (value === undefined || value === null) return 'nothing';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a record of fields';
  return typeof value === 'string' ? `the text ${quote(value)}` : quote(value);
}
