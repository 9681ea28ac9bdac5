import type { z } from 'zod';
import { type Refusal, refusal } from '../refusal';

/** Reads what a row holds; a damaged one is a sentence naming the row and where the backups are. */
export function readBody<T>(text: string, schema: z.ZodType<T>, what: string, backups: string): T {
  const parsed = schema.safeParse(readJson(text, what, backups));
  if (parsed.success) return parsed.data;
  throw damagedRow(what, wrongIn(parsed.error), backups);
}

export function readJson(text: string, what: string, backups: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw damagedRow(what, 'it is not readable', backups);
  }
}

/** The first thing wrong, for a sentence. */
export function wrongIn(error: z.ZodError): string {
  const issue = error.issues[0];
  return `${issue?.path.map(String).join('.') ?? ''} ${issue?.message ?? 'is wrong'}`.trim();
}

export function damagedRow(what: string, wrong: string, backups: string): Refusal {
  return refusal(
    'damaged-row',
    `In the stored shop, ${what} is damaged: ${wrong}. Nothing was changed; copy a backup from ${backups} ` +
      'to the place of shop.sqlite, or import a shop file.',
  );
}
