import type { KindLedger, NightOutcome, Presets, Purchase, Shortage, StopCause, Swap, ToolLeft } from '../night';
import type { Minute } from '../time';

export type { KindLedger, NightOutcome, Presets, Purchase, Shortage, StopCause, ToolLeft };

/** What tonight will make of a stored plan: simulated nights, tools, and what to see to before going home. */
export interface TonightView {
  /** Of the plan. */
  readonly id: number;
  readonly outcome: NightOutcome;
  readonly swap: Omit<Swap, 'plan'> | null;
  readonly tools: readonly KindLedger[];
  readonly presets: Presets;
  readonly checks: readonly HomeCheck[];
}

/** One thing to see to before going home. */
export interface HomeCheck {
  /** Names it, to be ticked off. */
  readonly key: string;
  readonly say: string;
  /** When the plan has it, or null where it has no time of its own. */
  readonly at: Minute | null;
}

/** A plan people work by: it no longer changes. */
export interface Release {
  /** Local time in the shop's zone. */
  readonly at: string;
  /** Keys of what was seen to by then. */
  readonly checked: readonly string[];
}
