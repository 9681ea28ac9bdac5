import type { Plan, Shop } from '../shop';
import type { NightOptions, NightOutcome } from './outcome';
import { NightStudy } from './outcomes';

export { bestSwap, type Candidate, compareNights, type NightComparison, type Swap } from './compare';
export {
  type KindLedger,
  type PlannedAct,
  type ToolLedger,
  type ToolLeft,
  toolLedger,
  type WheelLedger,
} from './ledger';
export type { CoursePoint, Shortage, SpentTool } from './ledger-replay';
export type { GivesNoMore } from './ledger-sisters';
export { expectedInOrder, orderByOdds, type UncertainRun } from './odds';
export * from './outcome';
export { NightStudy } from './outcomes';
export { type Preset, type Presets, toolsToPreset } from './presets';
export * from './purchases';

/**
 * Simulates nights of a plan and says what they make of it. The plan must be legal for the shop. The same shop, plan,
 * number of nights and seed give the same outcome.
 */
export function simulateNights(shop: Shop, plan: Plan, options: NightOptions): NightOutcome {
  const study = new NightStudy(shop, plan, options);
  study.play(options.nights);
  return study.outcome();
}
