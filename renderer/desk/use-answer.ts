import { useEffect, useState } from 'react';
import type { Api, CallName, Reply, Returned, Sent } from '../../core/contract';

/** The answer to a question about a stored plan, asked anew when the question changes; null until it is there, or for no question. */
export function useAnswer<K extends CallName>(api: Api, name: K, sent: Sent<K> | null): Reply<Returned<K>> | null {
  const key = JSON.stringify(sent);
  const [answer, setAnswer] = useState<{ readonly key: string; readonly reply: Reply<Returned<K>> } | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key stands for what is sent, which is made anew each time
  useEffect(() => {
    if (sent === null) return;
    let isWanted = true;
    void api.call(name, sent).then((reply) => {
      if (isWanted) setAnswer({ key, reply });
    });
    return () => {
      isWanted = false;
    };
  }, [api, name, key]);
  return sent !== null && answer?.key === key ? answer.reply : null;
}
