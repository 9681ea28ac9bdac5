import { cleanup, screen, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import type { ShopInput } from '../../../core/shop';
import { JobsScreen } from '../../../renderer/tables';
import { SHOP } from './fake-services';
import { openTable } from './open-table';

afterEach(cleanup);

const PANEL = 'Tools, checks, odds and proof of operation 10';

async function opened(input?: ShopInput) {
  const all = await openTable(<JobsScreen />, input);
  const { user, services } = all;
  await user.click(screen.getByRole('button', { name: 'Details of J-1' }));
  await user.click(screen.getByRole('button', { name: new RegExp(`^${PANEL}: `) }));
  const panel = within(screen.getByRole('region', { name: PANEL }));
  return {
    ...all,
    panel,
    operation: () => services.shop.jobs[0]!.route[0]!,
    async type(label: string, text: string): Promise<void> {
      await user.clear(screen.getAllByLabelText(label)[0]!);
      await user.type(screen.getAllByLabelText(label)[0]!, `${text}{Enter}`);
    },
  };
}

const withTwoTools: ShopInput = {
  ...SHOP,
  tools: [
    { id: 'EM10', life: 120 },
    { id: 'BN06', life: 150 },
  ],
};

describe('what an operation needs for the night', () => {
  it('is told in one line before it is opened', async () => {
    await openTable(<JobsScreen />).then(({ user }) =>
      user.click(screen.getByRole('button', { name: 'Details of J-1' })),
    );
    expect(screen.getByText('1 tool · 1 check · stops 1 % · loses 2 % · alone: up to 480 min')).toBeTruthy();
  });

  it('takes tools with their minutes in the cut', async () => {
    const { operation, panel, type, user } = await opened(withTwoTools);
    await user.selectOptions(panel.getByLabelText('Add tool'), 'BN06');
    await type('Minutes of BN06', '35');
    expect(operation().tools).toEqual([
      { tool: 'EM10', minutes: 40 },
      { tool: 'BN06', minutes: 35 },
    ]);
    expect(panel.getByText('75 min in the cut, of a cycle of 105 min')).toBeTruthy();
    await user.click(panel.getByRole('button', { name: 'Take EM10 out of operation 10' }));
    expect(operation().tools).toEqual([{ tool: 'BN06', minutes: 35 }]);
    await user.click(screen.getByRole('button', { name: 'Undo' }));
    expect(operation().tools).toHaveLength(2);
  });

  it('takes checks, and shows the length that follows from them beside them', async () => {
    const { operation, panel, type, user } = await opened();
    await type('Chance out of limits, percent', '30');
    await type('Minutes cut again', '14');
    await type('Most repeats', '1');
    expect(operation().checks).toEqual([{ name: 'bore', chance: 0.3, repeat: 14, most: 1 }]);
    expect(panel.getByText(/^planned 119 min: 105 \+ 14 for repeats, holds for 100 % of runs/)).toBeTruthy();
    await user.click(panel.getByRole('button', { name: 'Add check' }));
    expect(operation().checks).toHaveLength(2);
    await user.click(panel.getByRole('button', { name: 'Delete check bore' }));
    expect(operation().checks.map((check) => check.name)).toEqual(['']);
  });

  it('takes odds as percent, and says in their block why 100 % is refused', async () => {
    const { operation, type } = await opened();
    await type('Block odds, percent', '2,5');
    expect(operation().odds).toEqual({ block: 0.025, loss: 0.02 });
    await type('Loss odds, percent', '100');
    expect(operation().odds.loss).toBe(0.02);
    const odds = within(screen.getByRole('region', { name: 'Odds' }));
    expect(odds.getByRole('alert').textContent).toContain('what always fails cannot be planned');
  });

  it('takes the suspect limit of the job, and nothing for none', async () => {
    const { services, type, user } = await opened();
    await type('Suspect limit, parts', '6');
    expect(services.shop.jobs[0]?.suspectLimit).toBe(6);
    expect(screen.getByText('no check in operation 20: at most 6 parts a night on one machine')).toBeTruthy();
    await user.clear(screen.getByLabelText('Suspect limit, parts'));
    await user.keyboard('{Enter}');
    expect(services.shop.jobs[0]?.suspectLimit).toBeNull();
  });

  it('stays open with its operation when operations move', async () => {
    const { user } = await opened();
    await user.click(screen.getByRole('button', { name: 'Move operation 20 up' }));
    expect(screen.getByRole('button', { name: new RegExp(`^${PANEL}: `) }).getAttribute('aria-expanded')).toBe('true');
    const other = screen.getByRole('button', { name: new RegExp(`^${PANEL.replace('10', '20')}: `) });
    expect(other.getAttribute('aria-expanded')).toBe('false');
  });
});

describe('proof', () => {
  it('takes good runs and the longest time alone, and says what they allow', async () => {
    const { operation, panel, type } = await opened();
    await type('Attended good runs', '2');
    expect(panel.getByText('attended only: 2 of 3 good runs')).toBeTruthy();
    await type('Attended good runs', '4');
    await type('Longest time alone', '5:00');
    expect(operation().proof).toMatchObject({ goodRuns: 4, longestAlone: 300 });
    expect(panel.getByText('alone: up to 600 min')).toBeTruthy();
  });

  it('stays with the revision it was earned with when the program gets another, and starts over on one press', async () => {
    const { operation, panel, type, user } = await opened();
    await type('Revision', 'C');
    expect(operation().proof).toEqual({ goodRuns: 3, longestAlone: 240, revision: '', tools: ['EM10'] });
    expect(panel.getByText('attended only: not proven with this revision and these tools')).toBeTruthy();
    expect(panel.getByText(/it was earned with revision none, and the program now is C/)).toBeTruthy();
    await user.click(panel.getByRole('button', { name: 'Start over with revision C' }));
    expect(operation().proof).toEqual({ goodRuns: 0, longestAlone: 0, revision: 'C', tools: ['EM10'] });
    expect(panel.getByText('attended only: 0 of 3 good runs')).toBeTruthy();
  });

  it('is lost with another tool, and kept again once the tools it was earned with are corrected', async () => {
    const { operation, panel, type, user } = await opened(withTwoTools);
    await user.selectOptions(panel.getByLabelText('Add tool'), 'BN06');
    expect(operation().proof?.tools).toEqual(['EM10']);
    expect(panel.getByText(/it was earned with the tools EM10/)).toBeTruthy();
    await type('Tools it was earned with', 'EM10, BN06');
    expect(panel.getByText('alone: up to 480 min')).toBeTruthy();
  });

  it('is counted where it was not, from nothing, and no more on another press', async () => {
    const [first, ...rest] = SHOP.jobs ?? [];
    const route = first!.route.map((operation) => ({ ...operation, proof: null, revision: 'A' }));
    const { operation, panel, user } = await opened({ ...SHOP, jobs: [{ ...first!, route }, ...rest] });
    expect(panel.getByText('alone: without limit, no count is kept')).toBeTruthy();
    await user.click(panel.getByRole('button', { name: 'Keep count' }));
    expect(operation().proof).toEqual({ goodRuns: 0, longestAlone: 0, revision: 'A', tools: ['EM10'] });
    await user.click(panel.getByRole('button', { name: 'Keep no count' }));
    expect(operation().proof).toBeNull();
  });
});
