import type { ReactNode } from 'react';
import { hoursText, WEEKDAYS, type WeeklySpan } from '../../../core/time';
import css from './hours.module.css';
import { WEEK, weekMinutes, weekOf } from './week';

/** An ordinary week from Monday to Sunday: a bar where the spans cover it. */
export function WeekStrip({ spans, label }: { spans: readonly WeeklySpan[]; label: string }): ReactNode {
  return (
    <svg
      className={css.strip}
      viewBox={`0 0 ${WEEK} 100`}
      preserveAspectRatio="none"
      role="img"
      aria-label={`${label}: ${hoursText(weekMinutes(spans))} a week`}
    >
      <rect className={css.nobody} width={WEEK} height="100" />
      {weekOf(spans).map(({ start, end }) => (
        <rect key={start} className={css.somebody} x={start} width={end - start} y="18" height="64" />
      ))}
      {WEEKDAYS.slice(1).map((day, at) => (
        <line key={day} className={css.midnight} x1={(at + 1) * 1440} x2={(at + 1) * 1440} y1="0" y2="100" />
      ))}
    </svg>
  );
}

/** The week of the whole shop: when somebody is there and when nobody is, in bars and hours. */
export function ShopWeek({ spans }: { spans: readonly WeeklySpan[] }): ReactNode {
  const there = weekMinutes(spans);
  return (
    <figure className={css.week}>
      <div className={css.weekdays} aria-hidden="true">
        {WEEKDAYS.map((day) => (
          <span key={day}>{`${day.slice(0, 1).toUpperCase()}${day.slice(1)}`}</span>
        ))}
      </div>
      <WeekStrip spans={spans} label="Somebody there" />
      <figcaption>
        <i className={css.somebodyKey} /> somebody there {hoursText(there)} <i className={css.nobodyKey} /> nobody there{' '}
        {hoursText(WEEK - there)} of an ordinary week
      </figcaption>
    </figure>
  );
}
