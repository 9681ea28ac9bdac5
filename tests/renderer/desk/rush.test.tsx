import { act, cleanup, render, screen } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { Trial } from '../../../core/contract';
import type { Fault, Shop } from '../../../core/shop';
import { RushPanel } from '../../../renderer/desk';
import { comparison } from '../compare/compared';
import { deskThat, fault, held, shopWith, trial } from './tried';

afterEach(cleanup);

const NEAR = '2026-11-25T13:30';

const IN_TIME: Trial = trial({
  placed: [
    { run: 'R-1/10/2', machine: 'M1', start: '2026-11-26T11:00', end: '2026-11-26T14:40' },
    { run: 'R-1/10/1', machine: 'M2', start: '2026-11-25T20:00', end: '2026-11-26T00:10' },
  ],
  say: ['J-107 finishes 2 h 10 min late, was in time.', 'R-1 is new and finishes in time.'],
  comparison: comparison(
    {},
    {
      jobs: { added: ['R-1'], removed: [] },
      late: [
        { job: 'J-107', before: 0, after: 130 },
        { job: 'J-115', before: 60, after: 30 },
        { job: 'J-120', before: 0, after: null },
        { job: 'R-1', before: null, after: 0 },
      ],
      displaced: { tonight: ['J-107/20/2', 'J-110/10/2'], week: ['J-107'] },
    },
  ),
});

function open(tries: Trial | readonly Fault[] = IN_TIME, shop: Shop = shopWith(), takes: readonly Fault[] = []) {
  const { api, desk } = deskThat({ tries, takes });
  const onTaken = vi.fn();
  const panel = <RushPanel desk={desk} shop={shop} near={NEAR} disabled={false} onTaken={onTaken} />;
  const { unmount } = render(panel);
  return { api, desk, onTaken, user: userEvent.setup(), leave: unmount, comeBack: () => render(panel) };
}

const see = () => screen.getByRole('button', { name: 'See what it displaces' });
const said = () => screen.getByRole('status').textContent;

