import type { Api, CallName, EventName, Events, Reply, Returned, Sent } from '../../../core/contract';

type Answers = { [K in CallName]?: (sent: Sent<K>) => Reply<Returned<K>> };

/** A stand-in for the services: answers as told, remembers what was asked, and says what a test makes it say. */
export class FakeApi implements Api {
  readonly asked: { name: CallName; sent: unknown }[] = [];
  private readonly ears = new Map<EventName, Set<(event: never) => void>>();

  constructor(private readonly answers: Answers) {}

  async call<K extends CallName>(name: K, sent: Sent<K>): Promise<Reply<Returned<K>>> {
    this.asked.push({ name, sent });
    const answer = this.answers[name];
    if (answer === undefined) throw new Error(`no answer prepared for ${name}`);
    return answer(sent);
  }

  on<K extends EventName>(name: K, hear: (event: Events[K]) => void): () => void {
    const ears = this.ears.get(name) ?? new Set();
    this.ears.set(name, ears.add(hear));
    return () => ears.delete(hear);
  }

  say<K extends EventName>(name: K, event: Events[K]): void {
    for (const hear of this.ears.get(name) ?? []) hear(event as never);
  }

  times(name: CallName): number {
    return this.asked.filter((call) => call.name === name).length;
  }
}
