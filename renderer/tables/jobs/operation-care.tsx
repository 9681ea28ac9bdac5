import type { ReactNode } from 'react';
import { Panel } from '../panel';
import { keyOf } from '../store';
import type { CareProps } from './care-props';
import { OperationChecks } from './operation-checks';
import { OperationOdds } from './operation-odds';
import { OperationProof } from './operation-proof';
import { OperationSheet } from './operation-sheet';
import { OperationTools } from './operation-tools';

/** Fields of an operation that its panel shows, with what is wrong with them. */
const CARE_FIELDS = ['tools', 'checks', 'odds', 'proof', 'measure', 'ifStops', 'correction'] as const;

export function careKeys(job: string, at: number): string[] {
  return CARE_FIELDS.map((field) => keyOf({ table: 'jobs', id: job }, ['route', at, field]));
}

/** What an operation needs to be trusted with the night: tools, checks, odds, proof, and what its run sheet says. */
export function OperationCare(props: CareProps): ReactNode {
  return (
    <Panel paired label={`Tools, checks, odds and proof of operation ${props.operation.id}`}>
      <OperationTools {...props} />
      <OperationChecks {...props} />
      <OperationOdds {...props} />
      <OperationProof {...props} />
      <OperationSheet {...props} />
    </Panel>
  );
}
