import type { Operation, Shop } from './schema';

/** Whether what was proven still counts: the revision and the tools must be those it was earned with. */
export function isProofKept({ proof, revision, tools }: Operation): boolean {
  if (proof === null) return true;
  const sameRevision = proof.revision === null || proof.revision === revision;
  const used = new Set(tools.map(({ tool }) => tool));
  const sameTools = proof.tools === null || (proof.tools.length === used.size && proof.tools.every((t) => used.has(t)));
  return sameRevision && sameTools;
}

/**
 * Minutes a run of this operation may cut in one unattended stretch: without limit where nobody keeps count, none before
 * it has its attended good runs, then a first step, then twice the longest it has run alone. Common practice, no source.
 */
export function minutesAlone(shop: Shop, operation: Operation): number {
  const { proof } = operation;
  if (proof === null) return Number.POSITIVE_INFINITY;
  if (!isProofKept(operation) || proof.goodRuns < shop.night.goodRuns) return 0;
  return Math.max(shop.night.firstAlone, 2 * proof.longestAlone);
}
