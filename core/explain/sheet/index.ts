export { runSheet, type SheetPlan } from './run-sheet';
