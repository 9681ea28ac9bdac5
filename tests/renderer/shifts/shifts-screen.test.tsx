import { cleanup, render, screen, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { PlanView } from '../../../core/contract';
import { createPlanStore } from '../../../renderer/plan';
import { ShiftsScreen } from '../../../renderer/shifts';
import { FakeApi } from '../support/fake-api';
import { planView } from '../support/plan-view';

async function open(view: PlanView | null) {
  const api = new FakeApi({
    'plan.current': () => ({ ok: true, value: view }),
    'seat.read': () => ({ ok: true, value: { theme: 'light', planSeconds: 5 } }),
  });
  const store = createPlanStore(api);
  render(<ShiftsScreen planStore={store} />);
  await vi.waitFor(() => expect(store.getState().status).toBe('ready'));
  return userEvent.setup();
}

const cells = (name: RegExp) =>
  within(screen.getByRole('row', { name }))
    .getAllByRole('cell')
    .map((cell) => cell.textContent);

afterEach(cleanup);

describe('the shifts screen', () => {
  it('opens with what the night shift makes of its hours', async () => {
    await open(planView());
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('Third shift cuts 20.9 h of 32.0 h');
  });

  it('shows each use of the window in hours, and the share that is cut', async () => {
    await open(planView());
    expect(cells(/^Third shift/)).toEqual(['32.0', '2.0', '18.9', '0.0', '4.4', '4.0', '0.0', '2.7', '65 %', '']);
    expect(cells(/^All shifts/)[0]).toBe('72.5');
  });

  it('closes and opens the machines of a shift', async () => {
    const user = await open(planView());
    const rows = screen.getAllByRole('row').length;
    const button = screen.getByRole('button', { name: 'Third shift' });
    await user.click(button);
    expect(button.getAttribute('aria-expanded')).toBe('false');
    expect(screen.getAllByRole('row')).toHaveLength(rows - 4);
  });

  it('shows one day alone', async () => {
    const user = await open(planView());
    await user.selectOptions(screen.getByLabelText('Shifts that begin on'), 'Thu 26 Nov');
    expect(cells(/^All shifts/)[0]).toBe('8.0');
    expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('Nothing is cut unattended');
  });

  it('leaves out benches, which never cut', async () => {
    const view = planView();
    const row = view.report.shifts[0];
    if (row === undefined) throw new Error('the fixture has no shift');
    const shifts = [...view.report.shifts, { ...row, machine: 'B1' }];
    await open({ ...view, report: { ...view.report, shifts } });
    expect(screen.queryByText('B1')).toBeNull();
    expect(cells(/^All shifts/)[0]).toBe('72.5');
  });

  it('says where to make a plan when there is none', async () => {
    await open(null);
    expect(screen.getByText(/No plan yet/)).toBeDefined();
  });
});
