export { readImport } from './read';
export type { ImportCells, ImportField, ImportReading, ImportRow, RowPut } from './reading';
export { writeTable } from './write';
