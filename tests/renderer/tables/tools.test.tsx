import { cleanup, screen, waitFor, within } from '@testing-library/react';
import type { UserEvent } from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
import { MachinesScreen, ToolsScreen } from '../../../renderer/tables';
import { SHOP } from './fake-services';
import { openTable } from './open-table';

afterEach(cleanup);

async function type(user: UserEvent, label: string, text: string): Promise<void> {
  await user.clear(screen.getByLabelText(label));
  await user.type(screen.getByLabelText(label), `${text}{Enter}`);
}

describe('tools', () => {
  it('takes each value of a tool where it stands', async () => {
    const { services, puts, user } = await openTable(<ToolsScreen />);
    const before = services.shop.tools[0];
    await type(user, 'Name', 'End mill 10');
    await type(user, 'Life', '1:30');
    await type(user, 'Spread of its life, percent', '25');
    await type(user, 'Minutes to replace it', '7');
    await user.click(screen.getByLabelText('Finish tool: one must cover the whole cut'));
    const row = { ...before, name: 'End mill 10', life: 90, lifeSpread: 0.25, replaceMinutes: 7, finish: true };
    expect(services.shop.tools).toEqual([row]);
    expect(puts().at(-1)).toEqual({ table: 'tools', replaces: 'EM10', row });
  });

  it('makes a tool of a typed id, and takes it back when it is deleted', async () => {
    const { services, user } = await openTable(<ToolsScreen />, { ...SHOP, tools: [] });
    expect(screen.getByText(/No tools yet/)).toBeTruthy();
    await user.type(screen.getByLabelText('New tool'), 'BN06{Enter}');
    expect(services.shop.tools).toMatchObject([{ id: 'BN06', kind: 'cutter', life: 60 }]);
    await user.click(screen.getByRole('button', { name: 'Delete BN06' }));
    expect(services.shop.tools).toEqual([]);
    await user.click(screen.getByRole('button', { name: 'Undo' }));
    expect(services.shop.tools).toMatchObject([{ id: 'BN06', life: 60 }]);
  });

  it('refuses a life of nothing and a spread above all beneath the row, and keeps what was typed', async () => {
    const { services, puts, user } = await openTable(<ToolsScreen />);
    await type(user, 'Life', '0');
    await type(user, 'Spread of its life, percent', '120');
    expect(screen.getAllByRole('alert').map((alert) => alert.textContent)).toEqual([
      expect.stringContaining('Must be at least one minute.'),
      expect.stringContaining('"120" does not fit here. Type a percentage from 0 to 100.'),
    ]);
    expect(screen.getByLabelText<HTMLInputElement>('Life').value).toBe('0');
    expect(screen.getByLabelText('Life').getAttribute('aria-invalid')).toBe('true');
    expect(puts()).toEqual([]);
    services.refuseNext('shop.put', 'The disk is full.');
    await type(user, 'Life', '80');
    expect(screen.getByText(/The disk is full\./)).toBeTruthy();
  });

  it('says where a tool is used', async () => {
    const { user } = await openTable(<ToolsScreen />);
    expect(screen.getByText('1 op, 1 machine')).toBeTruthy();
    await user.click(screen.getByRole('button', { name: 'Details of EM10' }));
    const used = screen.getByRole('region', { name: 'Where used' }).textContent;
    expect(used).toContain('Called for by J-1/10 (40 min).');
    expect(used).toContain('Held by M1 (2 tools).');
  });

  it('dresses a wheel by hand, says how far it goes, and takes the dressing out', async () => {
    const tools = [{ id: 'W1', kind: 'wheel' as const, life: 900 }];
    const { services, user } = await openTable(<ToolsScreen />, { ...SHOP, tools });
    await user.click(screen.getByRole('button', { name: 'Details of W1' }));
    await user.click(screen.getByRole('button', { name: 'Add dressing' }));
    await type(user, 'Dressed every', '90');
    await type(user, 'Dressing takes', '12');
    await user.selectOptions(screen.getByLabelText('Dressed by'), 'by hand');
    await type(user, 'Radius a dressing uses', '0,05');
    await type(user, 'Radius left', '0.5');
    const dressing = { every: 90, minutes: 12, by: 'hand', usesMm: 0.05, leftMm: 0.5 };
    expect(services.shop.tools[0]?.dressing).toEqual(dressing);
    expect(screen.getByText('90 min, by hand')).toBeTruthy();
    expect(screen.getByText('10 dressings left, 990 min of grinding with one wheel')).toBeTruthy();
    await user.click(screen.getByRole('button', { name: 'Take dressing out' }));
    expect(services.shop.tools[0]?.dressing).toBeNull();
    await user.click(screen.getByRole('button', { name: 'Undo' }));
    expect(services.shop.tools[0]?.dressing).toEqual(dressing);
  });
});

