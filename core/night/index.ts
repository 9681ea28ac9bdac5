export {
  type KindLedger,
  type PlannedAct,
  type ToolLedger,
  type ToolLeft,
  toolLedger,
  type WheelLedger,
} from './ledger';
export type { Shortage, SpentTool } from './ledger-replay';
export type { GivesNoMore } from './ledger-sisters';
export { type Preset, type Presets, toolsToPreset } from './presets';
