import { useId, useState } from 'react';
import type { PlanProgress, PlanView } from '../../core/contract';
import { Button } from '../look';
import { type Figure, figuresOf } from './figures';
import styles from './header.module.css';
import { type PlanStore, SECONDS_RANGE } from './plan-store';
import { usePlan } from './use-plan';

/** The numbers that matter, and the button that makes a new plan. */
export function Header({ store, view }: { readonly store: PlanStore; readonly view: PlanView | null }) {
  return (
    <header className={styles.header}>
      {view === null ? <div className={styles.figures} /> : <Figures figures={figuresOf(view)} />}
      <PlanControl store={store} view={view} />
    </header>
  );
}

function Figures({ figures }: { readonly figures: readonly Figure[] }) {
  return (
    <dl className={styles.figures}>
      {figures.map((figure) => (
        <div key={figure.label} className={styles.figure}>
          <dt>{figure.label}</dt>
          <dd className={styles.value} data-bad={figure.bad}>
            {figure.value}
          </dd>
          <dd className={styles.note}>{figure.note}</dd>
        </div>
      ))}
    </dl>
  );
}

function PlanControl({ store, view }: { readonly store: PlanStore; readonly view: PlanView | null }) {
  const running = usePlan(store, (state) => state.running);
  return (
    <div className={styles.control}>{running ? <Running store={store} /> : <Ready store={store} view={view} />}</div>
  );
}

function Ready({ store, view }: { readonly store: PlanStore; readonly view: PlanView | null }) {
  const isAround = view?.outdated === true || view?.shop.floor.some(({ state }) => state === 'locked') === true;
  return (
    <>
      <div className={styles.row}>
        <SecondsField store={store} />
        <Button rank={isAround ? 'plain' : 'main'} onClick={() => void store.getState().plan()}>
          {view === null ? 'Plan' : 'Plan again'}
        </Button>
      </div>
      {isAround && (
        <div className={styles.row}>
          <Button
            rank="main"
            title="What is not locked stays as near as it can to where it is"
            onClick={() => void store.getState().plan(true)}
          >
            Plan the rest around the changes
          </Button>
        </div>
      )}
      {view !== null && <p className={styles.made}>{madeText(view)}</p>}
    </>
  );
}

function madeText(view: PlanView): string {
  const time = view.made.slice(11, 16);
  const ending = {
    proved: 'nothing better exists',
    limit: `best found in ${view.plan.search.seconds.toFixed(1)} s`,
    stopped: `stopped after ${view.plan.search.seconds.toFixed(1)} s`,
  }[view.plan.search.ending];
  return `Plan of ${time}, ${ending}`;
}

function SecondsField({ store }: { readonly store: PlanStore }) {
  const seconds = usePlan(store, (state) => state.seconds);
  const [draft, setDraft] = useState<string | null>(null);
  const id = useId();
  const commit = (): void => {
    const wanted = Number(draft);
    if (draft !== null && draft.trim() !== '' && Number.isFinite(wanted)) void store.getState().setSeconds(wanted);
    setDraft(null);
  };
  return (
    <span className={styles.seconds}>
      <label htmlFor={id}>Take up to</label>
      <input
        id={id}
        type="number"
        inputMode="numeric"
        min={SECONDS_RANGE.least}
        max={SECONDS_RANGE.most}
        value={draft ?? seconds}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit();
        }}
      />
      <span>s</span>
    </span>
  );
}

function Running({ store }: { readonly store: PlanStore }) {
  const progress = usePlan(store, (state) => state.progress);
  const stopping = usePlan(store, (state) => state.stopping);
  const limit = progress?.limitSeconds ?? store.getState().seconds;
  const seconds = progress?.seconds ?? 0;
  return (
    <>
      <div className={styles.row}>
        <span className={styles.running}>
          {stopping ? 'Stopping' : 'Planning'}, {seconds.toFixed(1)} of {limit} s
        </span>
        <Button disabled={stopping} onClick={() => void store.getState().stop()}>
          Stop, keep the best
        </Button>
      </div>
      <progress
        className={styles.progress}
        max={limit}
        value={Math.min(seconds, limit)}
        aria-label="Planning time used"
      />
      <p className={styles.made}>{bestText(progress)}</p>
    </>
  );
}

function bestText(progress: PlanProgress | null): string {
  if (progress?.cost == null) return 'No plan yet';
  const most = progress.boundTonight === null ? '' : ` of at most ${progress.boundTonight.toFixed(1)} h`;
  const { tonight, lateness } = progress.cost;
  return `Best: tonight ${tonight.toFixed(1)} h${most}, ${lateness.toFixed(1)} weighted h late`;
}
