export { RunSheetPage } from './run-sheet-page';
