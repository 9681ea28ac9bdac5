import { cleanup, screen, waitFor, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { JobsScreen, MachinesScreen, PalletsScreen, PeopleScreen } from '../../../renderer/tables';
import { SHOP } from './fake-services';
import { openTable } from './open-table';

afterEach(cleanup);

/** The first field of this label. */
function field(label: string): HTMLInputElement {
  return screen.getAllByLabelText<HTMLInputElement>(label)[0] as HTMLInputElement;
}

describe('editing in place', () => {
  it('sends the whole row when a cell is edited and Enter pressed', async () => {
    const { services, puts, user } = await openTable(<JobsScreen />);
    const before = structuredClone(services.shop.jobs[0]);
    await user.clear(field('Quantity'));
    await user.type(field('Quantity'), '12{Enter}');
    expect(puts()).toEqual([{ table: 'jobs', replaces: 'J-1', row: { ...before, quantity: 12 } }]);
    expect(field('Quantity').value).toBe('12');
  });

  it('sends it when the cell is left, and only once after Enter', async () => {
    const { puts, user } = await openTable(<JobsScreen />);
    await user.type(field('Name'), ' A');
    await user.tab();
    expect(puts()).toHaveLength(1);
    await user.type(field('Customer'), 'Moon{Enter}');
    await user.tab();
    expect(puts()).toHaveLength(2);
  });

  it('sends nothing when nothing changed', async () => {
    const { puts, user } = await openTable(<JobsScreen />);
    await user.click(field('Due'));
    await user.keyboard('{Enter}');
    await user.tab();
    expect(puts()).toEqual([]);
  });

  it('goes back to the value as it is on Escape', async () => {
    const { puts, user } = await openTable(<JobsScreen />);
    await user.type(field('Name'), ' changed');
    await user.keyboard('{Escape}');
    expect(field('Name').value).toBe('Insert');
    await user.tab();
    expect(puts()).toEqual([]);
  });

  it('keeps what was typed, marks the cell and says why when it cannot be read', async () => {
    const { puts, user } = await openTable(<JobsScreen />);
    await user.clear(field('Due'));
    await user.type(field('Due'), 'soon{Enter}');
    expect(field('Due').value).toBe('soon');
    expect(field('Due').getAttribute('aria-invalid')).toBe('true');
    expect(screen.getByRole('alert').textContent).toContain('"soon" is not a date and time.');
    expect(puts()).toEqual([]);
    await user.click(screen.getByRole('button', { name: 'Take back' }));
    expect(field('Due').value).toBe('Fri 27 Nov 16:00');
  });

  it('keeps what was typed and says why when the services refuse it', async () => {
    const { services, user } = await openTable(<JobsScreen />);
    await user.clear(field('Job'));
    await user.type(field('Job'), 'J-2{Enter}');
    expect(field('Job').value).toBe('J-2');
    expect(screen.getByRole('alert').textContent).toContain('There is already J-2.');
    expect(services.shop.jobs[0]?.id).toBe('J-1');
    await user.clear(field('Job'));
    await user.type(field('Job'), 'J-3{Enter}');
    expect(screen.queryByRole('alert')).toBeNull();
    expect(services.shop.jobs[0]?.id).toBe('J-3');
  });

  it('keeps the focus in a row that is renamed', async () => {
    const { user } = await openTable(<JobsScreen />);
    await user.type(field('Job'), '0{Enter}');
    expect(field('Job').value).toBe('0');
    expect(document.activeElement).toBe(field('Job'));
  });

  it('moves to the row above and below with the arrows', async () => {
    const { user } = await openTable(<JobsScreen />);
    const [first, second] = screen.getAllByLabelText('Customer');
    await user.click(first as HTMLElement);
    await user.keyboard('{ArrowDown}');
    expect(document.activeElement).toBe(second);
    await user.keyboard('{ArrowUp}');
    expect(document.activeElement).toBe(first);
  });

  it('says beneath the row what is wrong with it, and marks the cell', async () => {
    const [first, ...rest] = SHOP.jobs ?? [];
    const jobs = [{ ...first, due: '2026-11-01T10:00' } as NonNullable<typeof first>, ...rest];
    await openTable(<JobsScreen />, { ...SHOP, jobs });
    expect(field('Due').getAttribute('aria-invalid')).toBe('true');
    expect(screen.getByText(/Job J-1, due:/)).toBeTruthy();
  });
});

describe('rows', () => {
  it('makes a job of a typed id, due a week ahead and able to run', async () => {
    const { services, user } = await openTable(<JobsScreen />);
    await user.type(screen.getByLabelText('New job'), 'J-7{Enter}');
    const job = services.shop.jobs.at(-1);
    expect(job).toMatchObject({ id: 'J-7', quantity: 1, due: '2026-12-02T16:00' });
    expect(job?.route[0]).toMatchObject({ id: '10', machines: [{ machine: 'M1', cycle: 60 }], fixture: 'VISE' });
    await waitFor(() => expect(document.activeElement?.getAttribute('data-at')).toBe('jobs/J-7/name'));
  });

  it('says what a new job lacks in a shop without machines', async () => {
    const { puts, user } = await openTable(<JobsScreen />, {
      format: 'nightload-shop',
      version: 1,
      name: 'New',
      zone: 'UTC',
    });
    await user.type(screen.getByLabelText('New job'), 'J-1{Enter}');
    expect(screen.getByRole('alert').textContent).toContain('Add a machine first.');
    expect(field('New job').value).toBe('J-1');
    expect(puts()).toEqual([]);
  });

  it.each([
    ['machine', <MachinesScreen key="m" />, 'machines'],
    ['pallet', <PalletsScreen key="p" />, 'pallets'],
    ['person', <PeopleScreen key="h" />, 'people'],
    ['cell', <MachinesScreen key="c" />, 'cells'],
  ] as const)('makes a %s of a typed id in an empty shop', async (noun, table, name) => {
    const { services, user } = await openTable(table, {
      format: 'nightload-shop',
      version: 1,
      name: 'New',
      zone: 'UTC',
    });
    await user.type(screen.getByLabelText(`New ${noun}`), 'X1{Enter}');
    expect(services.shop[name].map((row) => row.id)).toEqual(['X1']);
  });

  it('duplicates a job with all its fields, and proposes an id that says of which', async () => {
    const { services, user } = await openTable(<JobsScreen />);
    await user.click(screen.getByRole('button', { name: 'Duplicate J-1' }));
    const [first, , copy] = services.shop.jobs;
    expect(copy).toEqual({ ...first, id: 'J-1-2' });
    await waitFor(() => expect(document.activeElement?.getAttribute('data-at')).toBe('jobs/J-1-2/id'));
    await user.click(screen.getByRole('button', { name: 'Duplicate J-1-2' }));
    expect(services.shop.jobs.map(({ id }) => id)).toEqual(['J-1', 'J-2', 'J-1-2', 'J-1-3']);
  });

  it('duplicates a pallet under the next free number, and can withdraw it', async () => {
    const { services, user } = await openTable(<PalletsScreen />);
    await user.click(screen.getByRole('button', { name: 'Duplicate P1' }));
    await user.click(screen.getAllByLabelText('In use')[2] as HTMLElement);
    expect(services.shop.pallets.map(({ id, inUse }) => [id, inUse])).toEqual([
      ['P1', true],
      ['P2', true],
      ['P3', false],
    ]);
  });

  it('deletes a row without asking, and brings it back whole', async () => {
    const { services, user } = await openTable(<JobsScreen />);
    const before = services.shop.jobs[0];
    await user.click(screen.getByRole('button', { name: 'Delete J-1' }));
    expect(services.shop.jobs).toHaveLength(1);
    expect(screen.getByText('Deleted job J-1.')).toBeTruthy();
    await user.click(screen.getByRole('button', { name: 'Undo' }));
    expect(services.shop.jobs.find((job) => job.id === 'J-1')).toEqual(before);
    expect(screen.queryByText('Deleted job J-1.')).toBeNull();
  });
});

describe('the route of a job', () => {
  async function opened() {
    const all = await openTable(<JobsScreen />);
    await all.user.click(screen.getByRole('button', { name: 'Details of J-1' }));
    return { ...all, route: within(screen.getByRole('table', { name: 'Route of J-1' })) };
  }

  it('keeps tools, checks, odds and proof when a cycle is typed as hours and minutes', async () => {
    const { services, route, user } = await opened();
    const before = services.shop.jobs[0]?.route[0];
    const cycle = route.getByLabelText('Cycle on M1');
    await user.clear(cycle);
    await user.type(cycle, '2h05{Enter}');
    expect(services.shop.jobs[0]?.route[0]).toEqual({ ...before, machines: [{ machine: 'M1', cycle: 125 }] });
  });

  it('adds a machine to an operation and takes it out again', async () => {
    const { services, route, user } = await opened();
    await user.selectOptions(route.getAllByLabelText('Machines: add a machine')[0] as HTMLElement, 'M2');
    expect(services.shop.jobs[0]?.route[0]?.machines.map((m) => m.machine)).toEqual(['M1', 'M2']);
    await user.click(route.getByRole('button', { name: 'Take M1 out' }));
    expect(services.shop.jobs[0]?.route[0]?.machines.map((m) => m.machine)).toEqual(['M2']);
  });

  it('refuses to take the last machine out, and says so under the route', async () => {
    const { services, route, user } = await opened();
    await user.click(route.getByRole('button', { name: 'Take M1 out' }));
    expect(services.shop.jobs[0]?.route[0]?.machines).toHaveLength(1);
    expect(screen.getByRole('alert').textContent).toContain('name at least one that can do it');
  });

  it('moves operations by button and by key', async () => {
    const { services, route, user } = await opened();
    await user.click(route.getByRole('button', { name: 'Move operation 20 up' }));
    expect(services.shop.jobs[0]?.route.map((operation) => operation.id)).toEqual(['20', '10']);
    await user.click(route.getAllByLabelText('Operation')[0] as HTMLElement);
    await user.keyboard('{Alt>}{ArrowDown}{/Alt}');
    expect(services.shop.jobs[0]?.route.map((operation) => operation.id)).toEqual(['10', '20']);
  });

  it('adds an operation like the last one, under the next number', async () => {
    const { services, user } = await opened();
    await user.click(screen.getByRole('button', { name: 'Add operation' }));
    expect(services.shop.jobs[0]?.route.at(-1)).toMatchObject({ id: '30', machines: [{ machine: 'M2', cycle: 30 }] });
  });

  it('sets a first-piece check and takes it out', async () => {
    const { services, route, user } = await opened();
    await user.click(route.getAllByRole('button', { name: 'none: add a first-piece check' })[0] as HTMLElement);
    expect(services.shop.jobs[0]?.route[0]?.firstPiece).toEqual({ after: 0, minutes: 15 });
    await user.click(route.getByRole('button', { name: 'Take the first-piece check out' }));
    expect(services.shop.jobs[0]?.route[0]?.firstPiece).toBeNull();
  });
});

describe('hours', () => {
  it('changes the days and times of a person', async () => {
    const { services, user } = await openTable(<PeopleScreen />);
    await user.click(screen.getByRole('button', { name: 'Details of Ada' }));
    await user.click(screen.getByRole('button', { name: 'Saturday' }));
    await user.clear(field('To'));
    await user.type(field('To'), '1430{Enter}');
    expect(services.shop.people[0]?.hours).toEqual([
      { days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat'], from: '06:00', to: '14:30', extra: false },
    ]);
  });

  it('adds the next eight hours where the last ones end', async () => {
    const { services, user } = await openTable(<PeopleScreen />);
    await user.click(screen.getByRole('button', { name: 'Details of Ada' }));
    await user.click(screen.getByRole('button', { name: 'Add hours' }));
    await user.click(screen.getByRole('button', { name: 'Add hours' }));
    const hours = services.shop.people[0]?.hours ?? [];
    expect(hours.map(({ from, to }) => [from, to])).toEqual([
      ['06:00', '14:00'],
      ['14:00', '22:00'],
      ['22:00', '06:00'],
    ]);
  });

  it('shows how much of the week somebody and nobody is there', async () => {
    await openTable(<PeopleScreen />);
    expect(screen.getByText(/somebody there 40\.0 h/)).toBeTruthy();
    expect(screen.getByText(/nobody there 128\.0 h/)).toBeTruthy();
  });

  it('gives a bench no pallet places or load stations', async () => {
    await openTable(<MachinesScreen />, { ...SHOP, machines: [{ id: 'B1', kind: 'bench' }] });
    expect(screen.getAllByText('–')).toHaveLength(2);
    expect(screen.queryByLabelText('Places')).toBeNull();
  });

  it('plans a machine off and keeps its magazine', async () => {
    const { services, user } = await openTable(<MachinesScreen />);
    const before = services.shop.machines[0];
    await user.click(screen.getByRole('button', { name: 'Details of M1' }));
    await user.click(screen.getByRole('button', { name: 'Add time off' }));
    expect(services.shop.machines[0]).toEqual({
      ...before,
      closures: [{ from: '2026-11-26T08:00', to: '2026-11-26T12:00', why: 'Machine care' }],
    });
  });
});

describe('pallets', () => {
  it('fits all machines until some are chosen', async () => {
    const { services, user } = await openTable(<PalletsScreen />);
    expect(screen.getByText('all machines')).toBeTruthy();
    await user.selectOptions(screen.getAllByLabelText(/Fits machines: /)[0] as HTMLElement, 'M2');
    expect(services.shop.pallets[0]?.machines).toEqual(['M2']);
  });
});
