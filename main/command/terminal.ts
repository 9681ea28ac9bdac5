/** Where a command reads and writes; exit codes are the same for all of them. */
export interface Terminal {
  /** Results, on standard output. */
  print(text: string): void;
  /** Errors and remarks, as sentences, on standard error. */
  remark(text: string): void;
  /** Called once when the user asks to stop (Ctrl-C). */
  onStop(stop: () => void): void;
  /** Where the planning threads begin. */
  readonly worker: URL;
  /** The folder of the built screens. */
  readonly screens: string;
}

export const DONE = 0;
/** No legal plan. */
export const NO_PLAN = 1;
export const BAD_INPUT = 2;
export type ExitCode = typeof DONE | typeof NO_PLAN | typeof BAD_INPUT;
