import { useEffect, useState } from 'react';
import { useStore } from 'zustand';
import type { Api, PlanView, TonightView } from '../../core/contract';
import { addDays, localAt, momentText } from '../../core/time';
import { Button } from '../look';
import { type PlanStore, usePlan } from '../plan';
import { RunSheetPage } from '../sheet';
import { ChecksPart } from './checks';
import { BuysPart, MachinesPart, RisksPart, ToolsPart } from './parts';
import { SuppliesPart } from './supplies';
import styles from './tonight.module.css';
import type { TonightStore } from './tonight-store';

interface TonightScreenProps {
  readonly api: Api;
  readonly planStore: PlanStore;
  readonly tonightStore: TonightStore;
  /** False in a copy of the shop, whose plan nobody works by: nothing of releasing is shown. */
  readonly mayRelease?: boolean;
}

/** Will the night hold: what to expect of it, what may stop it, and what to see to before going home. */
export function TonightScreen({ api, planStore, tonightStore, mayRelease = true }: TonightScreenProps) {
  const view = usePlan(planStore, (state) => state.view);
  const status = usePlan(planStore, (state) => state.status);
  const tonight = useStore(tonightStore, (state) => state.view);
  const faults = useStore(tonightStore, (state) => state.faults);
  const { read } = tonightStore.getState();
  const id = view?.id ?? null;
  const [isSheetOpen, setSheetOpen] = useState(false);
  useEffect(() => {
    if (id !== null) void read(id);
  }, [id, read]);
  if (isSheetOpen && id !== null) return <RunSheetPage api={api} id={id} onClose={() => setSheetOpen(false)} />;
  return (
    <main className={styles.screen} aria-label="Tonight" aria-busy={view !== null && tonight === null}>
      {faults.map((fault) => (
        <p key={fault.say} className={styles.fault} role="alert">
          {fault.say}
        </p>
      ))}
      {view === null && <p className={styles.empty}>{EMPTY_WORDS[status]}</p>}
      {view !== null && tonight === null && faults.length === 0 && (
        <p className={styles.empty}>Playing ten thousand nights of this plan</p>
      )}
      {view !== null && tonight !== null && (
        <Night
          view={view}
          tonight={tonight}
          store={tonightStore}
          mayRelease={mayRelease}
          onRunSheet={() => setSheetOpen(true)}
        />
      )}
    </main>
  );
}

const EMPTY_WORDS = {
  loading: 'Reading the last plan',
  failed: 'The last plan could not be read.',
  ready: 'No plan yet. Make one on the Plan screen; this one then says whether its night will hold.',
} as const;

interface NightProps {
  readonly view: PlanView;
  readonly tonight: TonightView;
  readonly store: TonightStore;
  readonly mayRelease: boolean;
  readonly onRunSheet: () => void;
}

function Night({ view, tonight, store, mayRelease, onRunSheet }: NightProps) {
  const { outcome, presets, checks, swap } = tonight;
  const buying = useStore(store, (state) => state.buying);
  const checked = useStore(store, (state) => state.checked);
  const supplies = useStore(store, (state) => state.supplies);
  const [visit, setVisit] = useState('02:00');
  const { stretch } = outcome;
  if (stretch === null) return <p className={styles.empty}>Somebody is always there: there is no night to look at.</p>;
  const { tick, supply, buy } = store.getState();
  return (
    <>
      <Head view={view} tonight={tonight} store={store} mayRelease={mayRelease} onRunSheet={onRunSheet} />
      {swap !== null && (
        <p className={styles.swap}>
          {swap.second} before {swap.first} on {swap.machine} would bring {swap.gain.toFixed(1)} h more: what brings
          most hours for its odds to stop the machine goes first.
        </p>
      )}
      <div className={styles.columns}>
        <div>
          <MachinesPart view={view} outcome={outcome} />
          <RisksPart view={view} outcome={outcome} />
          <BuysPart
            buying={buying}
            visit={visit}
            onVisit={setVisit}
            onBuy={() => void buy(visitMoment(view, stretch.start, visit))}
          />
        </div>
        <div>
          <ChecksPart view={view} checks={checks} checked={checked} onTick={tick} />
          <SuppliesPart outcome={outcome} hours={supplies} onType={supply} />
          <ToolsPart view={view} presets={presets} alone={stretch.start} />
        </div>
      </div>
    </>
  );
}

/** The first time of the clock that is so after the night has begun. */
function visitMoment({ plan }: PlanView, start: number, time: string): string {
  const [date = '', from = ''] = localAt(plan.clock, start).split('T');
  return `${time > from ? date : addDays(date, 1)}T${time}`;
}

function Head({ view, tonight, store, mayRelease, onRunSheet }: NightProps) {
  const { outcome, checks } = tonight;
  const releasing = useStore(store, (state) => state.releasing);
  const { clock } = view.plan;
  const { stretch } = outcome;
  const { release } = store.getState();
  return (
    <header className={styles.head}>
      <dl className={styles.figures}>
        <div>
          <dt>To expect{stretch === null ? '' : ` by ${momentText(clock, stretch.end)}`}</dt>
          <dd className={styles.value}>{outcome.expected.toFixed(1)} h</dd>
          <dd className={styles.note}>
            ± {outcome.halfWidth.toFixed(1)} h, {outcome.nights} simulated nights, tools and shared causes in them
          </dd>
        </div>
        <div>
          <dt>Loaded</dt>
          <dd className={styles.value}>{outcome.loaded.toFixed(1)} h</dd>
          <dd className={styles.note}>if nothing stops</dd>
        </div>
        <div>
          <dt>A bad night</dt>
          <dd className={styles.value}>{outcome.badNight.toFixed(1)} h</dd>
          <dd className={styles.note}>or less, one night of ten</dd>
        </div>
      </dl>
      {mayRelease && (
        <div className={styles.release}>
          <div className={styles.ways}>
            <Button rank={view.released === null ? 'plain' : 'main'} onClick={onRunSheet}>
              Run sheet
            </Button>
            {view.released === null && (
              <Button rank="main" disabled={releasing || view.outdated} onClick={() => void release()}>
                Release for tonight
              </Button>
            )}
          </div>
          <p className={styles.note}>{releaseText(view, checks.length)}</p>
        </div>
      )}
    </header>
  );
}

function releaseText({ released, outdated }: PlanView, checks: number): string {
  if (released !== null) {
    return `Released ${released.at.replace('T', ' ')}, ${released.checked.length} of ${checks} seen to`;
  }
  if (outdated) return 'The shop has changed since this plan: plan again first.';
  return 'Freezes the plan and its run sheet; it starts no machine.';
}
