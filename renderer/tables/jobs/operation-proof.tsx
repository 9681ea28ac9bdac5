import type { ReactNode } from 'react';
import { isProofKept, type Operation } from '../../../core/shop';
import { Button } from '../../look';
import { MinutesField, TextField, WholeField, WordsField } from '../fields';
import { Block } from '../hours';
import { Follows, Line, Told } from '../panel';
import { keyOf, type Path, usePlace, useShop, useShopStore } from '../store';
import type { CareProps } from './care-props';
import { aloneText } from './care-words';
import css from './jobs.module.css';
import { changing, newProof } from './proof-edits';

/** What an operation has earned, with which revision and tools, and how long it may run alone for it. */
export function OperationProof({ operation, at }: CareProps): ReactNode {
  const place = usePlace();
  const path: Path = ['route', at, 'proof'];
  return (
    <Block title="Proof">
      {operation.proof === null ? (
        <Uncounted operation={operation} at={at} path={path} />
      ) : (
        <Counted operation={operation} proof={operation.proof} at={at} path={path} />
      )}
      <Told of={keyOf(place, path)} />
    </Block>
  );
}

interface ProofProps {
  readonly operation: Operation;
  readonly at: number;
  readonly path: Path;
}

function Uncounted({ operation, at, path }: ProofProps): ReactNode {
  const shop = useShop();
  const store = useShopStore();
  const place = usePlace();
  const change = changing(at, (now) => ({ ...now, proof: newProof(now) }));
  const undo = `Operation ${operation.id} now has to be proven.`;
  return (
    <>
      <p className={css.none}>It is taken as proven.</p>
      <Follows>{aloneText(shop, operation)}</Follows>
      <Button
        rank="quiet"
        className={css.add ?? ''}
        data-at={keyOf(place, path)}
        onClick={() => void store.edit(place, { path, change, undo })}
      >
        Keep count
      </Button>
    </>
  );
}

function Counted({ operation, proof, at, path }: ProofProps & { proof: NonNullable<Operation['proof']> }): ReactNode {
  const shop = useShop();
  const store = useShopStore();
  const place = usePlace();
  const earned = <V,>(field: keyof typeof proof) => ({
    change: (record: unknown, value: V): unknown =>
      changing(at, (now) => (now.proof === null ? now : { ...now, proof: { ...now.proof, [field]: value } }))(record),
  });
  const kept = isProofKept(operation);
  const now = operation.revision === '' ? 'this program' : `revision ${operation.revision}`;

  function startOver(): void {
    const change = changing(at, (each) => ({ ...each, proof: newProof(each) }));
    const undo = `The proof of operation ${operation.id} starts over with ${now}.`;
    void store.edit(place, { path, change, undo });
  }

  function stopCounting(): void {
    const change = changing(at, (each) => ({ ...each, proof: null }));
    void store.edit(place, { path, change, undo: `No count is kept of operation ${operation.id}.` });
  }

  return (
    <>
      <Line>
        <WholeField
          path={[...path, 'goodRuns']}
          label="Attended good runs"
          value={proof.goodRuns}
          size={4}
          {...earned<number>('goodRuns')}
        />{' '}
        attended good runs, {shop.night.goodRuns} needed
      </Line>
      <Line>
        <MinutesField
          path={[...path, 'longestAlone']}
          label="Longest time alone"
          value={proof.longestAlone}
          size={5}
          {...earned<number>('longestAlone')}
        />{' '}
        min the longest it ran alone
      </Line>
      {proof.revision === null && proof.tools === null ? (
        <p className={css.none}>Earned with {now} and the tools as they are.</p>
      ) : (
        <Line>
          Earned with revision{' '}
          <TextField
            path={[...path, 'revision']}
            label="Revision it was earned with"
            value={proof.revision ?? operation.revision}
            size={4}
          />{' '}
          and tools{' '}
          <WordsField
            path={[...path, 'tools']}
            label="Tools it was earned with"
            value={proof.tools ?? operation.tools.map((use) => use.tool)}
            placeholder="none"
            size={18}
          />
        </Line>
      )}
      <Follows>{aloneText(shop, operation)}</Follows>
      <Line>
        <Button rank={kept ? 'quiet' : 'plain'} className={kept ? (css.add ?? '') : ''} onClick={startOver}>
          Start over with {now}
        </Button>
        <Button rank="quiet" onClick={stopCounting}>
          Keep no count
        </Button>
      </Line>
    </>
  );
}
