import type { Api, CallName, EventName, Events, Reply, Returned } from '../../core/contract';
import { type ConnectionStore, createConnectionStore } from './connection';

/** Waits between tries, milliseconds; the last one again and again. */
const WAITS = [300, 700, 1500, 3000, 5000];
/** A first connection that takes longer than this is not coming. */
const OPENING_MS = 8000;
/** No call takes longer: planning answers at once and tells its end by an event. */
const ANSWER_MS = 60_000;

export interface Carried {
  readonly api: Api;
  readonly connection: ConnectionStore;
}

type Answer = (reply: Reply<unknown>) => void;
type Hearer = (event: Events[EventName]) => void;

/**
 * The contract over a WebSocket: `{id, call, sent}` is answered by `{id, reply}`, events come as `{event, data}`. A
 * lost connection is tried again; calls that cannot be sent or answered are refused with a sentence, and none hangs.
 */
export function socketApi(address: string): Carried {
  const connection = createConnectionStore('connecting');
  const waiting = new Map<number, Answer>();
  const hearers = new Map<EventName, Set<Hearer>>();
  let socket: WebSocket;
  let tries = 0;
  let calls = 0;
  let opened: Promise<void>;

  function open(): void {
    const mine = new WebSocket(address);
    socket = mine;
    const patience = setTimeout(() => mine.close(), OPENING_MS);
    opened = new Promise((resolve) => {
      const settle = (): void => {
        clearTimeout(patience);
        resolve();
      };
      mine.addEventListener('open', () => {
        tries = 0;
        connection.setState({ connection: 'up' });
        settle();
      });
      mine.addEventListener('close', () => {
        connection.setState({ connection: 'lost' });
        settle();
        for (const answer of waiting.values()) answer(unanswered);
        waiting.clear();
        setTimeout(open, WAITS[Math.min(tries++, WAITS.length - 1)]);
      });
    });
    mine.addEventListener('message', (message) => hear(JSON.parse(String(message.data))));
  }

  function hear(message: { id?: number; reply?: Reply<unknown>; event?: EventName; data?: Events[EventName] }): void {
    if (message.event !== undefined && message.data !== undefined) {
      for (const hearer of hearers.get(message.event) ?? []) hearer(message.data);
    } else if (message.id !== undefined && message.reply !== undefined) {
      waiting.get(message.id)?.(message.reply);
      waiting.delete(message.id);
    }
  }

  async function call<K extends CallName>(name: K, sent: unknown): Promise<Reply<Returned<K>>> {
    // Only the very first calls wait for the connection; once it was lost they are refused at once.
    if (connection.getState().connection === 'connecting') await opened;
    if (socket.readyState !== WebSocket.OPEN) return refused(NOT_SENT);
    const id = ++calls;
    return new Promise((resolve) => {
      const patience = setTimeout(() => {
        waiting.delete(id);
        resolve(refused(TOO_LONG));
      }, ANSWER_MS);
      waiting.set(id, (reply) => {
        clearTimeout(patience);
        resolve(reply as Reply<Returned<K>>);
      });
      socket.send(JSON.stringify({ id, call: name, sent }));
    });
  }

  open();
  return {
    api: {
      call,
      on(name, hearer) {
        const known = hearers.get(name) ?? new Set();
        hearers.set(name, known.add(hearer as Hearer));
        return () => known.delete(hearer as Hearer);
      },
    },
    connection,
  };
}

const NOT_SENT =
  'The connection to the program is lost, so this was not sent. It is being tried again; repeat this then.';
const NOT_ANSWERED =
  'The connection to the program was lost before it answered. Look whether this was taken once it is back; repeat it if not.';
const TOO_LONG =
  'The program has not answered for a minute. Look whether this was taken; if not, start the program anew.';

function refused<T>(say: string): Reply<T> {
  return { ok: false, faults: [{ code: 'no-connection', at: [], say, level: 'error' }] };
}

const unanswered = refused<unknown>(NOT_ANSWERED);
