import type { Api } from '../../core/contract';
import { createConnectionStore } from './connection';
import { type Carried, socketApi } from './socket-api';

declare global {
  interface Window {
    /** Put there by the program's own window; missing in a browser. */
    readonly nightload?: Api;
  }
}

/** How this page reaches the services: through its own window, or else over the socket of where it came from. */
export function carriedApi(): Carried {
  const own = window.nightload;
  if (own !== undefined) return { api: own, connection: createConnectionStore('up') };
  return socketApi(`${window.location.origin.replace(/^http/, 'ws')}/api`);
}
