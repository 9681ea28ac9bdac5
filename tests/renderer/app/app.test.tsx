import { act, cleanup, render, screen, waitFor } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { App, createStores } from '../../../renderer/app';
import { addressOf, hashOf } from '../../../renderer/app/address';
import { createConnectionStore } from '../../../renderer/app/connection';
import { screenOf, screenOfKey } from '../../../renderer/app/screens';
import { fakeServices, SHOP } from '../tables/fake-services';

beforeEach(() => {
  window.location.hash = '';
});
afterEach(cleanup);

async function open(services = fakeServices()) {
  const connection = createConnectionStore('up');
  render(<App stores={createStores({ api: services.api, connection })} />);
  await screen.findByRole('navigation');
  return { services, connection, user: userEvent.setup() };
}

const goesTo = (title: string): Promise<HTMLElement> => screen.findByRole('heading', { level: 1, name: title });

describe('the window', () => {
  it('names the shop, the moment planned from and all screens', async () => {
    await open();
    expect(screen.getByText('Test shop')).toBeTruthy();
    expect(screen.getByText('Wed 25 Nov 13:00')).toBeTruthy();
    const names = screen.getAllByRole('link').map((link) => link.textContent);
    expect(names).toEqual([
      'Plan',
      'Tonight',
      'Shifts',
      'Compare',
      'Jobs',
      'Machines',
      'Pallets',
      'Tools',
      'People',
      'Shop',
    ]);
  });

  it('goes to a screen by link and by Alt and its number, and marks it', async () => {
    const { user } = await open();
    await user.click(screen.getByRole('link', { name: 'Jobs' }));
    await goesTo('Jobs');
    await user.keyboard('{Alt>}[Digit6]{/Alt}');
    await goesTo('Machines');
    expect(screen.getByRole('link', { name: 'Machines' }).getAttribute('aria-current')).toBe('page');
    await user.keyboard('{Alt>}[Digit0]{/Alt}');
    await goesTo('Shop');
    expect(screen.getByRole('link', { name: 'Shop' }).title).toBe('Alt+0');
  });

  it('opens on the screen that the address names', async () => {
    window.location.hash = '#/people';
    await open();
    await goesTo('People');
  });

  it('goes to the moment planned from, to change it', async () => {
    const { user } = await open();
    await user.click(screen.getByRole('button', { name: 'change' }));
    await waitFor(() => expect(document.activeElement?.getAttribute('data-at')).toBe('settings/planFrom'));
  });

  it('counts faults beside the screen where they are mended', async () => {
    const pallets = [{ id: 'P1', fixture: 'VISE', machines: ['M9'] }];
    await open(fakeServices({ ...SHOP, pallets }));
    expect(screen.getByRole('link', { name: /Pallets.*1 fault/ })).toBeTruthy();
  });

  it('goes from a fault to its field, with the details of its row open', async () => {
    const [first, second] = SHOP.jobs ?? [];
    const operation = { id: '10', machines: [{ machine: 'M2', cycle: 60 }], fixture: 'NONE-SUCH' };
    const jobs = [first, { ...second, route: [operation] }] as NonNullable<typeof SHOP.jobs>;
    const { user } = await open(fakeServices({ ...SHOP, jobs }));
    await user.click(await screen.findByRole('button', { name: /J-2/ }));
    await waitFor(() => expect(document.activeElement?.getAttribute('data-at')).toBe('jobs/J-2/route/0/fixture'));
    expect(document.activeElement?.getAttribute('aria-invalid')).toBe('true');
  });

  it('goes from a fault to a check, with its job and its operation open', async () => {
    const [first, second] = SHOP.jobs ?? [];
    const operation = { id: '10', machines: [{ machine: 'M2', cycle: 60 }], checks: [{ name: 'bore', repeat: 90 }] };
    const jobs = [first, { ...second, route: [operation] }] as NonNullable<typeof SHOP.jobs>;
    const { user } = await open(fakeServices({ ...SHOP, jobs }));
    await user.click(await screen.findByRole('button', { name: /J-2/ }));
    await waitFor(() =>
      expect(document.activeElement?.getAttribute('data-at')).toBe('jobs/J-2/route/0/checks/0/repeat'),
    );
  });

  it('undoes and does again by keys on every screen, and says what', async () => {
    const { services, user } = await open();
    await services.api.call('shop.remove', { table: 'jobs', id: 'J-2' });
    act(() => services.tell('shop.changed', { revision: 2 }));
    await user.click(screen.getByRole('link', { name: 'Machines' }));
    const undo = await screen.findByTitle('Undo: Delete J-2 from jobs (Ctrl+Z)');
    expect(undo.textContent).toBe('Undo');
    expect(screen.getByTitle('Nothing to do again')).toHaveProperty('disabled', true);
    await user.keyboard('{Control>}z{/Control}');
    await screen.findByText('Undone: Delete J-2 from jobs.');
    expect(services.shop.jobs).toHaveLength(2);
    await user.keyboard('{Control>}{Shift>}Z{/Shift}{/Control}');
    await screen.findByText('Done again: Delete J-2 from jobs.');
    await user.keyboard('{Meta>}z{/Meta}');
    await screen.findByText('Undone: Delete J-2 from jobs.');
    await user.keyboard('{Control>}y{/Control}');
    await screen.findByText('Done again: Delete J-2 from jobs.');
    expect(services.shop.jobs).toHaveLength(1);
  });

  it('leaves the keys of undoing to a field in which something is typed and not yet taken', async () => {
    const { services, user } = await open();
    await services.api.call('shop.remove', { table: 'pallets', id: 'P2' });
    await user.click(screen.getByRole('link', { name: 'Jobs' }));
    const field = (await screen.findAllByLabelText<HTMLInputElement>('Customer'))[0] as HTMLInputElement;
    await user.type(field, 'Mo');
    await user.keyboard('{Control>}z{/Control}');
    expect(services.calls.some(({ name }) => name === 'change.undo')).toBe(false);
    await user.type(field, 'on{Enter}');
    await waitFor(() => expect(services.shop.jobs[0]?.customer).toBe('Moon'));
    await waitFor(() => expect(field.dataset.unsaved).toBe('false'));
    await user.keyboard('{Control>}z{/Control}');
    await waitFor(() => expect(services.shop.jobs[0]?.customer).toBe(''));
    expect(services.shop.pallets).toHaveLength(1);
  });

  it('says that the connection is lost, and reads the shop again once it is back', async () => {
    const { services, connection } = await open();
    act(() => connection.setState({ connection: 'lost' }));
    expect(screen.getByText(/Connection lost, retrying/)).toBeTruthy();
    const before = services.calls.filter((call) => call.name === 'shop.read').length;
    act(() => connection.setState({ connection: 'up' }));
    expect(screen.queryByText(/Connection lost/)).toBeNull();
    expect(services.calls.filter((call) => call.name === 'shop.read')).toHaveLength(before + 1);
  });

  it('says why the shop could not be opened, and tries again', async () => {
    const services = fakeServices();
    services.refuseNext('shop.read', 'The file belongs to another program.');
    render(<App stores={createStores({ api: services.api, connection: createConnectionStore('up') })} />);
    expect((await screen.findByRole('alert')).textContent).toContain('The file belongs to another program.');
    await userEvent.setup().click(screen.getByRole('button', { name: 'Try again' }));
    await screen.findByRole('navigation');
  });

  it('takes the look that the seat chose', async () => {
    const services = fakeServices();
    await services.api.call('seat.put', { theme: 'dark', planSeconds: 10 });
    await open(services);
    await waitFor(() => expect(document.documentElement.dataset.theme).toBe('dark'));
  });
});

describe('addresses', () => {
  it('takes an unknown address for the plan', () => {
    expect(screenOf('#/jobs')).toBe('jobs');
    expect(screenOf('#/nowhere')).toBe('plan');
    expect(screenOf('')).toBe('plan');
  });

  it('names the what-if a screen is shown on; plans are compared from the shop alone', () => {
    expect(addressOf('#/jobs?copy=3')).toEqual({ screen: 'jobs', copy: '3' });
    expect(addressOf('#/jobs')).toEqual({ screen: 'jobs', copy: null });
    expect(addressOf('#/compare?copy=3')).toEqual({ screen: 'compare', copy: null });
    expect(hashOf({ screen: 'people', copy: '3' })).toBe('#/people?copy=3');
    expect(hashOf({ screen: 'compare', copy: '3' })).toBe('#/compare');
  });

  it('knows the screen of every table', () => {
    expect(['jobs/J-1', 'cells', 'shifts/First', 'tools/EM10', 'settings/zone'].map(screenOfKey)).toEqual([
      'jobs',
      'machines',
      'shop',
      'tools',
      'shop',
    ]);
  });
});
