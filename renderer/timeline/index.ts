export type { Move, Trial } from './drag/move';
export { indexPlan, type PlanIndex, personName } from './plan-index';
export type { Ghost } from './rows/ghosts';
export type { ToolLine } from './rows/tool-rows';
export { type Selection, sameSelection } from './selection';
export { Timeline } from './timeline';
export { type Facts, factsOf, REASON_WORDS, whenText } from './words';
