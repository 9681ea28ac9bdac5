import type { Knex } from 'knex';

/**
 * Everything of the file that a change can touch and undoing it brings back, value by value: rows of the shop, its
 * settings, which plan counts, what was released, names of plans. Plans themselves and the choices of the seat are not in it.
 */
export type DeskState = ReadonlyMap<string, string>;

/** What a value was and became; null: it was not there. */
export interface Difference {
  readonly key: string;
  readonly before: string | null;
  readonly after: string | null;
}

export async function readState(db: Knex): Promise<DeskState> {
  const state = new Map<string, string>();
  const head = await db('shop').first<{ settings: string; plan: number | null; epoch: number } | undefined>();
  if (head !== undefined) {
    state.set('settings', head.settings).set('epoch', String(head.epoch));
    if (head.plan !== null) state.set('plan', String(head.plan));
  }
  const records = await db('records').select<{ kind: string; position: number; id: string; body: string }[]>();
  for (const { kind, position, id, body } of records) {
    state.set(`record/${kind}/${position}`, JSON.stringify({ id, body }));
  }
  for (const { plan, body } of await db('releases').select<{ plan: number; body: string }[]>()) {
    state.set(`release/${plan}`, body);
  }
  const named = await db('plans').whereNotNull('name').select<{ id: number; name: string }[]>('id', 'name');
  for (const { id, name } of named) state.set(`name/${id}`, name);
  return state;
}

export function differencesOf(before: DeskState, after: DeskState): Difference[] {
  const keys = new Set([...before.keys(), ...after.keys()]);
  return [...keys].flatMap((key) => {
    const [was, is] = [before.get(key) ?? null, after.get(key) ?? null];
    return was === is ? [] : [{ key, before: was, after: is }];
  });
}

/** One difference that does what two did, one after the other. */
export function joined(first: readonly Difference[], second: readonly Difference[]): Difference[] {
  const all = new Map(first.map((difference) => [difference.key, difference]));
  for (const { key, before, after } of second) all.set(key, { key, before: all.get(key)?.before ?? before, after });
  return [...all.values()].filter(({ before, after }) => before !== after);
}

/** Puts the values of one side of the differences into the file. */
export async function writeSide(db: Knex, differences: readonly Difference[], side: 'before' | 'after'): Promise<void> {
  for (const difference of differences) await writeValue(db, difference.key.split('/'), difference[side]);
}

async function writeValue(db: Knex, [what, ...rest]: readonly string[], value: string | null): Promise<void> {
  switch (what) {
    case 'settings':
      if (value !== null) await db('shop').update({ settings: value });
      break;
    case 'epoch':
      if (value !== null) await db('shop').update({ epoch: Number(value) });
      break;
    case 'plan':
      await db('shop').update({ plan: value === null ? null : Number(value) });
      break;
    case 'release':
      await db('releases')
        .where({ plan: Number(rest[0]) })
        .delete();
      if (value !== null) await db('releases').insert({ plan: Number(rest[0]), body: value });
      break;
    case 'name':
      await db('plans')
        .where({ id: Number(rest[0]) })
        .update({ name: value });
      break;
    case 'record': {
      const place = { kind: rest[0], position: Number(rest[1]) };
      if (value === null) await db('records').where(place).delete();
      else {
        const { id, body } = JSON.parse(value) as { id: string; body: string };
        await db('records')
          .insert({ ...place, id, body })
          .onConflict(['kind', 'position'])
          .merge();
      }
    }
  }
}
