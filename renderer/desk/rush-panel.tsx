import { useId, useState } from 'react';
import type { Shop } from '../../core/shop';
import { addDays } from '../../core/time';
import { Button } from '../look';
import { parseMoment, showMoment } from '../tables';
import styles from './desk.module.css';
import type { DeskStore } from './desk-store';
import { firstDraft, type RushDraft, rushEnd, rushJob, URGENCIES } from './rush-job';
import { TrialReport } from './trial-report';
import { useDesk } from './use-desk';

interface RushPanelProps {
  readonly desk: DeskStore;
  readonly shop: Shop;
  /** The plan's moment, local time. */
  readonly near: string;
  readonly disabled: boolean;
  onTaken(): void;
}

/** Seconds of search: a rush job is asked about while somebody waits on the telephone. */
const SECONDS = 2;

/** A job that comes in between: what it would displace, before it is taken. */
export function RushPanel({ desk, shop, near, disabled, onTaken }: RushPanelProps) {
  const id = useId();
  const [draft, setDraft] = useState(() => firstDraft(shop, `${addDays(near.slice(0, 10), 1)}T16:00`));
  const [due, setDue] = useState(() => showMoment(draft.due, near));
  const [refused, setRefused] = useState<string | null>(null);
  const change = useDesk(desk, (state) => state.change);
  const trial = useDesk(desk, (state) => state.trial);
  const faults = useDesk(desk, (state) => state.faults);
  const taking = useDesk(desk, (state) => state.taking);
  const isTrying = change !== null && change.rush !== null && trial === null && faults.length === 0;
  const isShown = change !== null && change.rush !== null && trial !== null;
  const { drop, take } = desk.getState();

  const edit = (part: Partial<RushDraft>): void => {
    setDraft({ ...draft, ...part });
    // What is shown was worked out for something else.
    if (change !== null) drop();
  };
  const tryOut = (): void => {
    const parsed = parseMoment(near)(due);
    setRefused(parsed.ok ? null : parsed.say);
    if (!parsed.ok) return;
    const rush = rushJob(shop, { ...draft, due: parsed.value });
    setDraft({ ...draft, due: parsed.value });
    if (rush !== null) void desk.getState().try({ holds: [], withdraw: [], rush }, SECONDS);
  };
  const accept = async (): Promise<void> => {
    if (await take()) onTaken();
  };

  if (shop.jobs.length === 0) return <p className={styles.none}>A rush job is made like another. Enter a job first.</p>;
  return (
    <form
      className={styles.rush}
      aria-label="Rush job"
      onSubmit={(event) => {
        event.preventDefault();
        tryOut();
      }}
    >
      <label htmlFor={`${id}-like`}>Like</label>
      <select id={`${id}-like`} value={draft.like} onChange={(event) => edit({ like: event.target.value })}>
        {shop.jobs.map((job) => (
          <option key={job.id} value={job.id}>
            {job.id} {job.name}
          </option>
        ))}
      </select>
      <label htmlFor={`${id}-id`}>Job</label>
      <input id={`${id}-id`} value={draft.id} onChange={(event) => edit({ id: event.target.value })} />
      <label htmlFor={`${id}-quantity`}>Parts</label>
      <input
        id={`${id}-quantity`}
        inputMode="numeric"
        value={draft.quantity}
        onChange={(event) => edit({ quantity: event.target.value })}
      />
      <label htmlFor={`${id}-due`}>Due</label>
      <input
        id={`${id}-due`}
        value={due}
        aria-invalid={refused !== null}
        onChange={(event) => {
          setDue(event.target.value);
          edit({});
        }}
      />
      <label htmlFor={`${id}-weight`}>Counts</label>
      <select
        id={`${id}-weight`}
        value={draft.weight}
        onChange={(event) => edit({ weight: Number(event.target.value) })}
      >
        {URGENCIES.map(({ weight, words }) => (
          <option key={weight} value={weight}>
            {words}
          </option>
        ))}
      </select>
      <div className={styles.actions}>
        {!isShown && (
          <Button rank="main" type="submit" disabled={disabled || isTrying || taking}>
            {isTrying ? 'Working it out' : 'See what it displaces'}
          </Button>
        )}
        {isShown && (
          <>
            <Button rank="main" disabled={disabled || taking} onClick={() => void accept()}>
              Accept it
            </Button>
            <Button disabled={taking} onClick={drop}>
              Drop it
            </Button>
          </>
        )}
      </div>
      <div role="status" className={styles.outcome}>
        {refused !== null && <p className={styles.bad}>{refused}</p>}
        {faults.map((fault) => (
          <p key={fault.say} className={styles.bad}>
            {fault.say}
          </p>
        ))}
        {isTrying && <p className={styles.soft}>Planning around it, {SECONDS} s.</p>}
        {isShown && <Outcome draft={draft} near={near} end={rushEnd(trial, draft.id.trim())} />}
        {isShown && <TrialReport trial={trial} />}
      </div>
    </form>
  );
}

function Outcome({
  draft,
  near,
  end,
}: {
  readonly draft: RushDraft;
  readonly near: string;
  readonly end: string | null;
}) {
  if (end === null) return <p className={styles.bad}>{draft.id} does not fit before the plan ends.</p>;
  const isLate = end > draft.due;
  return (
    <p className={styles.verdict} data-bad={isLate}>
      {draft.id} is cut by {showMoment(end, near)}, {isLate ? 'late' : 'in time'}.
    </p>
  );
}
