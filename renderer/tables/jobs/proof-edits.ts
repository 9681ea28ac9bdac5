import type { Job, Operation } from '../../../core/shop';

type Proof = NonNullable<Operation['proof']>;

/** The proof of an operation as it now stands: nothing counted, with its revision and tools. */
export function newProof(operation: Operation): Proof {
  return { goodRuns: 0, longestAlone: 0, revision: operation.revision, tools: toolsOf(operation) };
}

/**
 * The operation with its proof saying what it was earned with. Done before anything it was earned with becomes another:
 * a proof that does not say would go over to the new revision or tools.
 */
export function withProofPinned(operation: Operation): Operation {
  const { proof, revision } = operation;
  if (proof === null) return operation;
  return {
    ...operation,
    proof: { ...proof, revision: proof.revision ?? revision, tools: proof.tools ?? toolsOf(operation) },
  };
}

/** A change of one operation as a change of its job; what its proof was earned with is kept. */
export function changing(at: number, change: (operation: Operation) => Operation): (record: unknown) => unknown {
  return (record) => {
    const job = record as Job;
    return { ...job, route: job.route.map((each, i) => (i === at ? change(withProofPinned(each)) : each)) };
  };
}

function toolsOf({ tools }: Operation): string[] {
  return [...new Set(tools.map((use) => use.tool))];
}
