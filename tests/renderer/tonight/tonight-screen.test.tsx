import { cleanup, render, screen, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { PlanView, Purchase, TonightView } from '../../../core/contract';
import { createPlanStore } from '../../../renderer/plan';
import { createTonightStore, TonightScreen } from '../../../renderer/tonight';
import { FakeApi } from '../support/fake-api';
import { planView } from '../support/plan-view';
import { sheetOfFixture } from '../support/run-sheet';

/** What the services would say of the fixture's plan; figures of our own. */
function tonightOf(view: PlanView): TonightView {
  const { tonight } = view.report;
  if (tonight === null) throw new Error('the fixture has no night');
  const [first, second] = view.plan.runs.filter((run) => run.end > tonight.start);
  if (first === undefined || second === undefined) throw new Error('the fixture cuts too little');
  const length = { p10: 90, p50: 100, p90: 115 };
  return {
    id: view.id,
    outcome: {
      ...{ nights: 10_000, seed: 1, stretch: tonight, loaded: 18.9, expected: 16.4, halfWidth: 0.08, badNight: 9.1 },
      ...{ cutting: [1, 0.9], weakest: first.run, wrong: [{ job: 'J-118', mean: 0.25, p90: 1 }] },
      machines: [
        {
          ...{ machine: first.machine, loaded: 8, expected: 7.2, badNight: 3.5, stillCutting: 0.81 },
          ...{ quietPlanned: null, quietMedian: null },
        },
      ],
      runs: [
        { run: second.run, machine: second.machine, done: 0.95, length, stops: 0.01, lost: 0.1 },
        { run: first.run, machine: first.machine, done: 0.72, length, stops: 0.2, lost: 1.2 },
      ],
      stops: [
        { kind: 'tool', machine: first.machine, run: first.run, name: 'EM16', chance: 0.09, lost: 0.77 },
        { kind: 'shared', machine: null, run: null, name: 'Probe battery', chance: 0.01, lost: 0.16 },
      ],
    },
    swap: { machine: first.machine, first: first.run, second: second.run, gain: 0.4, halfWidth: 0.1 },
    tools: [],
    presets: {
      ...{ until: tonight.end, total: 1, never: [] },
      kinds: [
        {
          ...{ machine: first.machine, tool: 'EM16', fewest: 1, inOrder: 1, proved: true },
          shortage: {
            ...{ machine: first.machine, tool: 'EM16', run: first.run, pallet: 'P-07' },
            ...{ start: tonight.start + 60, minute: tonight.start + 90, needed: 95, missing: 30 },
          },
        },
      ],
    },
    checks: [
      { key: 'care', say: 'Replace EM16 on M1', at: tonight.start - 30 },
      { key: 'usual Filter clean', say: 'Filter clean', at: null },
    ],
  };
}

async function open(view: PlanView | null, night?: TonightView) {
  const released = { at: '2026-11-25T15:20', checked: ['care'] };
  let current = view;
  const api = new FakeApi({
    'plan.current': () => ({ ok: true, value: current }),
    'seat.read': () => ({ ok: true, value: { theme: 'light', planSeconds: 5 } }),
    'tonight.read': () => ({ ok: true, value: night ?? tonightOf(view!) }),
    'sheet.read': () => ({ ok: true, value: sheetOfFixture() }),
    'tonight.buy': () => ({ ok: true, value: null }),
    'plan.release': () => {
      current = { ...view!, released };
      return { ok: true, value: current };
    },
  });
  const planStore = createPlanStore(api);
  const tonightStore = createTonightStore(api, planStore);
  render(<TonightScreen api={api} planStore={planStore} tonightStore={tonightStore} />);
  await vi.waitFor(() => expect(planStore.getState().status).toBe('ready'));
  return { api, user: userEvent.setup() };
}

const part = (name: string | RegExp) => within(screen.getByRole('region', { name }));
const purchase = (say: string, hours: number): Purchase => ({
  ...{ kind: 'pallet', say, hours, halfWidth: 0.1, money: 60 * hours, lateness: 0, dual: 0.5 },
});

afterEach(cleanup);

describe('the screen "Tonight"', () => {
  it('shows the hours to expect before the hours loaded, and a bad night', async () => {
    await open(planView());
    const values = (await screen.findAllByRole('definition')).map((value) => value.textContent);
    expect(values.slice(0, 6)).toEqual([
      '16.4 h',
      '± 0.1 h, 10000 simulated nights, tools and shared causes in them',
      '18.9 h',
      'if nothing stops',
      '9.1 h',
      'or less, one night of ten',
    ]);
  });

  it('shows nothing of releasing in a what-if, also of a plan that the shop had released', async () => {
    const view = planView({ released: { at: '2026-11-25T15:20', checked: [] } });
    const api = new FakeApi({
      'plan.current': () => ({ ok: true, value: view }),
      'seat.read': () => ({ ok: true, value: { theme: 'light', planSeconds: 5 } }),
      'tonight.read': () => ({ ok: true, value: tonightOf(view) }),
    });
    const planStore = createPlanStore(api);
    const tonightStore = createTonightStore(api, planStore);
    render(<TonightScreen planStore={planStore} tonightStore={tonightStore} api={api} mayRelease={false} />);
    await screen.findByText('What stops first');
    expect(screen.queryByRole('button', { name: /Release|run sheet/ })).toBeNull();
    expect(screen.queryByRole('heading', { name: /run sheet/ })).toBeNull();
  });

  it('names what stops first, the weakest pallet first, and the tools to preset with pallet and minute', async () => {
    await open(planView());
    await screen.findByText('What stops first');
    expect(part('What stops first').getAllByRole('listitem')[0]?.textContent).toMatch(
      /^Out of EM16 in .*0\.77 h9\.0 % of nights$/,
    );
    expect(part('Weak pallets').getAllByRole('listitem')[0]?.textContent).toMatch(/72 %of nights good$/);
    expect(part('Tools to preset').getByRole('listitem').textContent).toMatch(
      /^1 × EM16 into .*else P-07, .* runs short at Thu 00:00by Wed 22:30$/,
    );
  });

  it('names what no number of new tools is enough for, with pallet and minute', async () => {
    const view = planView();
    const night = tonightOf(view);
    const { shortage } = night.presets.kinds[0]!;
    const never = [{ ...shortage, tool: 'BN06', missing: 15 }];
    await open(view, { ...night, presets: { ...night.presets, total: 0, kinds: [], never } });
    await screen.findByText('Tools to preset');
    expect(part('Tools to preset').getByRole('listitem').textContent).toMatch(
      /^BN06 in .* cannot lastP-07, .* wants 15 min more than new tools give, at Thu 00:00$/,
    );
  });

  it('explains the exchange that gains most', async () => {
    await open(planView());
    expect((await screen.findByText(/would bring 0\.4 h more/)).textContent).toContain(
      'odds to stop the machine goes first',
    );
  });

  it('counts what has been seen to', async () => {
    const { user } = await open(planView());
    await screen.findByText('Before going home, 0 of 2');
    await user.click(screen.getByRole('checkbox', { name: 'Replace EM16 on M1' }));
    expect(screen.getByText('Before going home, 1 of 2')).toBeDefined();
  });

  it('names a supply that is said to last less than the hours loaded', async () => {
    const view = planView();
    const { user } = await open(view);
    await screen.findByText('Hours to empty');
    const [coolant] = screen.getAllByLabelText(/^Coolant on /);
    await user.type(coolant!, '8');
    expect(part('Hours to empty').queryByText(/ lasts \d/)).toBeNull();
    await user.clear(coolant!);
    await user.type(coolant!, '7,5');
    expect(part('Hours to empty').getByText(/^Coolant on .* lasts 7\.5 of 8\.0 h\.$/)).toBeDefined();
    await user.clear(coolant!);
    await user.type(coolant!, 'much');
    expect(coolant!.getAttribute('aria-invalid')).toBe('true');
  });

  it('releases the plan with what was seen to', async () => {
    const { api, user } = await open(planView());
    await screen.findByText('Before going home, 0 of 2');
    await user.click(screen.getByRole('checkbox', { name: 'Replace EM16 on M1' }));
    await user.click(screen.getByRole('button', { name: 'Release for tonight' }));
    expect(api.asked).toContainEqual({ name: 'plan.release', sent: { id: 1, checked: ['care'] } });
    await screen.findByText('Released 2026-11-25 15:20, 1 of 2 seen to');
    expect(screen.queryByRole('button', { name: 'Release for tonight' })).toBeNull();
  });

  it('opens the run sheet in its place, and comes back', async () => {
    const { api, user } = await open(planView());
    await user.click(await screen.findByRole('button', { name: 'Run sheet' }));
    expect(api.asked.at(-1)).toEqual({ name: 'sheet.read', sent: { id: 1 } });
    expect(await screen.findByRole('region', { name: 'M1 Horizontal mill' })).toBeDefined();
    await user.click(screen.getByRole('button', { name: 'Back' }));
    expect(await screen.findByText('What stops first')).toBeDefined();
  });

  it('does not release a plan that is older than the shop', async () => {
    await open(planView({ outdated: true }));
    const button = await screen.findByRole<HTMLButtonElement>('button', { name: 'Release for tonight' });
    expect(button.disabled).toBe(true);
    expect(screen.getByText('The shop has changed since this plan: plan again first.')).toBeDefined();
  });

  it('ranks what would buy more as it comes, and keeps what gains nothing to one line', async () => {
    const { api, user } = await open(planView());
    await user.click(await screen.findByRole('button', { name: 'Work it out' }));
    api.say('tonight.bought', { id: 1, purchase: purchase('One more place at M1', 0.4), left: 2 });
    api.say('tonight.bought', { id: 1, purchase: purchase('One more pallet', 1.2), left: 1 });
    await screen.findByText('1 still to be worked out.');
    api.say('tonight.bought', { id: 1, purchase: purchase('One more EM16 in M1', 0.02), left: 0 });
    api.say('tonight.done', { id: 1, say: null });
    await screen.findByText(/^Nothing to gain tonight from: one more EM16 in M1\.$/);
    expect(
      part('What would buy more')
        .getAllByRole('listitem')
        .map((item) => item.textContent),
    ).toEqual(['One more palletdual price 0.5 h+1.2 hworth 72', 'One more place at M1dual price 0.5 h+0.4 hworth 24']);
  });

  it('takes the time of a visit on the 24-hour clock, and nothing else', async () => {
    const { api, user } = await open(planView());
    const field = await screen.findByLabelText(/Visit at/);
    await user.clear(field);
    await user.type(field, '25:00');
    expect(screen.getByRole<HTMLButtonElement>('button', { name: 'Work it out' }).disabled).toBe(true);
    await user.clear(field);
    await user.type(field, '03:30');
    await user.click(screen.getByRole('button', { name: 'Work it out' }));
    expect(api.asked.at(-1)).toEqual({ name: 'tonight.buy', sent: { id: 1, visitAt: '2026-11-26T03:30' } });
  });

  it('shows the cautions, and what to do where there is no plan', async () => {
    await open(planView());
    await screen.findByText(/lockout procedure/);
    cleanup();
    await open(null);
    expect(await screen.findByText(/^No plan yet\. Make one on the Plan screen/)).toBeDefined();
  });
});
