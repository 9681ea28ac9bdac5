import type { CallName, Reply, Returned, Sent } from '../../core/contract';
import { Refusal } from '../refusal';
import type { Seat } from '../seat';
import type { Given } from './arguments';
import type { Command } from './command';
import { readTextFile, writeTextFile } from './files';
import { DONE, type Terminal } from './terminal';

/** The commands on the shop that the window shows, through the same services. */

export const exportShop: Command = {
  name: 'export',
  line: 'FILE.json [--data DIR] [--force]',
  summary: 'Writes the stored shop to a shop file; keeps a file that is there already, unless forced.',
  words: ['a file to write'],
  options: { data: { type: 'string' }, force: { type: 'boolean' } },
  async run(given, terminal) {
    const file = given.word(0);
    const { text } = await withSeat(given, terminal, (seat) => ask(seat, 'shop.export', null));
    await writeTextFile(file, text, given.flag('force'));
    terminal.print(`The stored shop was written to ${file}.`);
    return DONE;
  },
};

export const importShop: Command = {
  name: 'import',
  line: 'FILE.json [--data DIR]',
  summary: 'Puts a shop file in place of the stored shop, of which a dated backup is kept.',
  words: ['a shop file'],
  options: { data: { type: 'string' } },
  async run(given, terminal) {
    const file = given.word(0);
    const text = await readTextFile(file);
    const { shop, faults } = await withSeat(given, terminal, (seat) => ask(seat, 'shop.import', { text }, file));
    terminal.print(`${shop.name} is now the stored shop; the one before it is in the folder backups.`);
    for (const fault of faults) terminal.remark(fault.say);
    return DONE;
  },
};

async function withSeat<T>(given: Given, { worker }: Terminal, work: (seat: Seat) => Promise<T>): Promise<T> {
  // Read only here: the other commands start sooner without a database.
  const { openSeat } = await import('../seat');
  const seat = await openSeat({ data: given.text('data'), at: null, worker });
  try {
    return await work(seat);
  } finally {
    await seat.close();
  }
}

async function ask<K extends CallName>(seat: Seat, name: K, sent: Sent<K>, file?: string): Promise<Returned<K>> {
  const reply = (await seat.services.call(name, sent)) as Reply<Returned<K>>;
  if (reply.ok) return reply.value;
  throw new Refusal(
    reply.faults.map((fault) => (file === undefined ? fault : { ...fault, say: `${file}: ${fault.say}` })),
  );
}
