import { dirname } from 'node:path';
import type { Knex } from 'knex';
import { z } from 'zod';
import type { LoggedChange, PlanSummary, Release, SeatSettings, WayBack } from '../../core/contract';
import type { Plan, Shop } from '../../core/shop';
import { Refusal, refusal } from '../refusal';
import { backupsOf } from './backups';
import { readBody } from './bodies';
import { listChanges, logged, step, wayBack } from './changes';
import { copyShop, type Origin, readOrigin } from './copy';
import { damaged, openDatabase } from './open';
import { addPlan, listPlans, readPlan, releasePlan, type StoredPlan } from './plan-rows';
import { readShop, type StoredShop, writeShop } from './shop-rows';
import { writeQueue } from './write-queue';

export const seatSchema = z.object({
  theme: z.enum(['system', 'light', 'dark'], 'must be system, light or dark'),
  planSeconds: z.number().min(0.1, 'must be at least 0.1 seconds').max(3600, 'must be at most an hour'),
}) satisfies z.ZodType<SeatSettings>;

const FIRST_SEAT: SeatSettings = { theme: 'system', planSeconds: 5 };

/** The shop after a change; `change` is the number to join to it what belongs to it, null if nothing changed. */
export interface Changed extends StoredShop {
  readonly change: number | null;
}

/** A plan to be kept, which then is the one that counts. */
export interface NewPlan {
  readonly plan: Plan;
  readonly of: StoredShop;
  /** Local time in the shop's zone. */
  readonly made: string;
  /** What undo calls it. */
  readonly say: string;
  /** The change of the shop it belongs to: both are undone together. */
  readonly joins?: number | null;
}

/**
 * One shop in one file, every change of it with the way back. Every method throws a Refusal with the sentence to show
 * when the file can't serve it.
 */
export interface Store {
  readonly file: string;
  /** The folder it is in. */
  readonly folder: string;
  readShop(): Promise<StoredShop>;
  /** One change of the shop, on top of all changes before it; `say` is what undo calls it. */
  changeShop(say: string, change: (shop: Shop) => Shop, joins?: number | null): Promise<Changed>;
  /** Another shop in place of this one and its plans; a dated backup is made first. */
  replaceShop(shop: Shop, why: 'import' | 'reset'): Promise<Changed>;
  undo(): Promise<StoredShop>;
  redo(): Promise<StoredShop>;
  wayBack(): Promise<WayBack>;
  /** Newest first. */
  listChanges(): Promise<LoggedChange[]>;
  addPlan(plan: NewPlan): Promise<number>;
  readPlan(which: number | 'current' | 'released'): Promise<StoredPlan | null>;
  /** Makes an earlier plan the one that counts; with the shop it was made for, if asked. */
  usePlan(id: number, say: string, shop: Shop | null): Promise<StoredShop>;
  /** An empty name takes the name away. */
  namePlan(id: number, name: string): Promise<void>;
  releasePlan(id: number, release: Release): Promise<void>;
  /** The plans of this shop, newest first. */
  listPlans(): Promise<PlanSummary[]>;
  /** A copy of shop and plans in a new file, without the way back; `readOrigin` of it tells what it is a copy of. */
  copyTo(file: string, name: string): Promise<void>;
  /** Null where this is no copy. */
  readOrigin(): Promise<Origin | null>;
  nameCopy(name: string): Promise<void>;
  /** Moves a file of a copy, that nobody has open, to the backups. */
  keepAside(file: string): Promise<void>;
  readSeat(): Promise<SeatSettings>;
  writeSeat(seat: SeatSettings): Promise<void>;
  close(): Promise<void>;
}

/**
 * Opens the shop in `file`; where there is none yet, begins with `first()`. `now` gives the local wall time
 * `YYYY-MM-DDTHH:MM` by which backups and changes are dated. Of a copy no daily backup is made.
 */
