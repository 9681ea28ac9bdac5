import type { Fault } from '../core/shop';

/** Thrown for what can be expected to go wrong; carries the sentences that people read. */
export class Refusal extends Error {
  readonly faults: readonly Fault[];

  constructor(faults: readonly Fault[]) {
    super(faults.map((fault) => fault.say).join('\n'));
    this.name = 'Refusal';
    this.faults = faults;
  }
}

/** A refusal of one sentence about the whole of what was asked. */
export function refusal(code: string, say: string): Refusal {
  return new Refusal([{ code, at: [], say, level: 'error' }]);
}

/** What an unknown error says of itself. */
export function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

/** The system's code of an error, such as `ENOENT` or `SQLITE_BUSY`, or an empty text. */
export function codeOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  return typeof code === 'string' ? code : '';
}
