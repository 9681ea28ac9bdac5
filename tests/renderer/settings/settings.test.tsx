import { cleanup, render, screen } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { createSeatStore, ShopSettingsScreen } from '../../../renderer/settings';
import { createShopStore, ShopProvider } from '../../../renderer/tables';
import { fakeServices } from '../tables/fake-services';

afterEach(cleanup);

async function open() {
  const services = fakeServices();
  const store = createShopStore(services.api);
  const seat = createSeatStore(services.api);
  await store.read();
  render(
    <ShopProvider store={store}>
      <ShopSettingsScreen api={services.api} seat={seat} />
    </ShopProvider>,
  );
  const sent = (name: string): unknown[] =>
    services.calls.filter((call) => call.name === name).map((call) => call.sent);
  return { services, seat, sent, user: userEvent.setup() };
}

describe('the settings of the shop', () => {
  it('sends all settings with the one that changed', async () => {
    const { services, sent, user } = await open();
    const { name, zone, horizonDays, planFrom, weights, walking, night } = services.shop;
    await user.clear(screen.getByLabelText('Weight of Tonight'));
    await user.type(screen.getByLabelText('Weight of Tonight'), '3,5{Enter}');
    expect(sent('shop.settings')).toEqual([
      { name, zone, horizonDays, planFrom, walking, night, weights: { ...weights, tonight: 3.5 } },
    ]);
  });

  it('takes percentages of the nights as percent, and keeps the rest of the night', async () => {
    const { services, user } = await open();
    const before = services.shop.night;
    const type = async (label: string, text: string): Promise<void> => {
      await user.clear(screen.getByLabelText(label));
      await user.type(screen.getByLabelText(label), `${text}{Enter}`);
    };
    await type('Repeats planned for, percent of runs', '95 %');
    await type('Cycle spread, percent', '3,5');
    await type('Handling chance, percent', '0.2');
    await type('Good runs needed', '5');
    await type('First time alone', '3:00');
    expect(services.shop.night).toEqual({
      ...before,
      repeatShare: 0.95,
      cycleSpread: 0.035,
      handling: 0.002,
      goodRuns: 5,
      firstAlone: 180,
    });
  });

  it('takes the minutes of walks as lengths of time', async () => {
    const { services, user } = await open();
    await user.clear(screen.getByLabelText('Usual walk'));
    await user.type(screen.getByLabelText('Usual walk'), '0:03{Enter}');
    expect(services.shop.walking.usual).toBe(3);
  });

  it('refuses a chance of 100 %, says why and keeps what was typed', async () => {
    const { services, user } = await open();
    const field = (): HTMLInputElement => screen.getByLabelText('Handling chance, percent');
    await user.clear(field());
    await user.type(field(), '100{Enter}');
    expect(field().value).toBe('100');
    expect(field().getAttribute('aria-invalid')).toBe('true');
    expect(screen.getByRole('alert').textContent).toContain('what always fails cannot be planned');
    expect(services.shop.night.handling).toBe(0.001);
  });

  it('adds a shared cause, says which machines it stops, and takes it out again', async () => {
    const { services, user } = await open();
    await user.click(screen.getByRole('button', { name: 'Add shared cause' }));
    await user.clear(screen.getByLabelText('Shared cause'));
    await user.type(screen.getByLabelText('Shared cause'), 'Coolant{Enter}');
    await user.clear(screen.getByLabelText('Chance of Coolant in a night, percent'));
    await user.type(screen.getByLabelText('Chance of Coolant in a night, percent'), '0.5{Enter}');
    expect(screen.getByText('all machines')).toBeTruthy();
    await user.selectOptions(screen.getByLabelText(/^Machines that Coolant stops: /), 'M2');
    expect(services.shop.night.shared).toEqual([{ name: 'Coolant', chance: 0.005, machines: ['M2'] }]);
    await user.click(screen.getByRole('button', { name: 'Delete Coolant' }));
    expect(services.shop.night.shared).toEqual([]);
  });

  it('plans from the present or from a fixed moment', async () => {
    const { services, user } = await open();
    await user.click(screen.getByLabelText('the present moment'));
    expect(services.shop.planFrom).toBeNull();
    await user.click(screen.getByLabelText('a fixed moment'));
    expect(services.shop.planFrom).toBe('2026-11-25T08:00');
  });

  it('asks once more before it replaces the shop, and keeps it on no', async () => {
    const { services, sent, user } = await open();
    await user.click(screen.getByRole('button', { name: 'Start with an empty shop' }));
    await user.click(screen.getByRole('button', { name: 'Keep it' }));
    expect(sent('shop.reset')).toEqual([]);
    await user.click(screen.getByRole('button', { name: 'Start with an empty shop' }));
    await user.click(screen.getByRole('button', { name: 'Replace by an empty shop' }));
    expect(sent('shop.reset')).toEqual([{ to: 'empty' }]);
    expect(services.shop.name).toBe('Reset to empty');
    expect(screen.getByText(/A dated backup of the shop before it is kept\./)).toBeTruthy();
  });

  it('says what is wrong with a shop file, and leaves the shop', async () => {
    const { services, user } = await open();
    await user.upload(screen.getByLabelText('Shop file to open'), new File(['{'], 'broken.json'));
    services.refuseNext('shop.import', 'broken.json ends too early.');
    await user.click(screen.getByRole('button', { name: 'Replace Test shop' }));
    expect(screen.getByRole('alert').textContent).toContain('broken.json ends too early.');
    expect(services.shop.name).toBe('Test shop');
  });

  it('saves each list as a file of its own, and says why one cannot be had', async () => {
    const { services, sent, user } = await open();
    const links: string[] = [];
    const click = vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
      links.push(this.download);
    });
    await user.click(screen.getByRole('button', { name: 'Pallets' }));
    expect(sent('list.export')).toEqual([{ list: 'pallets' }]);
    expect(links).toEqual(['test-shop-pallets.csv']);
    expect(screen.getByText('Saved as test-shop-pallets.csv.')).toBeTruthy();
    services.refuseNext('list.export', 'There is no plan yet.');
    await user.click(screen.getByRole('button', { name: 'Rounds' }));
    expect(screen.getByRole('alert').textContent).toContain('There is no plan yet.');
    expect(links).toHaveLength(1);
    click.mockRestore();
  });

  it('keeps the look and the seconds of this seat', async () => {
    const { seat, user } = await open();
    await user.click(screen.getByLabelText('dark'));
    await user.clear(screen.getByLabelText('Seconds a planning run may take'));
    await user.type(screen.getByLabelText('Seconds a planning run may take'), '30{Enter}');
    expect(seat.getState().settings).toEqual({ theme: 'dark', planSeconds: 30 });
  });
});
