export { sheetPdf } from './sheet-pdf';
