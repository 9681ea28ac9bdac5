export { createDeskStore, type DeskStore } from './desk-store';
export { LockControls } from './lock-controls';
export { LockedList } from './locked-list';
export { lockOf } from './locks';
export { RushPanel } from './rush-panel';
export { Substitutes } from './substitutes';
export { useAnswer } from './use-answer';
export { type Moving, useMoving } from './use-moving';
export { WhyLines } from './why-lines';