describe('a rush job', () => {
  it('is made like another, under a name of its own, due tomorrow afternoon', async () => {
    const { api, user } = open();
    await user.click(see());
    const [like] = shopWith().jobs;
    const rush = { ...like, id: 'R-1', quantity: 1, due: '2026-11-26T16:00', weight: 3, release: null, overdue: false };
    expect(api.asked).toEqual([{ name: 'desk.try', sent: { change: { locks: [], withdraw: [], rush }, seconds: 4 } }]);
  });

  it('takes the next free name', () => {
    const [first] = shopWith().jobs;
    if (first === undefined) throw new Error('the fixture has no jobs');
    open(IN_TIME, { ...shopWith(), jobs: [first, { ...first, id: 'R-1' }] });
    expect(screen.getByRole<HTMLInputElement>('textbox', { name: 'Job' }).value).toBe('R-2');
  });

  it('is asked about as it is typed', async () => {
    const { api, user } = open();
    await user.selectOptions(screen.getByRole('combobox', { name: 'Like' }), 'J-104');
    await user.clear(screen.getByRole('textbox', { name: 'Parts' }));
    await user.type(screen.getByRole('textbox', { name: 'Parts' }), '6');
    await user.clear(screen.getByRole('textbox', { name: 'Due' }));
    await user.type(screen.getByRole('textbox', { name: 'Due' }), 'fri 12:00');
    await user.selectOptions(screen.getByRole('combobox', { name: 'Counts' }), 'before all others');
    await user.click(see());
    expect(api.asked.at(-1)?.sent).toMatchObject({
      change: { rush: { id: 'R-1', name: 'Cavity insert', quantity: 6, due: '2026-11-27T12:00', weight: 10 } },
    });
  });

  it('is shown with when it is cut, what leaves tonight and this week, and what turns later, before it is taken', async () => {
    const { api, user } = open();
    await user.click(see());
    expect(said()).toContain('R-1 is cut by Thu 26 Nov 14:40, in time.');
    expect(said()).toContain('J-107 finishes 2 h 10 min late, was in time.');
    expect(said()).toContain('Out of tonightJ-107/20/2, J-110/10/2');
    expect(said()).toContain('Later this weekJ-107');
    expect(said()).toContain('Late by moreJ-107 2 h 10 min, J-120 left out');
    expect(api.times('desk.take')).toBe(0);
  });

  it('that is cut before it is due but off only afterwards is called late', async () => {
    open({ ...IN_TIME, comparison: comparison({}, { late: [{ job: 'R-1', before: null, after: 25 }] }) });
    await userEvent.setup().click(see());
    expect(said()).toContain('R-1 is cut by Thu 26 Nov 14:40, and 25 min late when it is off.');
  });

  it('that does not fit is said to', async () => {
    open({ ...IN_TIME, left: ['R-1/10/2'] });
    await userEvent.setup().click(see());
    expect(said()).toContain('R-1 does not fit before the plan ends.');
  });

  it('is taken with the plan that was shown', async () => {
    const { api, onTaken, user } = open();
    await user.click(see());
    await user.click(screen.getByRole('button', { name: 'Accept it' }));
    expect(api.asked.at(-1)).toMatchObject({ name: 'desk.take', sent: { change: { rush: { id: 'R-1' } }, trial: 7 } });
    expect(onTaken).toHaveBeenCalledOnce();
  });

  it('is dropped without a trace, and the focus comes back to where it was asked about', async () => {
    const { api, user } = open();
    await user.click(see());
    expect(document.activeElement).toBe(screen.getByRole('button', { name: 'Accept it' }));
    await user.keyboard('{Tab}{Enter}');
    expect(said()).toBe('');
    expect(document.activeElement).toBe(see());
    expect(api.times('desk.take')).toBe(0);
  });

  it('is asked about again once something of it is changed', async () => {
    const { user } = open();
    await user.click(see());
    await user.type(screen.getByRole('textbox', { name: 'Parts' }), '2');
    expect(screen.queryByRole('button', { name: 'Accept it' })).toBeNull();
    expect(said()).toBe('');
  });

  it('is still there with what it displaces after a look at another list', async () => {
    const { user, leave, comeBack } = open();
    await user.clear(screen.getByRole('textbox', { name: 'Job' }));
    await user.type(screen.getByRole('textbox', { name: 'Job' }), 'R-1');
    await user.clear(screen.getByRole('textbox', { name: 'Due' }));
    await user.type(screen.getByRole('textbox', { name: 'Due' }), 'Fri 08:00');
    await user.click(see());
    leave();
    comeBack();
    expect(screen.getByRole<HTMLInputElement>('textbox', { name: 'Due' }).value).toBe('Fri 08:00');
    expect(said()).toContain('R-1 is cut by');
    expect(screen.getByRole('button', { name: 'Accept it' })).toBeDefined();
  });

  it('due at no time that can be read is not asked about, and says how to write it', async () => {
    const { api, user } = open();
    await user.clear(screen.getByRole('textbox', { name: 'Due' }));
    await user.type(screen.getByRole('textbox', { name: 'Due' }), 'soon');
    await user.click(see());
    expect(said()).toBe('"soon" is not a date and time. Type it as 27 Nov 16:00, 2026-11-27 16:00 or fri 16:00.');
    expect(screen.getByRole('textbox', { name: 'Due' }).getAttribute('aria-invalid')).toBe('true');
    expect(api.asked).toEqual([]);
  });

  it('that is refused says why and stays as typed', async () => {
    const { user } = open([fault('Job R-1, quantity: must be at least 1.')]);
    await user.click(see());
    expect(said()).toBe('Job R-1, quantity: must be at least 1.');
    expect(screen.getByRole<HTMLInputElement>('textbox', { name: 'Job' }).value).toBe('R-1');
  });

  it('that is not taken says why and may be taken again', async () => {
    const { onTaken, user } = open(IN_TIME, shopWith(), [fault('A plan is being made for this shop; stop it first.')]);
    await user.click(see());
    await user.click(screen.getByRole('button', { name: 'Accept it' }));
    expect(said()).toContain('A plan is being made for this shop; stop it first.');
    expect(screen.getByRole('button', { name: 'Accept it' })).toBeDefined();
    expect(onTaken).not.toHaveBeenCalled();
  });

  it('says nothing of a lock that was refused', async () => {
    const { desk } = open([fault('J-104/10/2 is running on the floor.')]);
    await act(() => desk.getState().apply(held({ machine: 'M1' })));
    expect(said()).toBe('');
  });

  it('cannot be made like anything in a shop without jobs', () => {
    open(IN_TIME, { ...shopWith(), jobs: [] });
    expect(screen.getByText('A rush job is made like another. Enter a job first.')).toBeDefined();
  });
});
