import type { Knex } from 'knex';
import { z } from 'zod';
import type { PlanSummary, Release } from '../../core/contract';
import { type Plan, planSchema, type Shop, shopSchema } from '../../core/shop';
import { readBody } from './bodies';

/** A plan with the shop as it was when the plan was made. */
export interface StoredPlan {
  readonly id: number;
  readonly made: string;
  readonly revision: number;
  readonly plan: Plan;
  readonly shop: Shop;
  readonly released: Release | null;
}

interface PlanRow {
  readonly id: number;
  readonly made: string;
  readonly revision: number;
  readonly body: string;
  readonly snapshot: string;
  readonly released: string | null;
}

const releaseSchema = z.object({ at: z.string(), checked: z.array(z.string()) });

export async function addPlan(db: Knex, plan: Plan, shop: Shop, revision: number, made: string): Promise<number> {
  await db('snapshots')
    .insert({ revision, body: JSON.stringify(shop) })
    .onConflict('revision')
    .ignore();
  const row = { made, revision, cost: JSON.stringify(plan.cost), body: JSON.stringify(plan) };
  const [added] = await db('plans').insert(row).returning<{ id: number }[]>('id');
  return z.object({ id: z.number() }).parse(added).id;
}

/** Releases a plan, once more if it was before. */
export async function releasePlan(db: Knex, id: number, release: Release): Promise<void> {
  await db('releases')
    .insert({ plan: id, body: JSON.stringify(release) })
    .onConflict('plan')
    .merge();
}

/** The plan of that number, the newest one for `latest`, the newest released one, or null if there is none. */
export async function readPlan(
  db: Knex,
  which: number | 'latest' | 'released',
  backups: string,
): Promise<StoredPlan | null> {
  const query = db('plans')
    .join('snapshots', 'snapshots.revision', 'plans.revision')
    .leftJoin('releases', 'releases.plan', 'plans.id')
    .select(
      'plans.id',
      'plans.made',
      'plans.revision',
      'plans.body',
      'snapshots.body as snapshot',
      'releases.body as released',
    )
    .orderBy('plans.id', 'desc');
  if (which === 'released') query.whereNotNull('releases.plan');
  else if (which !== 'latest') query.where('plans.id', which);
  const row = await query.first<PlanRow | undefined>();
  if (row === undefined) return null;
  return {
    id: row.id,
    made: row.made,
    revision: row.revision,
    plan: readBody(row.body, planSchema, `plan ${row.id}`, backups),
    shop: readBody(row.snapshot, shopSchema, `the shop of plan ${row.id}`, backups),
    released:
      row.released === null ? null : readBody(row.released, releaseSchema, `the release of plan ${row.id}`, backups),
  };
}

/** Newest first. */
export async function listPlans(db: Knex, backups: string): Promise<PlanSummary[]> {
  const rows = await db('plans')
    .select<{ id: number; made: string; cost: string }[]>('id', 'made', 'cost')
    .orderBy('id', 'desc');
  return rows.map(({ id, made, cost }) => ({
    id,
    made,
    cost: readBody(cost, planSchema.shape.cost, `the cost of plan ${id}`, backups),
  }));
}

/** Plans of a shop that is no longer here would only mislead. */
export async function dropPlans(db: Knex): Promise<void> {
  await db('releases').delete();
  await db('plans').delete();
  await db('snapshots').delete();
}
