import { createRequire } from 'node:module';
import pdfmake from 'pdfmake';
import type { TDocumentDefinitions, TFontDictionary, TFontFamilyTypes } from 'pdfmake/interfaces';
import type { RunSheet, SheetPaper } from '../../core/contract';
import { documentOf } from './document';

/** What is used of pdfmake 0.3; the types published for it are those of 0.2. */
interface PdfMaker {
  setFonts(fonts: TFontDictionary): void;
  setUrlAccessPolicy(isAllowed: (url: string) => boolean): void;
  setLocalAccessPolicy(isAllowed: (path: string) => boolean): void;
  createPdf(definition: TDocumentDefinitions): { getBuffer(): Promise<Buffer> };
}

const maker = pdfmake as unknown as PdfMaker;

/** Ships with pdfmake; all its digits are of one width. */
const { Roboto } = createRequire(import.meta.url)('pdfmake/fonts/Roboto.js') as { Roboto: TFontFamilyTypes };
const files: readonly unknown[] = Object.values(Roboto);

maker.setFonts({ Roboto });
// A sheet is words and lines: nothing is fetched for it, and nothing read but its fonts.
maker.setUrlAccessPolicy(() => false);
maker.setLocalAccessPolicy((path) => files.includes(path));

/** The run sheet as a PDF, a page or more for each page of the sheet, black on white and across the paper. */
export async function sheetPdf(sheet: RunSheet, paper: SheetPaper): Promise<Uint8Array> {
  return maker.createPdf(documentOf(sheet, paper)).getBuffer();
}
