import type { Knex } from 'knex';
import { z } from 'zod';
import type { PlanSummary, Release } from '../../core/contract';
import { type Plan, planSchema, type Shop, shopSchema } from '../../core/shop';
import { readBody } from './bodies';

/** A plan with the shop as it was when the plan was made. */
export interface StoredPlan {
  readonly id: number;
  readonly made: string;
  /** Empty: it has none. */
  readonly name: string;
  readonly revision: number;
  readonly plan: Plan;
  readonly shop: Shop;
  readonly released: Release | null;
}

interface PlanRow {
  readonly id: number;
  readonly made: string;
  readonly name: string | null;
  readonly revision: number;
  readonly body: string;
  readonly snapshot: string;
  readonly released: string | null;
}

const releaseSchema = z.object({ at: z.string(), checked: z.array(z.string()) });

/** Plans kept beside those with a name, those that were released and the one that counts. */
const KEPT = 400;

/** Adds a plan, which is then the one that counts. */
export async function addPlan(db: Knex, plan: Plan, shop: Shop, revision: number, made: string): Promise<number> {
  await db('snapshots')
    .insert({ revision, body: JSON.stringify(shop) })
    .onConflict('revision')
    .ignore();
  const row = { made, revision, cost: JSON.stringify(plan.cost), body: JSON.stringify(plan), epoch: await epochOf(db) };
  const [added] = await db('plans').insert(row).returning<{ id: number }[]>('id');
  const { id } = z.object({ id: z.number() }).parse(added);
  await db('shop').update({ plan: id });
  await prune(db);
  return id;
}

async function epochOf(db: Knex): Promise<number> {
  return (await db('shop').first<{ epoch: number } | undefined>('epoch'))?.epoch ?? 0;
}

async function prune(db: Knex): Promise<void> {
  const oldest = await db('plans').orderBy('id', 'desc').offset(KEPT).first<{ id: number } | undefined>('id');
  if (oldest === undefined) return;
  await db('plans')
    .where('id', '<=', oldest.id)
    .whereNull('name')
    .whereNotIn('id', db('releases').select('plan'))
    .whereNotIn('id', db('shop').whereNotNull('plan').select('plan'))
    .delete();
  await db('snapshots').whereNotIn('revision', db('plans').select('revision')).delete();
}

/** Releases a plan, once more if it was before. */
export async function releasePlan(db: Knex, id: number, release: Release): Promise<void> {
  await db('releases')
    .insert({ plan: id, body: JSON.stringify(release) })
    .onConflict('plan')
    .merge();
}

/**
 * The plan of that number; the one that counts for `current`, the newest released one of this shop for `released`; null
 * if there is none.
 */
export async function readPlan(
  db: Knex,
  which: number | 'current' | 'released',
  backups: string,
): Promise<StoredPlan | null> {
  const query = db('plans')
    .join('snapshots', 'snapshots.revision', 'plans.revision')
    .leftJoin('releases', 'releases.plan', 'plans.id')
    .select(
      'plans.id',
      'plans.made',
      'plans.name',
      'plans.revision',
      'plans.body',
      'snapshots.body as snapshot',
      'releases.body as released',
    )
    .orderBy('plans.id', 'desc');
  if (which === 'released') query.whereNotNull('releases.plan').where('plans.epoch', await epochOf(db));
  else if (which === 'current') query.whereIn('plans.id', db('shop').whereNotNull('plan').select('plan'));
  else query.where('plans.id', which);
  const row = await query.first<PlanRow | undefined>();
  if (row === undefined) return null;
  return {
    id: row.id,
    made: row.made,
    name: row.name ?? '',
    revision: row.revision,
    plan: readBody(row.body, planSchema, `plan ${row.id}`, backups),
    shop: readBody(row.snapshot, shopSchema, `the shop of plan ${row.id}`, backups),
    released:
      row.released === null ? null : readBody(row.released, releaseSchema, `the release of plan ${row.id}`, backups),
  };
}

/** The plans of this shop, newest first. */
export async function listPlans(db: Knex, backups: string): Promise<PlanSummary[]> {
  const current = (await db('shop').first<{ plan: number | null } | undefined>('plan'))?.plan ?? null;
  const rows = await db('plans')
    .leftJoin('releases', 'releases.plan', 'plans.id')
    .where('plans.epoch', await epochOf(db))
    .select<{ id: number; made: string; name: string | null; cost: string; released: string | null }[]>(
      'plans.id',
      'plans.made',
      'plans.name',
      'plans.cost',
      'releases.body as released',
    )
    .orderBy('plans.id', 'desc');
  return rows.map(({ id, made, name, cost, released }) => ({
    id,
    made,
    name: name ?? '',
    cost: readBody(cost, planSchema.shape.cost, `the cost of plan ${id}`, backups),
    released: released !== null,
    current: id === current,
  }));
}
