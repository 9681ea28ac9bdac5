import type { ReactNode } from 'react';
import { WEEKDAYS, type Weekday } from '../../../core/time';
import { Button, Each } from '../../look';
import { ClockTimeField, TickField, useListEdits } from '../fields';
import type { Path } from '../store';
import { Block } from './block';
import { DaysField } from './days-field';
import css from './hours.module.css';

interface Span {
  readonly days: Weekday[];
  readonly from: string;
  readonly to: string;
  readonly extra?: boolean;
}

interface WeeklySpansProps {
  readonly title: string;
  readonly path: Path;
  readonly spans: readonly Span[];
  /** What no span at all means. */
  readonly none: string;
  /** Offers to mark a span as outside normal hours. */
  readonly withExtra?: boolean;
}

const USUAL: Span = { days: WEEKDAYS.slice(0, 5), from: '06:00', to: '14:00' };

/** Eight hours on the same days, from the end of the last span: the next shift. */
function spanAfter(last: Span | undefined): Span {
  if (last === undefined) return USUAL;
  const hour = (Number(last.to.slice(0, 2)) + 8) % 24;
  return { days: last.days, from: last.to, to: `${String(hour).padStart(2, '0')}${last.to.slice(2)}` };
}

/** Hours that come again every week, a line each. */
export function WeeklySpans({ title, path, spans, none, withExtra = false }: WeeklySpansProps): ReactNode {
  const { add, takeOut } = useListEdits<Span>(path, spans);
  return (
    <Block title={title}>
      {spans.length === 0 && <p className={css.none}>{none}</p>}
      <Each
        of={spans}
        draw={(span, at) => (
          <div className={css.line}>
            <DaysField path={[...path, at, 'days']} label="Days" value={span.days} />
            <ClockTimeField path={[...path, at, 'from']} label="From" value={span.from} />
            <span>to</span>
            <ClockTimeField path={[...path, at, 'to']} label="To" value={span.to} />
            <span className={css.soft}>{span.to <= span.from ? 'next day' : ''}</span>
            {withExtra && (
              <span className={css.extra}>
                <TickField path={[...path, at, 'extra']} label="Extra hours" value={span.extra ?? false} />
                extra hours
              </span>
            )}
            <Button
              rank="quiet"
              aria-label={`Delete hours ${span.from} to ${span.to}`}
              onClick={() => takeOut(at, `Deleted hours ${span.from} to ${span.to}.`)}
            >
              Delete
            </Button>
          </div>
        )}
      />
      <Button rank="quiet" onClick={() => add(spanAfter(spans.at(-1)))}>
        Add hours
      </Button>
    </Block>
  );
}
