import { dirname } from 'node:path';
import type { Knex } from 'knex';
import { z } from 'zod';
import type { PlanSummary, Release, SeatSettings } from '../../core/contract';
import type { Plan, Shop } from '../../core/shop';
import { Refusal, refusal } from '../refusal';
import { backupsOf } from './backups';
import { readBody } from './bodies';
import { damaged, openDatabase } from './open';
import { addPlan, dropPlans, listPlans, readPlan, releasePlan, type StoredPlan } from './plan-rows';
import { readShop, type StoredShop, writeShop } from './shop-rows';
import { writeQueue } from './write-queue';

export const seatSchema = z.object({
  theme: z.enum(['system', 'light', 'dark'], 'must be system, light or dark'),
  planSeconds: z.number().min(0.1, 'must be at least 0.1 seconds').max(3600, 'must be at most an hour'),
}) satisfies z.ZodType<SeatSettings>;

const FIRST_SEAT: SeatSettings = { theme: 'system', planSeconds: 5 };

/** One shop in one file. Every method throws a Refusal with the sentence to show when the file can't serve it. */
export interface Store {
  readonly file: string;
  readShop(): Promise<StoredShop>;
  /** One change of the shop, on top of all changes before it. */
  changeShop(change: (shop: Shop) => Shop): Promise<StoredShop>;
  /** Another shop in place of this one and its plans; a dated backup is made first. */
  replaceShop(shop: Shop, why: 'import' | 'reset'): Promise<StoredShop>;
  addPlan(plan: Plan, of: StoredShop, made: string): Promise<number>;
  readPlan(which: number | 'latest' | 'released'): Promise<StoredPlan | null>;
  releasePlan(id: number, release: Release): Promise<void>;
  listPlans(): Promise<PlanSummary[]>;
  readSeat(): Promise<SeatSettings>;
  writeSeat(seat: SeatSettings): Promise<void>;
  close(): Promise<void>;
}

/**
 * Opens the shop in `file`; where there is none yet, begins with `first()`. `now` gives the local wall time
 * `YYYY-MM-DDTHH:MM` by which backups are dated.
 */
export async function openStore(file: string, first: () => Shop, now: () => string): Promise<Store> {
  const db = await openDatabase(file);
  const backups = backupsOf(db, dirname(file), now);
  const write = writeQueue();

  const guarded = async <T>(work: () => Promise<T>): Promise<T> => {
    try {
      return await work();
    } catch (error) {
      throw error instanceof Refusal ? error : damaged(file, error);
    }
  };
  const inTransaction = <T>(work: (trx: Knex) => Promise<T>): Promise<T> =>
    write(() => guarded(() => db.transaction((trx) => work(trx))));
  const shopIn = async (at: Knex): Promise<StoredShop> => {
    const stored = await readShop(at, backups.folder);
    if (stored === null) throw refusal('no-shop', `${file} holds no shop. Import a shop file.`);
    return stored;
  };

  await inTransaction(async (trx) => {
    if ((await trx('shop').first()) === undefined) await writeShop(trx, first());
  });
  await guarded(() => backups.daily());

  return {
    file,
    readShop: () => guarded(() => shopIn(db)),
    changeShop: (change) =>
      inTransaction(async (trx) => {
        const shop = change((await shopIn(trx)).shop);
        return { shop, revision: await writeShop(trx, shop) };
      }),
    replaceShop: (shop, why) =>
      write(() =>
        guarded(async () => {
          await backups.before(why);
          return db.transaction(async (trx) => {
            await dropPlans(trx);
            return { shop, revision: await writeShop(trx, shop) };
          });
        }),
      ),
    addPlan: (plan, of, made) => inTransaction((trx) => addPlan(trx, plan, of.shop, of.revision, made)),
    releasePlan: (id, release) => inTransaction((trx) => releasePlan(trx, id, release)),
    readPlan: (which) => guarded(() => readPlan(db, which, backups.folder)),
    listPlans: () => guarded(() => listPlans(db, backups.folder)),
    readSeat: () =>
      guarded(async () => {
        const row = await db('seat').where({ name: 'settings' }).first<{ body: string } | undefined>();
        return row === undefined
          ? FIRST_SEAT
          : readBody(row.body, seatSchema, 'the row of seat settings', backups.folder);
      }),
    writeSeat: (seat) =>
      inTransaction(async (trx) => {
        await trx('seat')
          .insert({ name: 'settings', body: JSON.stringify(seat) })
          .onConflict('name')
          .merge();
      }),
    close: () => write(() => db.destroy()),
  };
}
