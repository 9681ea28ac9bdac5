import { localTime } from '../core/time';

/** The present moment as local time `YYYY-MM-DDTHH:MM` of a zone. */
export type Present = (zone: string) => string;

/** The computer's clock, or one that stands still at `pinned` (a local time) so that a run can be repeated. */
export function presentClock(pinned: string | null): Present {
  if (pinned !== null) return () => pinned;
  return (zone) => localTime(zone, Date.now());
}

/** The zone this computer is set to. */
export function ownZone(): string {
  return Intl.DateTimeFormat().resolvedOptions().timeZone;
}
