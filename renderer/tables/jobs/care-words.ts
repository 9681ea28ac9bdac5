import {
  isProofKept,
  type Job,
  minutesAlone,
  type Operation,
  repeatMinutes,
  repeatsOf,
  type Shop,
} from '../../../core/shop';
import { counted } from '../screen';

/** A share as percent for reading; never rounded up to all or down to none. */
export function percentText(share: number): string {
  if (share === 0 || share === 1) return `${100 * share} %`;
  if (share > 0.999) return 'over 99.9 %';
  if (share < 0.001) return 'under 0.1 %';
  return `${Number((Math.floor(share * 1000 + 1e-9) / 10).toFixed(1))} %`;
}

/** Minutes of cut shared by several machines, as `140 min`, or `130 to 140 min`. */
function rangeText(minutes: readonly number[]): string {
  const [least, most] = [Math.min(...minutes), Math.max(...minutes)];
  return least === most ? `${least} min` : `${least} to ${most} min`;
}

/** How long a full pallet is planned to cut: `planned 154 min: 140 + 14 for repeats, holds for 92 % of runs`. */
export function plannedText({ machines, checks }: Operation, repeatShare: number): string {
  const repeats = repeatMinutes(checks, repeatShare);
  const { minutes, setAside } = repeatsOf(checks);
  const holds = minutes.subarray(0, repeats + 1).reduce((sum, chance) => sum + chance, 0);
  const isOne = machines.length === 1;
  const lengths = machines
    .map(({ machine, cycle }) => `${cycle + repeats} min${isOne ? '' : ` on ${machine}`}`)
    .join(', ');
  const of = repeats === 0 ? 'no minutes' : isOne ? `${machines[0]?.cycle} + ${repeats}` : `${repeats} of them`;
  const share = `holds for ${percentText(Math.min(1, holds))} of runs`;
  const rest = setAside > 0 ? `; sets ${percentText(setAside)} of pallets aside` : '';
  return `planned ${lengths}: ${of} for repeats, ${share}${rest}`;
}

/** How long tools are in the cut beside the cycle: `120 min of a cycle of 170 to 190 min`. */
export function inCutText({ machines, tools }: Operation): string {
  const inCut = tools.reduce((sum, use) => sum + use.minutes, 0);
  return `${inCut} min in the cut, of a cycle of ${rangeText(machines.map(({ cycle }) => cycle))}`;
}

/** What the odds leave: the share of runs that bring good parts. */
export function goodText({ odds, checks }: Operation): string {
  const good = (1 - odds.block) * (1 - odds.loss) * (1 - repeatsOf(checks).setAside);
  return `${percentText(good)} of runs bring good parts`;
}

/** How long the operation may run with nobody there, or why it may not. */
export function aloneText(shop: Shop, operation: Operation): string {
  const { proof } = operation;
  if (proof === null) return 'alone: without limit, no count is kept';
  if (!isProofKept(operation)) return 'attended only: not proven with this revision and these tools';
  const minutes = minutesAlone(shop, operation);
  if (minutes > 0) return `alone: up to ${minutes} min`;
  return `attended only: ${proof.goodRuns} of ${counted(shop.night.goodRuns, 'good run')}`;
}

/** The least a lead needs to know of an operation without opening it. */
export function careText(shop: Shop, operation: Operation): string {
  const { tools, checks, odds } = operation;
  return [
    counted(tools.length, 'tool').replace(/^0 /, 'no '),
    counted(checks.length, 'check').replace(/^0 /, 'no '),
    `stops ${percentText(odds.block)}`,
    `loses ${percentText(odds.loss)}`,
    aloneText(shop, operation),
  ].join(' · ');
}

/** What the suspect limit of a job asks, operation by operation. */
export function suspectText({ suspectLimit, route }: Job): string {
  const unchecked = route.filter((operation) => operation.checks.length === 0).map((operation) => operation.id);
  if (suspectLimit === null) return 'no limit: any number of parts may wait for a check until morning';
  if (unchecked.length === 0) return 'never reached: every operation has a check';
  const ops = `${unchecked.length === 1 ? 'operation' : 'operations'} ${unchecked.join(', ')}`;
  return `no check in ${ops}: at most ${counted(suspectLimit, 'part')} a night on one machine`;
}
