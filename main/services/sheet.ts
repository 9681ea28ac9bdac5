import type { PlanView, Returned, RunSheet, SheetPaper } from '../../core/contract';
import { runSheet } from '../../core/explain';
import { fileNameOf } from './file-name';
import { homeChecks } from './home-checks';

/** The run sheet of a stored plan, with what is to be seen to before going home. */
export function sheetOf(view: PlanView): RunSheet {
  return runSheet(view, homeChecks(view, { stretch: view.report.tonight }));
}

/** The same as a PDF, base64; its name says which shop and plan it is of. */
export async function sheetFile(view: PlanView, paper: SheetPaper): Promise<Returned<'sheet.pdf'>> {
  // Read only here: most seats start and end without one.
  const { sheetPdf } = await import('../sheet');
  const pdf = await sheetPdf(sheetOf(view), paper);
  const fileName = `${fileNameOf(view.shop.name)}-run-sheet-plan-${view.id}.pdf`;
  return { fileName, base64: Buffer.from(pdf).toString('base64') };
}
