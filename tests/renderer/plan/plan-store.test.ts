import { describe, expect, it, vi } from 'vitest';
import type { PlanProgress, PlanView } from '../../../core/contract';
import type { Fault } from '../../../core/shop';
import { createPlanStore } from '../../../renderer/plan/plan-store';
import { FakeApi } from '../support/fake-api';
import { planView } from '../support/plan-view';

const fault: Fault = { code: 'no-pallet', at: ['jobs', 0], say: 'Job J-101 has no pallet.', level: 'error' };
const progress: PlanProgress = {
  phase: 'improve',
  seconds: 1.5,
  limitSeconds: 5,
  steps: 10,
  cost: null,
  boundTotal: null,
  boundTonight: null,
};

function setUp(latest: () => PlanView | null = () => planView(), start: readonly Fault[] = []) {
  const api = new FakeApi({
    'plan.current': () => ({ ok: true, value: latest() }),
    'plan.start': () => (start.length === 0 ? { ok: true, value: null } : { ok: false, faults: start }),
    'plan.stop': () => ({ ok: true, value: null }),
    'seat.read': () => ({ ok: true, value: { theme: 'dark', planSeconds: 8 } }),
    'seat.put': (seat) => ({ ok: true, value: seat }),
  });
  return { api, store: createPlanStore(api) };
}

const settled = (store: ReturnType<typeof setUp>['store']) =>
  vi.waitFor(() => expect(store.getState()).toMatchObject({ status: 'ready', seconds: 8 }));

describe('the state of the plan', () => {
  it('shows the best so far of the first plan only, until the plan itself is there', async () => {
    let latest: PlanView | null = null;
    const { api, store } = setUp(() => latest);
    await settled(store);
    await store.getState().plan();
    api.say('plan.soFar', planView({ id: 0 }));
    expect(store.getState()).toMatchObject({ view: null, soFar: { id: 0 }, running: true });
    latest = planView();
    api.say('plan.done', { id: 1 });
    await vi.waitFor(() => expect(store.getState()).toMatchObject({ view: { id: 1 }, soFar: null, running: false }));
    api.say('plan.soFar', planView({ id: 0 }));
    expect(store.getState().soFar).toBeNull();
  });

  it('begins with the latest plan and the seconds of this seat', async () => {
    const { store } = setUp();
    expect(store.getState().status).toBe('loading');
    await settled(store);
    expect(store.getState().view?.id).toBe(1);
  });

  it('keeps the old plan while a new one is made', async () => {
    const { api, store } = setUp();
    await settled(store);
    await store.getState().plan();
    api.say('plan.progress', progress);
    expect(store.getState()).toMatchObject({ running: true, progress: { seconds: 1.5 }, view: { id: 1 } });
    expect(api.asked).toContainEqual({ name: 'plan.start', sent: { seconds: 8, seed: 1, near: false } });
  });

  it('shows the new plan when planning is done', async () => {
    let id = 1;
    const { api, store } = setUp(() => planView({ id }));
    await settled(store);
    await store.getState().plan();
    id = 2;
    api.say('plan.done', { id: 2 });
    await vi.waitFor(() => expect(store.getState().view?.id).toBe(2));
    expect(store.getState()).toMatchObject({ running: false, progress: null });
  });

  it('never shows the plan before as the one just made', async () => {
    let id = 1;
    const { api, store } = setUp(() => planView({ id }));
    await settled(store);
    await store.getState().plan();
    const shownWhenReady: (number | undefined)[] = [];
    store.subscribe(({ running, view }) => {
      if (!running) shownWhenReady.push(view?.id);
    });
    id = 2;
    api.say('plan.done', { id: 2 });
    await vi.waitFor(() => expect(store.getState().running).toBe(false));
    expect(new Set(shownWhenReady)).toEqual(new Set([2]));
  });

  it('does not start a second run while one is going', async () => {
    const { api, store } = setUp();
    await settled(store);
    await Promise.all([store.getState().plan(), store.getState().plan()]);
    expect(api.times('plan.start')).toBe(1);
  });

  it('says why planning was refused and is ready to try again', async () => {
    const { store } = setUp(() => planView(), [fault]);
    await settled(store);
    await store.getState().plan();
    expect(store.getState()).toMatchObject({ running: false, faults: [fault], view: { id: 1 } });
  });

  it('says why planning failed half way', async () => {
    const { api, store } = setUp();
    await settled(store);
    await store.getState().plan();
    api.say('plan.failed', { faults: [fault] });
    expect(store.getState()).toMatchObject({ running: false, faults: [fault] });
  });

  it('asks for the best plan so far when stopped', async () => {
    const { api, store } = setUp();
    await settled(store);
    await store.getState().stop();
    expect(api.times('plan.stop')).toBe(0);
    await store.getState().plan();
    await store.getState().stop();
    expect(api.times('plan.stop')).toBe(1);
    expect(store.getState().stopping).toBe(true);
  });

  it('learns from the services that the shop has changed since', async () => {
    let outdated = false;
    const { api, store } = setUp(() => planView({ outdated }));
    await settled(store);
    outdated = true;
    api.say('shop.changed', { revision: 2 });
    await vi.waitFor(() => expect(store.getState().view?.outdated).toBe(true));
  });

  it('keeps the selection while the plan holds it, and drops it when it does not', async () => {
    let view = planView();
    const { api, store } = setUp(() => view);
    await settled(store);
    store.getState().select({ kind: 'run', run: 'J-104/10/1' });
    await store.getState().load();
    expect(store.getState().selection).toEqual({ kind: 'run', run: 'J-104/10/1' });
    view = planView({ id: 2 });
    view.plan.runs.splice(0, 1);
    api.say('plan.done', { id: 2 });
    await vi.waitFor(() => expect(store.getState().view?.id).toBe(2));
    expect(store.getState().selection).toBeNull();
  });

  it('keeps the seat’s other settings when the seconds change', async () => {
    const { api, store } = setUp();
    await settled(store);
    await store.getState().setSeconds(30);
    expect(api.asked.at(-1)).toEqual({ name: 'seat.put', sent: { theme: 'dark', planSeconds: 30 } });
  });

  it.each([
    [0, 1],
    [601, 600],
    [2.6, 3],
  ])('takes %d seconds as %d', async (wanted, taken) => {
    const { store } = setUp();
    await settled(store);
    await store.getState().setSeconds(wanted);
    expect(store.getState().seconds).toBe(taken);
  });

  it('says so when the latest plan cannot be read', async () => {
    const api = new FakeApi({
      'plan.current': () => ({ ok: false, faults: [fault] }),
      'seat.read': () => ({ ok: false, faults: [fault] }),
    });
    const store = createPlanStore(api);
    await vi.waitFor(() => expect(store.getState()).toMatchObject({ status: 'failed', faults: [fault] }));
  });
});
