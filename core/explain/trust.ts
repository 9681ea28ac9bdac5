import { isProofKept, minutesAlone, type RunNeed, type Shop } from '../shop';
import { lengthText } from '../time';

/** Why a run that cuts so many minutes may not do so with nobody there, as the rest of a sentence about it; null if it may. */
export function whyNotAlone(shop: Shop, { operation }: RunNeed, cut: number): string | null {
  const alone = minutesAlone(shop, operation);
  if (operation.proof === null || cut <= alone) return null;
  if (!isProofKept(operation)) return 'must be proven again with this revision and these tools before it runs alone';
  const { goodRuns } = operation.proof;
  if (alone === 0) return `has ${goodRuns} of the ${shop.night.goodRuns} good runs it needs before it runs alone`;
  return `may run alone for ${lengthText(alone)} and would take ${lengthText(cut)}`;
}
