import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { PlanView, ShopView, Why } from '../../../core/contract';
import type { Fault } from '../../../core/shop';
import { createDeskStore } from '../../../renderer/desk';
import { createPlanStore, PlanScreen } from '../../../renderer/plan';
import { FakeApi } from '../support/fake-api';
import { planView } from '../support/plan-view';

const fault: Fault = { code: 'fixture', at: ['jobs', 1, 'route', 0], say: 'No pallet carries "vise".', level: 'error' };

async function open(view: PlanView | null, faults: readonly Fault[] = []) {
  const api = new FakeApi({
    'plan.current': () => ({ ok: true, value: view }),
    'plan.start': () => ({ ok: true, value: null }),
    'plan.why': ({ about }) => ({ ok: true, value: { ...WHY, here: `Asked about the ${about.kind}.` } }),
    'plan.substitutes': () => ({ ok: true, value: [] }),
    'plan.tools': () => ({ ok: true, value: [] }),
    'plan.stop': () => ({ ok: true, value: null }),
    'seat.read': () => ({ ok: true, value: { theme: 'light', planSeconds: 5 } }),
    'seat.put': (seat) => ({ ok: true, value: seat }),
  });
  const store = createPlanStore(api);
  const shopView: ShopView = {
    shop: planView().shop,
    revision: 1,
    faults,
    present: '2026-11-25T13:30',
    wayBack: { undo: null, redo: null },
  };
  const onShowFault = vi.fn();
  render(
    <PlanScreen
      api={api}
      planStore={store}
      desk={createDeskStore(api)}
      shopView={shopView}
      onShowFault={onShowFault}
    />,
  );
  await vi.waitFor(() => expect(store.getState().status).toBe('ready'));
  return { api, store, onShowFault, user: userEvent.setup() };
}

const WHY: Why = {
  here: '',
  notEarlier: 'It cannot start earlier.',
  frees: [{ say: 'One more pallet with fixture VISE4: 2 h earlier', gain: 120 }],
  binding: ['pallet'],
};

afterEach(cleanup);