describe('a life from cutting speed', () => {
  async function opened() {
    const all = await openTable(<ToolsScreen />);
    await all.user.click(screen.getByRole('button', { name: 'Life of EM10 from cutting speed' }));
    await waitFor(() => expect(document.activeElement).toBe(screen.getByLabelText('Known speed')));
    return all;
  }

  // Half of (100 / 200)^(1 / 0.5) is a quarter: the life of 120 min falls to 30.
  it('is reckoned from one life and an exponent, and taken over on one press', async () => {
    const { services, puts, user } = await opened();
    await user.keyboard('100');
    await type(user, 'Exponent n', '0.5');
    await type(user, 'New speed', '200');
    expect(screen.getByText('it lasts 30 min')).toBeTruthy();
    expect(screen.getByText(/A measured life beats it\./)).toBeTruthy();
    expect(puts()).toEqual([]);
    await user.click(screen.getByRole('button', { name: 'Use 30 min' }));
    expect(services.shop.tools[0]?.life).toBe(30);
    await user.click(screen.getByRole('button', { name: 'Undo' }));
    expect(services.shop.tools[0]?.life).toBe(120);
  });

  // Groover, Fundamentals of Modern Manufacturing, example 22.1 (read in a public source): n = 0.223, C = 229 m/min.
  it('takes its exponent from two measured lives', async () => {
    const { user } = await opened();
    await user.keyboard('160');
    await type(user, 'Known life', '5');
    await type(user, 'Second speed', '100');
    await type(user, 'Second life', '41');
    await type(user, 'New speed', '100');
    expect(screen.getByText('n 0.223, from the two lives')).toBeTruthy();
    expect(screen.getByText(/^C is 229 m\/min/)).toBeTruthy();
    expect(screen.getByText('it lasts 41 min')).toBeTruthy();
  });

  it('says what is wrong with a speed of nothing, and offers nothing to use', async () => {
    const { user } = await opened();
    await user.keyboard('100');
    await type(user, 'New speed', '0');
    expect(screen.getByText(/speed must be above 0 m\/min/)).toBeTruthy();
    expect(screen.queryByRole('button', { name: /^Use/ })).toBeNull();
  });
});

describe('the magazine of a machine', () => {
  async function opened() {
    const all = await openTable(<MachinesScreen />, {
      ...SHOP,
      tools: [
        { id: 'EM10', life: 120 },
        { id: 'BN06', life: 150, finish: true },
      ],
    });
    await all.user.click(screen.getByRole('button', { name: 'Details of M1' }));
    return all;
  }

  it('takes the minutes left in each sister tool as a list, and says what the night may use of them', async () => {
    const { services, user } = await opened();
    await type(user, 'Minutes left in each EM10', '30, 1:40, 120');
    expect(services.shop.machines[0]?.magazine).toEqual([{ tool: 'EM10', left: [30, 100, 120] }]);
    // 36 of 120 min stay in each at night: 0, 64 and 84 of them are left.
    expect(screen.getByText('= 250 min, 148 at night')).toBeTruthy();
    await type(user, 'Share of a life the night may use, percent', '100');
    expect(services.shop.machines[0]?.nightFraction).toBe(1);
    expect(screen.getByText('= 250 min, 250 at night')).toBeTruthy();
  });

  it('adds a new tool of a kind and takes it out again', async () => {
    const { services, user } = await opened();
    await user.selectOptions(screen.getByLabelText('Add tool'), 'BN06');
    expect(services.shop.machines[0]?.magazine[1]).toEqual({ tool: 'BN06', left: [150] });
    expect(screen.getByText('= a cut of 150 min, 105 at night')).toBeTruthy();
    await user.click(screen.getByRole('button', { name: 'Take BN06 out of M1' }));
    expect(services.shop.machines[0]?.magazine.map((entry) => entry.tool)).toEqual(['EM10']);
  });

  it('is walked by the arrows from one kind of tool to the next', async () => {
    const { user } = await opened();
    await user.selectOptions(screen.getByLabelText('Add tool'), 'BN06');
    await user.click(screen.getByLabelText('Minutes left in each EM10'));
    await user.keyboard('{ArrowDown}');
    expect(document.activeElement).toBe(screen.getByLabelText('Minutes left in each BN06'));
  });

  it('says in the magazine what cannot be read as minutes', async () => {
    const { puts, user } = await opened();
    await type(user, 'Minutes left in each EM10', '90, lots');
    const magazine = within(screen.getByRole('region', { name: 'Magazine' }));
    expect(magazine.getByRole('alert').textContent).toContain('"lots" is no number of minutes.');
    expect(puts()).toEqual([]);
  });
});
