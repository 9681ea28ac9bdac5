import { startWorker } from './thread';

/** What every message of such a thread carries: the question it answers. */
interface Answer {
  readonly type: string;
  readonly id: number;
}

interface Waiting {
  readonly id: number;
  hear(message: Answer): void;
  supersede(): void;
  fail(say: string): void;
}

/**
 * A thread that is asked and answers, once or several times. Of one kind of question only the newest is waited for: the
 * one before resolves with what stands for "superseded". Started with the first question, and again after it has died.
 */
export class AskingThread<Question extends { readonly type: string; readonly id: number }, From extends Answer> {
  private worker: ReturnType<typeof startWorker> | null = null;
  private ids = 0;
  private readonly waiting = new Map<string, Waiting>();

  /** `what`: the thread in words, for what is said when it dies. */
  constructor(
    private readonly url: URL,
    private readonly what: string,
  ) {}

  ask<T>(
    question: Omit<Question, 'id'> & { readonly type: Question['type'] },
    superseded: T,
    hear: (message: From, resolve: (value: T) => void, reject: (say: string) => void) => void,
  ): Promise<T> {
    const { type } = question;
    this.waiting.get(type)?.supersede();
    const id = ++this.ids;
    return new Promise<T>((resolve, reject) => {
      const end = (): void => {
        if (this.waiting.get(type)?.id === id) this.waiting.delete(type);
      };
      const fail = (say: string): void => {
        end();
        reject(new Error(say));
      };
      const settle = (value: T): void => {
        end();
        resolve(value);
      };
      this.waiting.set(type, {
        id,
        supersede: () => resolve(superseded),
        fail,
        hear: (message) => hear(message as From, settle, fail),
      });
      this.worker ??= this.started();
      this.worker.postMessage({ ...question, id });
    });
  }

  async close(): Promise<void> {
    const ended = this.worker;
    this.worker = null;
    await ended?.terminate();
  }

  private started() {
    const thread = startWorker(this.url);
    thread.on('message', (message: Answer) => {
      for (const one of this.waiting.values()) if (one.id === message.id) one.hear(message);
    });
    const died = (say: string): void => {
      if (this.worker !== thread) return;
      this.worker = null;
      const waiting = [...this.waiting.values()];
      this.waiting.clear();
      for (const one of waiting) one.fail(say);
    };
    thread.on('error', (error) => died(error instanceof Error ? error.message : String(error)));
    thread.on('exit', () => died(`${this.what} ended`));
    return thread;
  }
}
