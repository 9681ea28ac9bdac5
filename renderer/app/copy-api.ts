import type { Api, CallName, EventName, Events, Reply, Returned, Sent } from '../../core/contract';

/** The contract on a copy of the shop, and how to stop hearing of it. */
export interface CopyApi extends Api {
  close(): void;
}

/** Calls that are the shop's, or the seat's, whoever asks. */
const NOT_OF_A_COPY = /^(copy|seat)\./;

/** Asks a copy in place of the shop, and hears what its services say; choices of the seat and copies stay the shop's. */
export function copyApi(api: Api, copy: string): CopyApi {
  const deaf = new Set<() => void>();
  return {
    call<K extends CallName>(call: K, sent: Sent<K>): Promise<Reply<Returned<K>>> {
      if (NOT_OF_A_COPY.test(call)) return api.call(call, sent);
      // The services answer a copy's call as they answer it of the shop.
      return api.call('copy.call', { copy, call, sent }) as Promise<Reply<Returned<K>>>;
    },
    on<K extends EventName>(name: K, hear: (event: Events[K]) => void): () => void {
      const unlisten = NOT_OF_A_COPY.test(name)
        ? api.on(name, hear)
        : api.on('copy.said', (said) => {
            if (said.copy === copy && said.event === name) hear(said.data as Events[K]);
          });
      deaf.add(unlisten);
      return unlisten;
    },
    close() {
      for (const unlisten of deaf) unlisten();
    },
  };
}
