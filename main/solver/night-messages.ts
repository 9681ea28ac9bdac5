import type { NightOutcome, Purchase, Swap } from '../../core/night';
import type { Plan, Shop } from '../../core/shop';

/** A plan to be studied. */
export interface NightJob {
  readonly shop: Shop;
  readonly plan: Plan;
  readonly nights: number;
  readonly seed: number;
}

/** What simulated nights make of a plan, and the one exchange that gains most. */
export interface NightStudied {
  readonly outcome: NightOutcome;
  readonly swap: Omit<Swap, 'plan'> | null;
}

/** Asks what one thing more would bring. */
export interface BuyJob extends NightJob {
  /** Local time of the plan's moment. */
  readonly at: string;
  /** Of planning anew, for each thing. */
  readonly seconds: number;
  /** Local time of a visit in the night; null for the middle of it. */
  readonly visitAt: string | null;
}

export type ToNights =
  | { readonly type: 'study'; readonly id: number; readonly job: NightJob }
  | { readonly type: 'buy'; readonly id: number; readonly job: BuyJob };

export type FromNights =
  | { readonly type: 'studied'; readonly id: number; readonly studied: NightStudied }
  /** `left`: things still to be worked out. */
  | { readonly type: 'bought'; readonly id: number; readonly purchase: Purchase; readonly left: number }
  | { readonly type: 'done'; readonly id: number }
  | { readonly type: 'failed'; readonly id: number; readonly say: string };
