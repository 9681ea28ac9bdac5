/** What a run over many instances leaves behind, for the history and for `--json`. */
export interface Report {
  /** One record an instance, with everything measured. */
  readonly rows: readonly Readonly<Record<string, unknown>>[];
  readonly sets: readonly SetResult[];
  /** Sentences; with any, the run has failed. */
  readonly failures: readonly string[];
}

/** The mean over a set. */
export interface SetResult {
  readonly set: string;
  readonly instances: number;
  /** Mean distance from the best known makespan, or from the bound where nothing is published, percent. */
  readonly distance: number | null;
  /** Instances on which the best known is reached, or the bound met. */
  readonly reached: number;
}

export type Print = (text: string) => void;
