import { cleanup, render, screen } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
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

  it('keeps the look and the seconds of this seat', async () => {
    const { seat, user } = await open();
    await user.click(screen.getByLabelText('dark'));
    await user.clear(screen.getByLabelText('Seconds a planning run may take'));
    await user.type(screen.getByLabelText('Seconds a planning run may take'), '30{Enter}');
    expect(seat.getState().settings).toEqual({ theme: 'dark', planSeconds: 30 });
  });
});
