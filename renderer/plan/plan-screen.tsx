import { useCallback, useDeferredValue, useMemo } from 'react';
import type { Api, PlanView, ShopView, WhyAbout } from '../../core/contract';
import type { Fault } from '../../core/shop';
import { type DeskStore, LockControls, Substitutes, useAnswer, useMoving, WhyLines } from '../desk';
import { Button } from '../look';
import { indexPlan, type Selection, Timeline } from '../timeline';
import { Details } from './details';
import { Header } from './header';
import { Caution, FaultList, OutdatedNotice } from './notices';
import styles from './plan-screen.module.css';
import type { PlanStore } from './plan-store';
import { SidePanel } from './side-panel';
import { toolLinesOf } from './tool-lines';
import { useNow } from './use-now';
import { usePlan } from './use-plan';

interface PlanScreenProps {
  readonly api: Api;
  readonly planStore: PlanStore;
  readonly desk: DeskStore;
  readonly shopView: ShopView;
  /** Goes to the row a fault is about. */
  onShowFault(fault: Fault): void;
}

/** The shop lead's screen: the plan in numbers, over time, and round by round. */
export function PlanScreen({ api, planStore, desk, shopView, onShowFault }: PlanScreenProps) {
  const status = usePlan(planStore, (state) => state.status);
  const view = usePlan(planStore, (state) => state.view ?? state.soFar);
  const running = usePlan(planStore, (state) => state.running);
  const refused = usePlan(planStore, (state) => state.faults);
  // Said before the button is pressed, too: whoever comes between interruptions should not have to try.
  const standing = shopView.faults.filter((fault) => fault.level === 'error');
  const faults = refused.length > 0 ? refused : standing;
  return (
    <main className={styles.screen} aria-label="Plan" aria-busy={running}>
      <Header store={planStore} view={view} />
      {view !== null && <Caution />}
      {view?.outdated && !running && <OutdatedNotice />}
      <FaultList faults={faults} shopView={shopView} onShow={onShowFault} />
      {view !== null && <PlanBody api={api} view={view} store={planStore} desk={desk} shopView={shopView} />}
      {view === null && (
        <NoPlan
          status={status}
          running={running}
          stopped={faults.length > 0}
          retry={() => void planStore.getState().load()}
        />
      )}
    </main>
  );
}

interface PlanBodyProps {
  readonly api: Api;
  readonly view: PlanView;
  readonly store: PlanStore;
  readonly desk: DeskStore;
  readonly shopView: ShopView;
}

function PlanBody({ api, view, store, desk, shopView }: PlanBodyProps) {
  const index = useMemo(() => indexPlan(view), [view]);
  // The bars first: both at once would hold the window up with a large plan.
  const listed = useDeferredValue(index);
  const selection = usePlan(store, (state) => state.selection);
  const running = usePlan(store, (state) => state.running);
  const nowMin = useNow(view, shopView.present);
  // One that is still being made is not stored, so nothing can be asked about it.
  const isStored = view.id > 0;
  const tools = useAnswer(api, 'plan.tools', isStored ? { id: view.id } : null);
  const kinds = tools?.ok === true ? tools.value : null;
  const toolLines = useMemo(() => toolLinesOf(view.shop, kinds ?? []), [view, kinds]);
  const about = useMemo(() => (isStored ? aboutOf(selection) : null), [isStored, selection]);
  const { select } = store.getState();
  // What was refused is said among the details of the run.
  const showRefused = useCallback((run: string) => select({ kind: 'run', run }), [select]);
  const moving = useMoving(desk, index, shopView.shop, showRefused);
  return (
    <div className={styles.body}>
      <div className={styles.main}>
        <Timeline
          index={index}
          nowMin={nowMin}
          selection={selection}
          onSelect={select}
          tools={toolLines}
          {...(running ? {} : moving)}
        />
        <Details index={index} selection={selection}>
          {about !== null && <WhyLines api={api} id={view.id} about={about} />}
          {selection?.kind === 'run' && (
            <>
              <LockControls desk={desk} index={index} shop={shopView.shop} run={selection.run} disabled={running} />
              <Substitutes
                key={selection.run}
                {...{ api, desk, index }}
                shop={shopView.shop}
                run={selection.run}
                disabled={running}
              />
            </>
          )}
        </Details>
      </div>
      <SidePanel
        api={api}
        index={listed}
        nowMin={nowMin}
        selection={selection}
        desk={desk}
        shop={shopView.shop}
        disabled={running}
        onSelect={select}
      />
    </div>
  );
}

/** What can be asked about it; an attendance to tools is what it is. */
function aboutOf(selection: Selection | null): WhyAbout | null {
  if (selection === null || selection.kind === 'care') return null;
  return selection.kind === 'run'
    ? { kind: 'run', run: selection.run }
    : { kind: 'gap', machine: selection.machine, start: selection.start };
}

interface NoPlanProps {
  readonly status: 'loading' | 'ready' | 'failed';
  readonly running: boolean;
  /** Faults are shown above that planning would stop at. */
  readonly stopped: boolean;
  retry(): void;
}

function NoPlan({ status, running, stopped, retry }: NoPlanProps) {
  if (status === 'failed') {
    return (
      <div className={styles.empty}>
        <p>The last plan could not be read.</p>
        <Button onClick={retry}>Read it again</Button>
      </div>
    );
  }
  if (status === 'loading') return <p className={styles.empty}>Reading the last plan</p>;
  return <p className={styles.empty}>{noPlanWords(running, stopped)}</p>;
}

function noPlanWords(running: boolean, stopped: boolean): string {
  if (running) return 'The first plan is being made.';
  if (stopped) return 'No plan yet. Mend what stands above, then press Plan.';
  return 'No plan yet. Press Plan to see which pallets run where, when a hand is needed, and what the night will cut.';
}
