import type { ReactNode } from 'react';
import type { ClockSpan } from '../../../core/time';
import { Button, Each } from '../../look';
import { ClockTimeField, useListEdits } from '../fields';
import type { Path } from '../store';
import css from './hours.module.css';

interface ClockSpansProps {
  readonly path: Path;
  readonly spans: readonly ClockSpan[];
  /** One span in words: `break`. */
  readonly noun: string;
  readonly none: string;
  readonly usual: ClockSpan;
}

/** Spans of a day, a line each. */
export function ClockSpans({ path, spans, noun, none, usual }: ClockSpansProps): ReactNode {
  const { add, takeOut } = useListEdits<ClockSpan>(path, spans);
  return (
    <>
      {spans.length === 0 && <span className={css.none}>{none}</span>}
      <Each
        of={spans}
        draw={(span, at) => (
          <div className={css.line}>
            <ClockTimeField path={[...path, at, 'from']} label={`From, ${noun}`} value={span.from} />
            <span>to</span>
            <ClockTimeField path={[...path, at, 'to']} label={`To, ${noun}`} value={span.to} />
            <Button
              rank="quiet"
              aria-label={`Delete ${noun} ${span.from} to ${span.to}`}
              onClick={() => takeOut(at, `Deleted ${noun} ${span.from} to ${span.to}.`)}
            >
              Delete
            </Button>
          </div>
        )}
      />
      <Button rank="quiet" onClick={() => add(usual)}>
        Add {noun}
      </Button>
    </>
  );
}
