import type { ReactNode } from 'react';
import { addDays, type ClockSpan } from '../../../core/time';
import { Button, Each } from '../../look';
import { EditField, useListEdits } from '../fields';
import { parseDate, showDate } from '../parse';
import { type Path, usePlanMoment } from '../store';
import { Block } from './block';
import { ClockSpans } from './clock-spans';
import css from './hours.module.css';

interface Exception {
  readonly date: string;
  readonly hours: readonly ClockSpan[];
}

/** Dates with hours of their own in place of the weekly ones. */
export function DayExceptions({ path, exceptions }: { path: Path; exceptions: readonly Exception[] }): ReactNode {
  const near = usePlanMoment();
  const { add, takeOut } = useListEdits<Exception>(path, exceptions);
  const lastDate =
    exceptions
      .map((exception) => exception.date)
      .sort()
      .at(-1) ?? near.slice(0, 10);
  return (
    <Block title="Other hours on a date">
      {exceptions.length === 0 && <p className={css.none}>None: the weekly hours always hold.</p>}
      <Each
        of={exceptions}
        draw={(exception, at) => (
          <div className={css.exception}>
            <EditField
              path={[...path, at, 'date']}
              label="Date"
              size={10}
              value={exception.date}
              parse={parseDate(near)}
              show={(date) => showDate(date, near)}
            />
            <div>
              <ClockSpans
                path={[...path, at, 'hours']}
                spans={exception.hours}
                noun="hours"
                none="not here"
                usual={{ from: '06:00', to: '14:00' }}
              />
            </div>
            <Button
              rank="quiet"
              aria-label={`Delete the exception on ${showDate(exception.date, near)}`}
              onClick={() => takeOut(at, `Deleted the exception on ${showDate(exception.date, near)}.`)}
            >
              Delete date
            </Button>
          </div>
        )}
      />
      <Button rank="quiet" onClick={() => add({ date: addDays(lastDate, 1), hours: [] })}>
        Add date
      </Button>
    </Block>
  );
}
