import type { Server } from 'node:http';
import { WebSocketServer } from 'ws';
import { z } from 'zod';
import { messageOf } from '../refusal';
import type { Services } from '../services';
import type { Guard } from './guard';

/** Large enough for a shop file of thousands of jobs, small enough not to fill the memory. */
const MAX_MESSAGE_BYTES = 64 * 1024 * 1024;

const request = z.object({ id: z.number(), call: z.unknown(), sent: z.unknown() });

/**
 * The contract over a WebSocket at `/api`: `{id, call, sent}` is answered by `{id, reply}`, and what the services say
 * of themselves comes as `{event, data}`.
 */
export function carrySocket(server: Server, guard: Guard, services: Services): { close(): void } {
  const sockets = new WebSocketServer({ noServer: true, maxPayload: MAX_MESSAGE_BYTES });

  server.on('upgrade', (upgrade, socket, head) => {
    const [path] = (upgrade.url ?? '').split('?');
    // A browser always says where the page came from; without it there is no telling.
    if (
      path !== '/api' ||
      upgrade.headers.origin === undefined ||
      !guard.fromHere(upgrade) ||
      !guard.knowsKey(upgrade)
    ) {
      socket.end('HTTP/1.1 403 Forbidden\r\nConnection: close\r\n\r\n');
      return;
    }
    sockets.handleUpgrade(upgrade, socket, head, (client) => sockets.emit('connection', client, upgrade));
  });

  sockets.on('connection', (client) => {
    client.on('error', (error) => console.error(`A screen's connection failed: ${messageOf(error)}`));
    client.on('message', async (data) => {
      const message = readRequest(String(data));
      if (message === null) return client.close(1007, 'not a request of the contract');
      const reply = await services.call(message.call, message.sent);
      client.send(JSON.stringify({ id: message.id, reply }));
    });
  });

  const unlisten = services.listen((event, data) => {
    for (const client of sockets.clients) client.send(JSON.stringify({ event, data }));
  });

  return {
    close() {
      unlisten();
      for (const client of sockets.clients) client.terminate();
      sockets.close();
    },
  };
}

function readRequest(text: string): z.infer<typeof request> | null {
  try {
    return request.parse(JSON.parse(text));
  } catch {
    return null;
  }
}
