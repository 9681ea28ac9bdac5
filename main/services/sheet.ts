import type { PlanView, RunSheet } from '../../core/contract';
import { runSheet } from '../../core/explain';
import { homeChecks } from './home-checks';

/** The run sheet of a stored plan, with what is to be seen to before going home. */
export function sheetOf(view: PlanView): RunSheet {
  return runSheet(view, homeChecks(view, { stretch: view.report.tonight }));
}
