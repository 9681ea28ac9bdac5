import { memo, useState } from 'react';
import type { Round, Stop } from '../../core/contract';
import { clockText, dayText, lengthText, type Minute } from '../../core/time';
import { Button } from '../look';
import { type PlanIndex, personName, type Selection, sameSelection, whenText } from '../timeline';
import { groupRounds, roundsAhead } from './group-rounds';
import styles from './rounds.module.css';

interface RoundsProps {
  readonly index: PlanIndex;
  readonly nowMin: Minute;
  readonly selection: Selection | null;
  onSelect(selection: Selection): void;
}

/** Drawn at a time: hundreds of them at once would hold the screen up. */
const AT_A_TIME = 30;

/** Where a person has to be, when, for what, and how late is too late; soonest first. */
export const RoundsList = memo(function RoundsList(props: RoundsProps) {
  const { index, nowMin } = props;
  const [most, setMost] = useState(AT_A_TIME);
  const ahead = roundsAhead(index.view.report.rounds, nowMin);
  const days = groupRounds(index.clock, ahead.slice(0, most));
  const later = ahead.length - most;
  if (days.length === 0) return <p className={styles.none}>No rounds ahead: nothing in this plan needs a hand.</p>;
  const next = days[0]?.rounds[0];
  return (
    <div className={styles.days}>
      {days.map(({ day, rounds }) => (
        <section key={day}>
          <h3 className={styles.day}>{day}</h3>
          {rounds.map((round) => (
            <RoundItem key={`${round.person} ${round.start}`} {...props} round={round} next={round === next} />
          ))}
        </section>
      ))}
      {later > 0 && (
        <p className={styles.more}>
          <Button onClick={() => setMost(most + AT_A_TIME)}>Show later rounds, {later} more</Button>
        </p>
      )}
    </div>
  );
});

function RoundItem(props: RoundsProps & { readonly round: Round; readonly next: boolean }) {
  const { index, nowMin, round, next, selection, onSelect } = props;
  const { clock } = index;
  return (
    <article className={styles.round} data-next={next}>
      <header>
        <strong>
          {clockText(clock, round.start)} to {clockText(clock, round.end)}
        </strong>
        <span>{personName(index, round.person)}</span>
        {next && <span className={styles.tag}>{nextText(round, nowMin)}</span>}
      </header>
      <ol>
        {round.stops.map((stop) => (
          <li key={`${stop.role} ${stop.run ?? stop.machine} ${stop.start}`}>
            <button
              type="button"
              aria-pressed={sameSelection(selection, selectionOfStop(stop))}
              onClick={() => onSelect(selectionOfStop(stop))}
            >
              <span className={styles.time}>{clockText(clock, stop.start)}</span>
              <span className={styles.what}>
                <span>{stop.say}</span>
                <span className={styles.where}>
                  {stop.machine}, {latestText(index, stop)}
                </span>
              </span>
            </button>
          </li>
        ))}
      </ol>
    </article>
  );
}

function selectionOfStop({ run, machine, start }: Stop): Selection {
  return run === null ? { kind: 'care', machine, start } : { kind: 'run', run };
}

function nextText(round: Round, nowMin: Minute): string {
  return round.start <= nowMin ? 'now' : `in ${lengthText(round.start - nowMin)}`;
}

function latestText(index: PlanIndex, stop: Stop): string {
  const { clock } = index;
  if (stop.latest <= stop.start) return 'no slack';
  const sameDay = dayText(clock, stop.latest) === dayText(clock, stop.start);
  return `by ${sameDay ? clockText(clock, stop.latest) : whenText(index, stop.latest)} at the latest`;
}
