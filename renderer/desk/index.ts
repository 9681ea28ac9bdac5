export { createDeskStore, type DeskStore, holding } from './desk-store';
export { HeldList } from './held-list';
export { HoldControls } from './hold-controls';
export { freeHold, holdOf } from './holds';
export { RushPanel } from './rush-panel';
export { Substitutes } from './substitutes';
export { useAnswer } from './use-answer';
export { useDesk } from './use-desk';
export { type Moving, useMoving } from './use-moving';
