export { readSheet } from './read';
export type { Sheet, SheetField, SheetPut, SheetReading, SheetRow } from './reading';
export { writeSheet } from './write';
