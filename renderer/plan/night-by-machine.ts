import { clockText, hoursText } from '../../core/time';
import { type PlanIndex, REASON_WORDS } from '../timeline';

/** What each machine but the benches does with tonight: hours cut, and from when it stands and why. */
export function nightByMachine(index: PlanIndex): { machine: string; words: string }[] {
  const { tonight, machines } = index.view.report;
  if (tonight === null) return [];
  const cutting = machines.filter((report) => index.machines.get(report.machine)?.kind !== 'bench');
  return cutting.map(({ machine, tonightCut, quietFrom, gaps }) => {
    const cut = `${hoursText(tonightCut)} cut`;
    if (quietFrom === null) return { machine, words: `${cut}, until the first person comes` };
    const from = Math.max(quietFrom, tonight.start);
    const gap = gaps.find((candidate) => candidate.start <= from && candidate.end > from);
    const reason = gap === undefined ? '' : `: ${REASON_WORDS[gap.reason]}`;
    return { machine, words: `${cut}, stands from ${clockText(index.clock, quietFrom)}${reason}` };
  });
}