describe('the plan screen', () => {
  it('shows the numbers that matter, each with its unit and what it is measured against', async () => {
    await open(planView());
    const tonight = screen.getByText('To expect tonight, by odds').parentElement;
    expect(tonight?.textContent).toBe('To expect tonight, by odds18.9 h18.9 h loaded, no plan above 22.5 h');
    expect(screen.getByText('Late').parentElement?.textContent).toBe('Late2 jobs20.3 weighted h, no plan below 16.5');
    expect(screen.getByText('Rounds before 22:30').parentElement?.textContent).toContain('in all');
    expect(screen.getByText('Still cutting at 06:00').parentElement?.textContent).toContain('1 of 4');
  });

  it('reminds that a plan is no approval to run unattended', async () => {
    await open(planView());
    expect(screen.getByText(/no approval to run unattended/).textContent).toContain("machine maker's manual");
  });

  it('says in one sentence what to do when there is no plan yet', async () => {
    const { user, api } = await open(null);
    expect(screen.getByText(/No plan yet/)).toBeDefined();
    await user.click(screen.getByRole('button', { name: 'Plan' }));
    expect(api.times('plan.start')).toBe(1);
  });

  it('shows how far planning has come, keeps the old plan, and can be stopped', async () => {
    const { user, api } = await open(planView());
    await user.click(screen.getByRole('button', { name: 'Plan again' }));
    const cost = { ...planView().plan.cost, tonight: 21.5 };
    act(() =>
      api.say('plan.progress', {
        phase: 'improve',
        seconds: 2.3,
        limitSeconds: 5,
        steps: 40,
        cost,
        boundTotal: 10,
        boundTonight: 22.5,
      }),
    );
    expect(screen.getByText('Planning, 2.3 of 5 s')).toBeDefined();
    expect(screen.getByText(/tonight 21.5 h of at most 22.5 h/)).toBeDefined();
    expect(screen.getByText('18.9 h')).toBeDefined();
    await user.click(screen.getByRole('button', { name: 'Stop, keep the best' }));
    expect(api.times('plan.stop')).toBe(1);
  });

  it('says that the shop has changed since the plan was made', async () => {
    await open(planView({ outdated: true }));
    expect(screen.getByText(/Shop changed since this plan/).parentElement?.textContent).toContain('plan again');
  });

  it('lists what stops planning and leads to its place', async () => {
    const { user, onShowFault } = await open(planView(), [fault]);
    expect(screen.getByRole('alert').textContent).toContain('No pallet carries "vise".');
    await user.click(screen.getByRole('button', { name: 'Show jobs, J-103' }));
    expect(onShowFault).toHaveBeenCalledWith(fault);
  });

  it('takes other seconds from the field and remembers them at this seat', async () => {
    const { user, api } = await open(planView());
    const field = screen.getByLabelText('Take up to');
    await user.clear(field);
    await user.type(field, '12{Enter}');
    await vi.waitFor(() =>
      expect(api.asked).toContainEqual({ name: 'seat.put', sent: { theme: 'light', planSeconds: 12 } }),
    );
  });

  it('puts the next round first and says how late is too late', async () => {
    await open(planView());
    const [first] = screen.getAllByRole('article');
    if (first === undefined) throw new Error('no round is listed');
    expect(within(first).getByText('13:40 to 14:20')).toBeDefined();
    expect(within(first).getByText('in 10 min')).toBeDefined();
    expect(first.textContent).toContain('by 14:45 at the latest');
  });

  it('draws hundreds of rounds a part at a time', async () => {
    const view = planView();
    const [round] = view.report.rounds;
    if (round === undefined) throw new Error('no round in the fixture');
    const rounds = Array.from({ length: 70 }, (_, i) => ({ ...round, start: round.start + i, end: round.end + i }));
    const { user } = await open({ ...view, report: { ...view.report, rounds } });
    expect(screen.getAllByRole('article')).toHaveLength(30);
    await user.click(screen.getByRole('button', { name: 'Show later rounds, 40 more' }));
    await user.click(screen.getByRole('button', { name: 'Show later rounds, 10 more' }));
    expect(screen.getAllByRole('article')).toHaveLength(70);
    expect(screen.queryByRole('button', { name: /Show later rounds/ })).toBeNull();
  });

  it('reads out the run a stop belongs to', async () => {
    const { user, store } = await open(planView());
    await user.click(
      screen.getByRole('button', { name: /Load P-07, J-115 op 10.*17:21|Load P-07, J-115 op 10.*21:45/ }),
    );
    expect(store.getState().selection).toEqual({ kind: 'run', run: 'J-115/10/1' });
    const details = screen.getByRole('region', { name: 'Details' });
    expect(details.textContent).toContain('Late by 3 h 50 min');
    expect(details.textContent).toContain('waits for P-07');
    expect(details.textContent).toContain('M2 Five-axis mill');
  });

  it('says why a run is where it is and what would free it', async () => {
    const { store } = await open(planView());
    act(() => store.getState().select({ kind: 'run', run: 'J-115/10/1' }));
    const why = await screen.findByText(/Asked about the run. It cannot start earlier./);
    expect(why.parentElement?.textContent).toContain('One more pallet with fixture VISE4: 2 h earlier');
  });

  it('offers another pallet in place of one that is withdrawn', async () => {
    const { store, user, api } = await open(planView());
    act(() => store.getState().select({ kind: 'run', run: 'J-115/10/1' }));
    await user.click(screen.getByRole('button', { name: 'Withdraw pallet P-07' }));
    expect(api.asked).toContainEqual({ name: 'plan.substitutes', sent: { id: 1, run: 'J-115/10/1' } });
    const places = await screen.findByRole('region', { name: 'In place of pallet P-07' });
    expect(within(places).getByRole('button', { name: 'Any' })).toBeDefined();
    await user.click(within(places).getByRole('button', { name: 'Keep P-07' }));
    expect(screen.queryByRole('region', { name: 'In place of pallet P-07' })).toBeNull();
  });

  it('says of a late job, when asked, what would free it', async () => {
    const { user, api } = await open(planView());
    await user.click(screen.getByRole('tab', { name: 'Late (2)' }));
    await user.click(screen.getAllByRole('button', { name: 'What would free it' })[0] as HTMLElement);
    await screen.findByText(/Asked about the late/);
    expect(api.asked).toContainEqual({ name: 'plan.why', sent: { id: 1, about: { kind: 'late', job: 'J-101' } } });
  });

  it('says with nothing selected what each machine does with the night', async () => {
    await open(planView());
    const details = screen.getByRole('region', { name: 'Details' });
    expect(details.textContent).toContain('M17.5 h cut, until the first person comes');
    expect(details.textContent).toContain('M23.5 h cut, stands from 02:00: dry');
    expect(details.textContent).not.toContain('B1');
  });

  it('lists late jobs with the reason, the latest first', async () => {
    const { user } = await open(planView());
    await user.click(screen.getByRole('tab', { name: 'Late (2)' }));
    const items = screen.getAllByRole('heading', { level: 3 }).map((heading) => heading.textContent);
    expect(items).toEqual(['J-101 late by 16 h 30 min', 'J-115 late by 3 h 50 min']);
    expect(screen.getByText(/Its fitting needs Anna/)).toBeDefined();
  });

  it('moves between the lists by arrow keys', async () => {
    const { user } = await open(planView());
    screen.getByRole('tab', { name: 'Rounds' }).focus();
    await user.keyboard('{ArrowRight}');
    expect(screen.getByRole('tab', { name: 'Late (2)' }).getAttribute('aria-selected')).toBe('true');
    expect(document.activeElement).toBe(screen.getByRole('tab', { name: 'Late (2)' }));
  });

  it('lists runs left out and locks that cannot hold only if there are any', async () => {
    const view = planView();
    view.plan.left.push({ run: 'J-120/10/1', why: 'It is longer than the time left.' });
    view.plan.conflicts.push({ run: 'J-104/10/1', say: 'It overlaps J-104/10/2 on M1.' });
    const { user } = await open(view);
    await user.click(screen.getByRole('tab', { name: 'Not placed (2)' }));
    expect(screen.getByText('It is longer than the time left.')).toBeDefined();
    expect(screen.getByText('It overlaps J-104/10/2 on M1.')).toBeDefined();
    cleanup();
    await open(planView());
    expect(screen.queryByRole('tab', { name: /Not placed/ })).toBeNull();
  });

  it('walks the timeline by arrow keys and says where it is', async () => {
    const { store } = await open(planView());
    const timeline = screen.getByRole('application');
    fireEvent.keyDown(timeline, { key: 'ArrowRight' });
    fireEvent.keyDown(timeline, { key: 'ArrowRight' });
    expect(store.getState().selection).toEqual({ kind: 'run', run: 'J-104/10/2' });
    const said = document.querySelector('output')?.textContent;
    expect(said).toContain('J-104 Cavity insert. op 10, run 2 of 2');
    fireEvent.keyDown(timeline, { key: 'Escape' });
    expect(store.getState().selection).toBeNull();
  });
});
