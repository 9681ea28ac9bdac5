import type { Knex } from 'knex';

/** The shop row by row, its plans with the shop each was made for, and the choices of this seat. */
export async function up(db: Knex): Promise<void> {
  await db.schema.createTable('records', (table) => {
    table.text('kind').notNullable();
    table.integer('position').notNullable();
    // Not unique: a shop whose ids repeat can be kept and mended, it only can't be planned.
    table.text('id').notNullable();
    table.text('body').notNullable();
    table.primary(['kind', 'position']);
  });
  await db.schema.createTable('shop', (table) => {
    table.integer('one').primary();
    table.integer('revision').notNullable();
    table.text('settings').notNullable();
  });
  await db.schema.createTable('snapshots', (table) => {
    table.integer('revision').primary();
    table.text('body').notNullable();
  });
  await db.schema.createTable('plans', (table) => {
    table.increments('id');
    table.text('made').notNullable();
    table.integer('revision').notNullable().references('revision').inTable('snapshots');
    table.text('cost').notNullable();
    table.text('body').notNullable();
  });
  await db.schema.createTable('seat', (table) => {
    table.text('name').primary();
    table.text('body').notNullable();
  });
}
