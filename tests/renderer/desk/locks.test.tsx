import { cleanup, render, screen, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Fault, Shop } from '../../../core/shop';
import { LockControls, LockedList } from '../../../renderer/desk';
import { indexPlan } from '../../../renderer/timeline';
import { planView } from '../support/plan-view';
import { deskThat, fault, held, OPEN, shopWith } from './tried';

afterEach(cleanup);

const PLANNING = fault('A plan is being made for this shop; stop it first.');

function openControls(shop: Shop, run = 'J-104/10/2', takes: readonly Fault[] = []) {
  const { api, desk } = deskThat({ takes });
  const index = indexPlan(planView());
  render(<LockControls desk={desk} index={index} shop={shop} run={run} disabled={false} />);
  return { api, user: userEvent.setup() };
}

const boxes = () => screen.getAllByRole('checkbox').map((box) => box.parentElement?.textContent);

describe('what locks a run', () => {
  it('offers its machine, its time, its pallet and the run before it, as they are planned', () => {
    openControls(shopWith());
    expect(boxes()).toEqual(['on M1', 'at Wed 15:00', 'with pallet P-02', 'after J-104/10/1']);
  });

  it('offers the first run of a machine no run to come after, and work at the bench no pallet', () => {
    openControls(shopWith(), 'J-101/40/1');
    expect(boxes()).toEqual(['on B1', 'at Thu 09:00']);
  });

  it('is put and taken off one by one, and what else locks the run stays', async () => {
    const { api, user } = openControls(shopWith({ run: 'J-104/10/2', machine: 'M1' }));
    expect(screen.getByRole<HTMLInputElement>('checkbox', { name: 'on M1' }).checked).toBe(true);
    await user.click(screen.getByRole('checkbox', { name: 'at Wed 15:00' }));
    const both = held({ machine: 'M1', start: '2026-11-25T15:00' });
    expect(api.asked.at(-1)).toEqual({ name: 'desk.take', sent: { change: both, trial: 7 } });
    await user.click(screen.getByRole('checkbox', { name: 'on M1' }));
    expect(api.asked.at(-1)).toEqual({ name: 'desk.take', sent: { change: held(), trial: 7 } });
  });

  it('shows where the run is held, not where an older plan has it', () => {
    openControls(shopWith({ run: 'J-104/10/2', start: '2026-11-25T18:30' }));
    expect(boxes()[1]).toBe('at Wed 18:30');
  });

  it('says why a lock was not taken', async () => {
    const { user } = openControls(shopWith(), 'J-104/10/2', [PLANNING]);
    await user.click(screen.getByRole('checkbox', { name: 'on M1' }));
    expect((await screen.findByRole('alert')).textContent).toBe(`Not taken: ${PLANNING.say}`);
  });

  it('cannot be changed of a run that has begun', () => {
    openControls(shopWith({ run: 'J-104/10/1', state: 'running', machine: 'M1', pallet: 'P-01' }), 'J-104/10/1');
    expect(screen.queryByRole('checkbox')).toBeNull();
    expect(screen.getByText('On the floor already: it stays where it is.')).toBeDefined();
  });
});

function openList(shop: Shop, takes: readonly Fault[] = [], disabled = false) {
  const { api, desk } = deskThat({ takes });
  const view = planView();
  const conflicts = [{ run: 'J-110/10/1', say: 'J-110/10/2 is held on C1 at the same time.' }];
  const index = indexPlan({ ...view, plan: { ...view.plan, conflicts } });
  const onSelect = vi.fn();
  render(<LockedList desk={desk} index={index} shop={shop} disabled={disabled} onSelect={onSelect} />);
  return { api, onSelect, user: userEvent.setup() };
}

const TWO = shopWith(
  { run: 'J-104/10/2', machine: 'M1', start: '2026-11-25T15:00' },
  { run: 'J-110/10/1', pallet: 'P-10', after: 'J-110/10/2' },
  { run: 'J-104/10/1', state: 'running', machine: 'M1', pallet: 'P-01' },
);

describe('the list of what is held', () => {
  it('says how to lock a run where nothing is', () => {
    openList(shopWith());
    expect(screen.getByText(/^Nothing is locked\. Drag a run/)).toBeDefined();
  });

  it('names each lock in words, the one that can’t be kept first with the reason, and nothing of the floor', () => {
    openList(TWO);
    const items = screen.getAllByRole('listitem').map((item) => item.textContent);
    expect(items).toHaveLength(2);
    expect(items[0]).toMatch(/^J-110\/10\/1with pallet P-10, after J-110\/10\/2Can’t hold: J-110\/10\/2 is held/);
    expect(items[1]).toMatch(/^J-104\/10\/2on M1, at Wed 15:00Show/);
  });

  it('frees one', async () => {
    const { api, user } = openList(TWO);
    await user.click(screen.getByRole('button', { name: 'Unlock J-104/10/2' }));
    expect(api.asked.at(-1)).toEqual({ name: 'desk.take', sent: { change: held(), trial: 7 } });
  });

  it('frees all in one change, so that one undo brings them back', async () => {
    const { api, user } = openList(TWO);
    await user.click(screen.getByRole('button', { name: 'Unlock all 2' }));
    expect(api.times('desk.take')).toBe(1);
    const locks = ['J-110/10/1', 'J-104/10/2'].map((run) => ({ run, ...OPEN }));
    expect(api.asked.at(-1)?.sent).toEqual({ change: { locks, withdraw: [], rush: null }, trial: 7 });
  });

  it('leads to the run, unless the plan does not have it', async () => {
    const { onSelect, user } = openList(shopWith({ run: 'J-104/10/2' }, { run: 'J-199/10/1' }));
    const shows = screen.getAllByRole('button', { name: 'Show the run' });
    expect(shows).toHaveLength(1);
    await user.click(shows[0] as HTMLElement);
    expect(onSelect).toHaveBeenCalledWith({ kind: 'run', run: 'J-104/10/2' });
  });

  it('says at the run why it was not freed', async () => {
    const { user } = openList(TWO, [PLANNING]);
    await user.click(screen.getByRole('button', { name: 'Unlock J-104/10/2' }));
    const item = screen.getByRole('heading', { name: 'J-104/10/2' }).parentElement as HTMLElement;
    expect(await within(item).findByText(`Not taken: ${PLANNING.say}`)).toBeDefined();
    expect(screen.getAllByText(/^Not taken/)).toHaveLength(1);
  });

  it('frees nothing while a plan is being made', () => {
    openList(TWO, [], true);
    for (const button of screen.getAllByRole<HTMLButtonElement>('button', { name: /^Unlock/ })) {
      expect(button.disabled).toBe(true);
    }
  });
});
