import { randomBytes, timingSafeEqual } from 'node:crypto';
import type { IncomingMessage } from 'node:http';

/** Who may talk to the loopback server: a browser on this computer that was given the key. */
export interface Guard {
  readonly key: string;
  /** The `set-cookie` header by which a browser keeps the key. */
  readonly cookie: string;
  /** Another site's page, or a name that was made to point here, is told apart by these two headers. */
  fromHere(request: IncomingMessage): boolean;
  knowsKey(request: IncomingMessage): boolean;
  isKey(offered: string | null): boolean;
}

const KEY_BYTES = 24;

export function createGuard(port: number): Guard {
  const key = randomBytes(KEY_BYTES).toString('base64url');
  // Cookies are shared by all ports of a host, so two servers need two names.
  const name = `nightload-${port}`;
  const hosts = [`127.0.0.1:${port}`, `localhost:${port}`];
  const isKey = (offered: string | null): boolean => {
    const [given, wanted] = [Buffer.from(offered ?? ''), Buffer.from(key)];
    return given.length === wanted.length && timingSafeEqual(given, wanted);
  };
  return {
    key,
    cookie: `${name}=${key}; HttpOnly; SameSite=Strict; Path=/`,
    fromHere({ headers }) {
      const host = headers.host ?? '';
      return hosts.includes(host) && (headers.origin === undefined || headers.origin === `http://${host}`);
    },
    knowsKey({ headers }) {
      const kept = (headers.cookie ?? '').split(';').map((part) => part.trim().split('='));
      return isKey(kept.find(([cookie]) => cookie === name)?.[1] ?? null);
    },
    isKey,
  };
}
