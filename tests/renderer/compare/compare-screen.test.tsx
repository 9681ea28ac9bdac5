import { cleanup, render, screen, waitFor, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { CallName, CopyView, PlanRef, PlanSummary, Reply, Returned, ShopView } from '../../../core/contract';
import { CompareScreen, createCompareStore } from '../../../renderer/compare';
import { createPlanStore } from '../../../renderer/plan';
import { createShopStore, ShopProvider, UndoStrip } from '../../../renderer/tables';
import { FakeApi } from '../support/fake-api';
import { planView } from '../support/plan-view';
import { comparison, copyView, summary } from './compared';

afterEach(cleanup);

const PLANS = [summary(9, { current: true }), summary(8, { name: 'Before the rush' }), summary(5)];

const done = <T,>(value: T): { ok: true; value: T } => ({ ok: true, value });

async function open(plans: readonly PlanSummary[] = PLANS, first: readonly CopyView[] = []) {
  let copies = first;
  const refusals = new Map<CallName, string>();
  const shopView: ShopView = {
    shop: planView().shop,
    revision: 1,
    faults: [],
    present: '2026-11-25T15:20',
    wayBack: { undo: 'Bring back the plan', redo: null },
  };
  const or = <K extends CallName>(call: K, value: Returned<K>): Reply<Returned<K>> => {
    const say = refusals.get(call);
    return say === undefined ? done(value) : { ok: false, faults: [{ code: 'refused', at: [], say, level: 'error' }] };
  };
  const viewOf = (id: number) => planView({ id, name: plans.find((plan) => plan.id === id)?.name ?? '' });
  const api = new FakeApi({
    'shop.read': () => done(shopView),
    'seat.read': () => done({ theme: 'system', planSeconds: 8 }),
    'plan.current': () => done(plans.length === 0 ? null : viewOf(9)),
    'plan.read': ({ id }) => done(viewOf(id)),
    'plan.list': () => done([...plans]),
    'change.list': () =>
      done([
        { id: 2, made: '2026-11-25T15:10', say: 'Delete P-09 from pallets', undone: true },
        { id: 1, made: '2026-11-25T14:50', say: 'Lock J-104/10/2 at M1, 18:00', undone: false },
      ]),
    'plan.name': ({ id, name }) =>
      or(
        'plan.name',
        plans.map((plan) => (plan.id === id ? { ...plan, name } : plan)),
      ),
    'plan.use': () => or('plan.use', shopView),
    'plan.compare': () =>
      or('plan.compare', {
        comparison: comparison({ tonight: [18, 22] }, { late: [{ job: 'J-101', before: 90, after: 0 }] }),
        say: ['J-101 finishes in time, was 1 h 30 min late.'],
      }),
    'copy.list': () => done([...copies]),
    'copy.make': ({ name }) => {
      copies = [...copies, copyView('7', { name })];
      return done([...copies]);
    },
    'copy.plan': () => or('copy.plan', null),
    'copy.call': () => done(planView({ id: 1 })),
    'copy.adopt': () => or('copy.adopt', shopView),
    'copy.discard': ({ id }) => {
      copies = copies.filter((copy) => copy.id !== id);
      return done([...copies]);
    },
  });
  const store = createCompareStore(api);
  const planStore = createPlanStore(api);
  const shop = createShopStore(api);
  await shop.read();
  const onOpen = vi.fn();
  render(
    <ShopProvider store={shop}>
      <CompareScreen store={store} planStore={planStore} present="2026-11-25T15:20" onOpen={onOpen} />
      <UndoStrip />
    </ShopProvider>,
  );
  await waitFor(() => expect(store.getState().copies).not.toBeNull());
  const asked = (call: CallName): unknown[] => api.asked.filter(({ name }) => name === call).map(({ sent }) => sent);
  return { api, store, onOpen, asked, refusals, user: userEvent.setup() };
}

const own: PlanRef = { copy: null, plan: null };
const headline = (): Promise<HTMLElement> => screen.findByRole('heading', { level: 1 });

describe('the screen that compares plans', () => {
  it('lists what was changed, the last first, and what of it was undone', async () => {
    await open();
    const list = within(await screen.findByRole('region', { name: 'Changes so far' }));
    expect(list.getAllByRole('listitem').map((item) => item.textContent)).toEqual([
      'Wed 25 Nov 15:10Delete P-09 from pallets, undone',
      'Wed 25 Nov 14:50Lock J-104/10/2 at M1, 18:00',
    ]);
  });

  it('says first which plan to work by, then why', async () => {
    await open();
    await screen.findByText('J-101 finishes in time, was 1 h 30 min late.');
    expect((await headline()).textContent).toBe("The shop's plan is better: 4.0 h more to expect tonight");
    const row = screen.getByRole('row', { name: /To expect tonight/ });
    expect(
      within(row)
        .getAllByRole('cell')
        .map((cell) => cell.textContent),
    ).toEqual(['18.0 h', '22.0 h', '+4.0 h', 'better']);
  });

  it('compares the two that are chosen, also by the arrow keys', async () => {
    const { asked, user } = await open();
    await headline();
    await user.click(screen.getByRole('radio', { name: 'Plan 5, Wed 25 Nov 15:02, before' }));
    await waitFor(() => expect(asked('plan.compare').at(-1)).toEqual({ before: { copy: null, plan: 5 }, after: own }));
    await user.keyboard('{ArrowUp}');
    await waitFor(() => expect(asked('plan.compare').at(-1)).toEqual({ before: { copy: null, plan: 8 }, after: own }));
    expect(screen.getByRole('radio', { name: 'Before the rush, before' })).toHaveProperty('checked', true);
  });

  it('brings an earlier plan back, without or with the shop of then, and offers to undo it', async () => {
    const { asked, user } = await open();
    await user.click(await screen.findByRole('button', { name: 'Bring this plan back' }));
    await screen.findByText('Brought back Before the rush.');
    expect(screen.getByRole('button', { name: 'Undo' })).toBeTruthy();
    await user.click(screen.getByRole('radio', { name: 'Plan 5, Wed 25 Nov 15:02, before' }));
    await user.click(await screen.findByRole('checkbox', { name: 'with the shop as it was then' }));
    await user.click(screen.getByRole('button', { name: 'Bring this plan back' }));
    await waitFor(() =>
      expect(asked('plan.use')).toEqual([
        { id: 8, withShop: false },
        { id: 5, withShop: true },
      ]),
    );
  });

  it('says where it stands why a plan was not brought back', async () => {
    const { refusals, user } = await open();
    refusals.set('plan.use', 'A plan is being made for this shop; stop it first.');
    await user.click(await screen.findByRole('button', { name: 'Bring this plan back' }));
    const card = screen.getByRole('region', { name: 'Plan before' });
    expect((await within(card).findByRole('alert')).textContent).toContain('stop it first');
  });

  it('names a plan where it stands; a name that is refused stays as typed beside the reason', async () => {
    const { asked, refusals, user } = await open();
    const field = await screen.findByLabelText<HTMLInputElement>('Name of plan 5');
    await user.type(field, 'Monday morning{Enter}');
    await waitFor(() => expect(field.value).toBe('Monday morning'));
    expect(asked('plan.name')).toEqual([{ id: 5, name: 'Monday morning' }]);
    refusals.set('plan.name', 'plan.name, name: is longer than 80 characters; shorten it.');
    await user.type(field, ' and on{Enter}');
    expect((await screen.findByRole('alert')).textContent).toContain('shorten it');
    expect(field.value).toBe('Monday morning and on');
    await user.keyboard('{Escape}');
    expect(field.value).toBe('Monday morning');
    expect(screen.queryByRole('alert')).toBeNull();
  });

  it('says what a what-if is for, makes one under a free name and opens it', async () => {
    const { asked, onOpen, user } = await open();
    await screen.findByText(/A what-if is a copy of the shop/);
    await user.click(screen.getByRole('button', { name: 'New what-if' }));
    await waitFor(() => expect(onOpen).toHaveBeenCalledWith('7'));
    expect(asked('copy.make')).toEqual([{ name: 'What-if 1' }]);
  });

  it('says how each what-if differs, what it brings beside the shop, and marks one that is not planned as it is', async () => {
    const better = { ...planView().plan.cost, tonight: 21.4, rounds: 12 };
    const plan = { ...summary(1), cost: better, outdated: true };
    await open(PLANS, [copyView('3', { name: 'Third operator', differences: ['Person Ada added'], plan })]);
    await screen.findByText('Person Ada added');
    expect(screen.getByText('Changed since it was planned: plan it again.')).toBeTruthy();
    const row = screen.getByRole('radio', { name: 'Third operator, after' }).closest('tr') as HTMLElement;
    expect(row.textContent).toContain('21.4+2.5');
    expect(row.textContent).toContain('12−2');
  });

  it('does not call a what-if better that was changed since it was planned', async () => {
    const plan = { ...summary(1), outdated: true };
    const { api, user } = await open(PLANS, [copyView('3', { name: 'Third operator', plan })]);
    const planned = api.call.bind(api);
    api.call = async (name, sent) =>
      name === 'copy.call' ? (done(planView({ outdated: true })) as never) : planned(name, sent);
    await user.click(screen.getByRole('radio', { name: 'Third operator, after' }));
    await screen.findByText('Third operator: to be planned again first');
    expect(screen.queryByText('better', { selector: 'b' })).toBeNull();
  });

  it('plans all what-ifs alike, shows how far each is, and says why one was not planned', async () => {
    const { api, asked, user } = await open(PLANS, [copyView('3'), copyView('4')]);
    await user.click(await screen.findByRole('button', { name: 'Plan all' }));
    expect(asked('copy.plan')).toEqual([{ ids: ['3', '4'], seconds: 8, seed: 1 }]);
    expect(screen.getAllByText('Waits to be planned')).toHaveLength(2);
    const faults = [
      { code: 'x', at: [], say: 'A plan is being made already; stop it first.', level: 'error' as const },
    ];
    api.say('copy.said', { copy: '3', event: 'plan.failed', data: { faults } });
    expect((await screen.findByRole('alert')).textContent).toContain('A plan is being made already');
    api.say('copy.said', { copy: '4', event: 'plan.done', data: { id: 1 } });
    await waitFor(() => expect(screen.queryByText('Waits to be planned')).toBeNull());
  });

  it('adopts a what-if, and discards one only when asked once more', async () => {
    const { asked, user } = await open(PLANS, [copyView('3', { name: 'Third operator' })]);
    await user.click(screen.getByRole('radio', { name: 'Third operator, after' }));
    await user.click(await screen.findByRole('button', { name: 'Adopt' }));
    await screen.findByText('Adopted “Third operator”.');
    expect(asked('copy.adopt')).toEqual([{ id: '3' }]);
    await user.click(screen.getByRole('button', { name: 'Discard' }));
    expect(asked('copy.discard')).toEqual([]);
    screen.getByText('Discard Third operator? Its file stays among the backups.');
    await user.click(screen.getByRole('button', { name: 'Discard it' }));
    await screen.findByText(/None yet. A what-if/);
  });

  it('says how to come to a first and to a second plan', async () => {
    await open([]);
    await screen.findByText(/No plan yet. Make one on the Plan screen/);
    cleanup();
    await open([summary(9, { current: true })]);
    expect((await headline()).textContent).toBe('One plan so far');
  });

  it('says why two plans cannot be compared', async () => {
    const { store, refusals } = await open();
    refusals.set('plan.compare', 'There is no plan 8; choose one of the list.');
    await store.getState().load();
    expect((await screen.findByRole('alert')).textContent).toBe('There is no plan 8; choose one of the list.');
  });
});
