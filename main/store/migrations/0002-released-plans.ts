import type { Knex } from 'knex';

/** Plans people work by: when each was released, and what had been seen to. */
export async function up(db: Knex): Promise<void> {
  await db.schema.createTable('releases', (table) => {
    table.integer('plan').primary().references('id').inTable('plans').onDelete('CASCADE');
    table.text('body').notNullable();
  });
}
