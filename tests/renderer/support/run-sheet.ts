import type { PlanView, RunSheet } from '../../../core/contract';
import { runSheet } from '../../../core/explain';
import { planView } from './plan-view';

/** The run sheet of the fixture's plan, as the services would make it. */
export function sheetOfFixture(changes: Partial<PlanView> = {}): RunSheet {
  return runSheet(planView(changes), [
    { key: 'check J-112/10/1', say: 'First piece of J-112/10/1 checked on M1', at: 19 * 60 + 30 },
    { key: 'usual Filter clean', say: 'Filter clean', at: null },
  ]);
}
