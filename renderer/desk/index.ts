export { createDeskStore, type DeskStore } from './desk-store';
export { HeldList } from './held-list';
export { HoldControls } from './hold-controls';
export { holdOf } from './holds';
export { RushPanel } from './rush-panel';
export { Substitutes } from './substitutes';
export { useAnswer } from './use-answer';
export { type Moving, useMoving } from './use-moving';
export { WhyLines } from './why-lines';
