import { useEffect, useId, useRef, useState } from 'react';
import type { Shop } from '../../core/shop';
import { Button } from '../look';
import lists from '../look/lists.module.css';
import { parseMoment } from '../tables';
import styles from './desk.module.css';
import type { DeskStore } from './desk-store';
import { firstDraft, type RushDraft, type RushOutcome, rushJob, rushOutcome, URGENCIES } from './rush-job';
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
const SECONDS = 4;

/** A job that comes in between: what it would displace, before it is taken. */
export function RushPanel({ desk, shop, near, disabled, onTaken }: RushPanelProps) {
  const id = useId();
  const [refused, setRefused] = useState<string | null>(null);
  const written = useDesk(desk, (state) => state.draft);
  const change = useDesk(desk, (state) => state.change);
  const trial = useDesk(desk, (state) => state.trial);
  const allFaults = useDesk(desk, (state) => state.faults);
  const taking = useDesk(desk, (state) => state.taking);
  const draft = written ?? firstDraft(shop, near);
  // Another change may be tried meanwhile; what is said of that one is not said here.
  const isRush = change !== null && change.rush !== null;
  const faults = isRush ? allFaults : [];
  const shown = isRush ? trial : null;
  const isTrying = isRush && trial === null && faults.length === 0;
  const { drop, take, write } = desk.getState();

  const edit = (part: Partial<RushDraft>): void => {
    write({ ...draft, ...part });
    // What is shown was worked out for something else.
    if (isRush) drop();
  };
  const tryOut = (): void => {
    write(draft);
    const due = parseMoment(near)(draft.due);
    setRefused(due.ok ? null : due.say);
    const rush = due.ok ? rushJob(shop, draft, due.value) : null;
    if (rush !== null) void desk.getState().try({ locks: [], withdraw: [], rush }, SECONDS);
  };
  const buttons = useRef<HTMLDivElement>(null);
  const isShown = shown !== null;
  // The button that was pressed gives way to others: the focus goes on to them instead of being lost.
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is the change of buttons that counts
  useEffect(() => {
    if (document.activeElement === document.body && written !== null) buttons.current?.querySelector('button')?.focus();
  }, [isShown, isTrying]);
  const accept = async (): Promise<void> => {
    if (await take()) onTaken();
  };

  if (shop.jobs.length === 0) return <p className={lists.none}>A rush job is made like another. Enter a job first.</p>;
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
        value={draft.due}
        aria-invalid={refused !== null}
        onChange={(event) => {
          setRefused(null);
          edit({ due: event.target.value });
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
      <div ref={buttons} className={styles.actions}>
        {shown === null && (
          <Button rank="main" type="submit" disabled={disabled || isTrying || taking}>
            {isTrying ? 'Working it out' : 'See what it displaces'}
          </Button>
        )}
        {shown !== null && (
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
        {shown !== null && <Outcome {...rushOutcome(shown, draft.id.trim(), near)} />}
        {shown !== null && <TrialReport trial={shown} />}
      </div>
    </form>
  );
}

function Outcome({ bad, say }: RushOutcome) {
  return (
    <p className={styles.verdict} data-bad={bad}>
      {say}
    </p>
  );
}
