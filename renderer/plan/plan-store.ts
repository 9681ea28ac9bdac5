import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Api, PlanProgress, PlanView } from '../../core/contract';
import type { Fault } from '../../core/shop';
import type { Selection } from '../timeline';

/** What the plan's screens know and can ask for. */
export interface PlanState {
  /** `failed`: the latest plan could not be read; `faults` says why. */
  readonly status: 'loading' | 'ready' | 'failed';
  /** The latest plan, which stays while another is made; null before the first. */
  readonly view: PlanView | null;
  /** The best of the very first plan so far, not stored yet; null at any other time. */
  readonly soFar: PlanView | null;
  readonly running: boolean;
  /** Asked to stop, and the best plan so far is on its way. */
  readonly stopping: boolean;
  readonly progress: PlanProgress | null;
  /** Why the last call was refused. */
  readonly faults: readonly Fault[];
  readonly selection: Selection | null;
  /** Seconds planning may take at this seat. */
  readonly seconds: number;
  load(): Promise<void>;
  /** `near`: what is not locked stays as near as it can to the plan that counts. */
  plan(near?: boolean): Promise<void>;
  stop(): Promise<void>;
  setSeconds(seconds: number): Promise<void>;
  select(selection: Selection | null): void;
}

export type PlanStore = StoreApi<PlanState>;

export const SECONDS_RANGE = { least: 1, most: 600 } as const;
const USUAL_SECONDS = 5;
/** The same shop gives the same plan: a plan that changed for no reason would not be trusted. */
export const SEED = 1;

/** The state behind the plan's screens. It listens to the services as long as the window lives; no React in it. */
export function createPlanStore(api: Api): PlanStore {
  /** Reads the plan that counts; `beside` changes with it, so that all is drawn once. */
  async function read(beside: Partial<PlanState>): Promise<void> {
    const reply = await api.call('plan.current', null);
    const { view, selection } = store.getState();
    if (reply.ok) {
      store.setState({ ...beside, status: 'ready', view: reply.value, selection: kept(selection, reply.value) });
    } else store.setState({ ...beside, status: view === null ? 'failed' : 'ready', faults: reply.faults });
  }

  const store = createStore<PlanState>()((set, get) => ({
    status: 'loading',
    view: null,
    soFar: null,
    running: false,
    stopping: false,
    progress: null,
    faults: [],
    selection: null,
    seconds: USUAL_SECONDS,

    load: () => read({}),

    async plan(near = false) {
      if (get().running) return;
      set({ running: true, stopping: false, progress: null, faults: [] });
      const reply = await api.call('plan.start', { seconds: get().seconds, seed: SEED, near });
      if (!reply.ok) set({ running: false, faults: reply.faults });
    },

    async stop() {
      if (!get().running) return;
      set({ stopping: true });
      const reply = await api.call('plan.stop', null);
      if (!reply.ok) set({ stopping: false, faults: reply.faults });
    },

    async setSeconds(wanted) {
      const seconds = Math.min(Math.max(Math.round(wanted), SECONDS_RANGE.least), SECONDS_RANGE.most);
      set({ seconds });
      // Read first: the seat's other settings are not this screen's to change.
      const seat = await api.call('seat.read', null);
      const reply = seat.ok ? await api.call('seat.put', { ...seat.value, planSeconds: seconds }) : seat;
      if (!reply.ok) set({ faults: reply.faults });
    },

    select(selection) {
      set({ selection });
    },
  }));

  const ended = { running: false, stopping: false, progress: null, soFar: null };
  api.on('plan.soFar', (soFar) => {
    if (store.getState().view === null) store.setState({ soFar });
  });
  api.on('plan.progress', (progress) => store.setState({ running: true, progress }));
  // Together with the plan: the one before it must not stand there as the new one, not for a moment.
  api.on('plan.done', () => void read(ended));
  api.on('plan.failed', ({ faults }) => store.setState({ ...ended, faults }));
  // The services know whether the change outdates the plan, or took it away.
  api.on('shop.changed', () => void store.getState().load());
  void store.getState().load();
  void api.call('seat.read', null).then((seat) => {
    if (seat.ok) store.setState({ seconds: seat.value.planSeconds });
  });
  return store;
}

/** The selection, if the plan still holds what it picked. */
function kept(selection: Selection | null, view: PlanView | null): Selection | null {
  if (selection === null || view === null) return null;
  const isHeld = (): boolean => {
    if (selection.kind === 'run') return view.plan.runs.some((run) => run.run === selection.run);
    const { machine, start } = selection;
    if (selection.kind === 'care') return view.plan.care.some((one) => one.machine === machine && one.start === start);
    return view.report.machines.some(
      (report) => report.machine === machine && report.gaps.some((gap) => gap.start === start),
    );
  };
  return isHeld() ? selection : null;
}
