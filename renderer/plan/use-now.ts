import { useEffect, useState } from 'react';
import type { PlanView } from '../../core/contract';
import { type Minute, minuteOf } from '../../core/time';

const TURN_MS = 30_000;

/**
 * The present on the plan's axis: `present` as the services last said it, moved on with this window's own clock. A plan
 * made for a fixed moment stays at its moment.
 */
export function useNow(view: PlanView, present: string): Minute {
  const [passed, setPassed] = useState({ present, minutes: 0 });
  useEffect(() => {
    const readAt = performance.now();
    const timer = setInterval(() => {
      setPassed({ present, minutes: Math.floor((performance.now() - readAt) / 60_000) });
    }, TURN_MS);
    return () => clearInterval(timer);
  }, [present]);
  if (view.shop.planFrom !== null) return view.plan.now;
  return minuteOf(view.plan.clock, present) + (passed.present === present ? passed.minutes : 0);
}
