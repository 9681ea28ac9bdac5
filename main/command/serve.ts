import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Refusal, refusal } from '../refusal';
import type { Seat } from '../seat';
import type { LoopbackServer } from '../server';
import { openBrowser } from './browser';
import type { Command } from './command';
import { DONE, type Terminal } from './terminal';

/** Tried first, so that the address is the same each time but for its key. */
const USUAL_PORT = 4717;

export const serve: Command = {
  name: 'serve',
  line: '[--port N] [--data DIR] [--at TIME] [--open]',
  summary: 'Serves the screens to a browser on this computer; --at stops the clock, --open opens the browser.',
  words: [],
  options: { port: { type: 'string' }, data: { type: 'string' }, at: { type: 'string' }, open: { type: 'boolean' } },
  async run(given, terminal) {
    if (!existsSync(join(terminal.screens, 'index.html'))) {
      throw refusal('not-built', 'The screens are not built yet. Run npm start, or npm run build first.');
    }
    // Read only here: the other commands start sooner without a database and a server.
    const [{ openSeat }, { HIGHEST_PORT }] = await Promise.all([import('../seat'), import('../server')]);
    const port = given.text('port') === null ? process.env.PORT : `${given.whole('port', 0, 0, HIGHEST_PORT)}`;
    const at = given.time('at');
    const seat = await openSeat({ data: given.text('data'), at, worker: terminal.worker });
    try {
      const server = await listen(seat, port === undefined || port === '' ? null : Number(port), terminal);
      const stopped = new Promise<void>((resolve) => terminal.onStop(resolve));
      terminal.print(`Nightload is at ${server.address}\nIts shop is in ${seat.folder}. Ctrl-C ends it.`);
      if (given.flag('open')) openBrowser(server.address, process.platform, process.env);
      await stopped;
      await server.close();
      return DONE;
    } finally {
      await seat.close();
    }
  },
};

/** The port asked for; if none was, the usual one or, where it is taken, any. */
async function listen(seat: Seat, wanted: number | null, { screens }: Terminal): Promise<LoopbackServer> {
  const { serveLoopback } = await import('../server');
  try {
    return await serveLoopback(seat.services, screens, wanted ?? USUAL_PORT);
  } catch (error) {
    const taken = error instanceof Refusal && error.faults[0]?.code === 'port-taken';
    if (wanted !== null || !taken) throw error;
    return serveLoopback(seat.services, screens, 0);
  }
}
