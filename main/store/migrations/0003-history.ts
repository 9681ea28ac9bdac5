import type { Knex } from 'knex';

/** Every change of the desk with the way back, the plan that counts, names of plans, and what a copy of the shop is of. */
export async function up(db: Knex): Promise<void> {
  await db.schema.alterTable('shop', (table) => {
    table.integer('plan');
    // The revision with which this shop came in place of another; its plans carry it, too.
    table.integer('epoch').notNullable().defaultTo(0);
  });
  await db.schema.alterTable('plans', (table) => {
    table.integer('epoch').notNullable().defaultTo(0);
    table.text('name');
  });
  const newest = await db('plans').max<{ id: number | null }[]>('id as id').first();
  await db('shop').update({ plan: newest?.id ?? null });
  await db.schema.createTable('changes', (table) => {
    table.increments('id');
    table.text('made').notNullable();
    table.text('say').notNullable();
    table.boolean('undone').notNullable().defaultTo(false);
    table.binary('body').notNullable();
  });
  await db.schema.createTable('origin', (table) => {
    table.integer('one').primary();
    table.text('name').notNullable();
    table.text('made').notNullable();
    table.text('base').notNullable();
  });
}