export async function openStore(
  file: string,
  first: () => Shop,
  now: () => string,
  { isCopy = false } = {},
): Promise<Store> {
  const db = await openDatabase(file);
  const backups = backupsOf(db, dirname(file), now);
  const write = writeQueue();

  const underWay = new Set<Promise<unknown>>();
  let closed = false;
  const guarded = async <T>(work: () => Promise<T>): Promise<T> => {
    if (closed) throw refusal('closed', `${file} is closed. Start the program again.`);
    const working = work();
    underWay.add(working);
    try {
      return await working;
    } catch (error) {
      throw error instanceof Refusal ? error : damaged(file, error);
    } finally {
      underWay.delete(working);
    }
  };
  const inTransaction = <T>(work: (trx: Knex) => Promise<T>): Promise<T> =>
    write(() => guarded(() => db.transaction((trx) => work(trx))));
  const shopIn = async (at: Knex): Promise<StoredShop> => {
    const stored = await readShop(at, backups.folder);
    if (stored === null) throw refusal('no-shop', `${file} holds no shop. Import a shop file.`);
    return stored;
  };

  const tracked = <T>(
    say: string,
    joins: number | null,
    work: (trx: Knex) => Promise<T>,
  ): Promise<{ value: T; change: number | null }> =>
    inTransaction((trx) => logged(trx, { say, made: now(), joins }, () => work(trx)));
  const changed = async (
    say: string,
    joins: number | null,
    work: (trx: Knex) => Promise<StoredShop>,
  ): Promise<Changed> => {
    const { value, change } = await tracked(say, joins, work);
    return { ...value, change };
  };
  const stepped = (direction: 'undo' | 'redo'): Promise<StoredShop> =>
    inTransaction(async (trx) => {
      await step(trx, direction);
      await trx('shop').increment('revision', 1);
      return shopIn(trx);
    });

  await inTransaction(async (trx) => {
    if ((await trx('shop').first()) === undefined) await writeShop(trx, first());
  });
  if (!isCopy) await guarded(() => backups.daily());

  return {
    file,
    folder: dirname(file),
    readShop: () => guarded(() => shopIn(db)),
    changeShop: (say, change, joins = null) =>
      changed(say, joins, async (trx) => {
        const shop = change((await shopIn(trx)).shop);
        return { shop, revision: await writeShop(trx, shop) };
      }),
    replaceShop: async (shop, why) => {
      await write(() => guarded(() => backups.before(why)));
      return changed(why === 'import' ? 'Import a shop file' : 'Begin another shop', null, async (trx) => {
        const revision = await writeShop(trx, shop);
        await trx('shop').update({ plan: null, epoch: revision });
        return { shop, revision };
      });
    },
    undo: () => stepped('undo'),
    redo: () => stepped('redo'),
    wayBack: () => guarded(() => wayBack(db)),
    listChanges: () => guarded(() => listChanges(db)),
    addPlan: async ({ plan, of, made, say, joins = null }) =>
      (await tracked(say, joins, (trx) => addPlan(trx, plan, of.shop, of.revision, made))).value,
    usePlan: (id, say, shop) =>
      changed(say, null, async (trx) => {
        await trx('shop').update({ plan: id });
        if (shop === null) return shopIn(trx);
        return { shop, revision: await writeShop(trx, shop) };
      }),
    namePlan: async (id, name) => {
      const say = name === '' ? `Take the name off plan ${id}` : `Name plan ${id} “${name}”`;
      await tracked(say, null, (trx) =>
        trx('plans')
          .where({ id })
          .update({ name: name === '' ? null : name }),
      );
    },
    releasePlan: async (id, release) => {
      await tracked(`Release plan ${id}`, null, (trx) => releasePlan(trx, id, release));
    },
    readPlan: (which) => guarded(() => readPlan(db, which, backups.folder)),
    listPlans: () => guarded(() => listPlans(db, backups.folder)),
    copyTo: (to, name) =>
      write(() => guarded(async () => copyShop(db, to, { name, made: now(), base: (await shopIn(db)).shop }))),
    readOrigin: () => guarded(() => readOrigin(db, backups.folder)),
    nameCopy: (name) => inTransaction(async (trx) => void (await trx('origin').update({ name }))),
    keepAside: (copy) => guarded(() => backups.keep(copy, 'copy')),
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
    close: () =>
      write(async () => {
        closed = true;
        // A read that still waits for its turn when the connection goes never ends, and the program with it.
        await Promise.allSettled(underWay);
        await db.destroy();
      }),
  };
}
