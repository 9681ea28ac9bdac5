import { createServer, type IncomingMessage, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { type Page, pageAt, plainPage, SECURITY_HEADERS } from '../pages';
import { codeOf, refusal } from '../refusal';
import type { Services } from '../services';
import { createGuard, type Guard } from './guard';
import { carrySocket } from './socket';

const LOOPBACK = '127.0.0.1';
export const HIGHEST_PORT = 65_535;

export interface LoopbackServer {
  readonly port: number;
  /** The address with its key: who has it, has the shop. */
  readonly address: string;
  close(): Promise<void>;
}

/**
 * Serves the screens under `root` and the contract to browsers of this computer only. Port 0 is any free one; a taken
 * or impossible port is a Refusal.
 */
export async function serveLoopback(services: Services, root: string, port: number): Promise<LoopbackServer> {
  if (!Number.isInteger(port) || port < 0 || port > HIGHEST_PORT) {
    throw refusal('bad-port', `${port} is no port; give a whole number from 0 (any free port) to ${HIGHEST_PORT}.`);
  }
  const server = createServer();
  await new Promise<void>((resolve, reject) => {
    server.once('error', (error) => {
      if (codeOf(error) === 'EADDRINUSE') {
        reject(refusal('port-taken', `Port ${port} is taken by another program; give another, or 0 for any free one.`));
      } else if (codeOf(error) === 'EACCES') {
        reject(refusal('port-forbidden', `Port ${port} is not open to this user; give one above 1023, or 0.`));
      } else reject(error);
    });
    server.listen(port, LOOPBACK, resolve);
  });
  const { port: bound } = server.address() as AddressInfo;
  const guard = createGuard(bound);
  server.on('request', async (request, response) => send(response, await pageFor(request, guard, root)));
  const socket = carrySocket(server, guard, services);
  return {
    port: bound,
    address: `http://${LOOPBACK}:${bound}/?key=${guard.key}`,
    close: () =>
      new Promise((resolve) => {
        socket.close();
        server.close(() => resolve());
        server.closeAllConnections();
      }),
  };
}

async function pageFor(request: IncomingMessage, guard: Guard, root: string): Promise<Page> {
  if (!guard.fromHere(request)) return plainPage(403, 'This address is only for pages of this program itself.');
  if (request.method !== 'GET' && request.method !== 'HEAD') return plainPage(405, 'Only reading is possible here.');
  // Not through `new URL(url)`: it would resolve dots in the path before they are looked at.
  const [path = '/', query = ''] = (request.url ?? '/').split('?');
  if (guard.isKey(new URLSearchParams(query).get('key'))) return welcome(guard);
  if (guard.knowsKey(request)) return pageAt(root, path);
  return plainPage(403, 'This page needs its key. Open the address that the program printed when it started.');
}

/**
 * Leaves the key in a cookie and goes on to the screens. Not a redirect: when the address was opened from another
 * site's page (a mail, a chat), a browser would send no strict cookie along a redirect.
 */
function welcome(guard: Guard): Page {
  return {
    status: 200,
    headers: { ...SECURITY_HEADERS, 'content-type': 'text/html; charset=utf-8', 'set-cookie': guard.cookie },
    body: '<!doctype html><meta charset="utf-8"><title>Nightload</title><meta http-equiv="refresh" content="0;url=/">',
  };
}

function send(response: ServerResponse, { status, headers, body }: Page): void {
  response.writeHead(status, headers).end(body);
}
