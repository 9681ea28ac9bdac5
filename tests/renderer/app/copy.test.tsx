import { act, cleanup, render, screen, waitFor, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
import type { Api, CallName, CopyView } from '../../../core/contract';
import { App, createStores } from '../../../renderer/app';
import { createConnectionStore } from '../../../renderer/app/connection';
import { copyApi } from '../../../renderer/app/copy-api';
import { copyView } from '../compare/compared';
import { fakeServices } from '../tables/fake-services';

afterEach(() => {
  cleanup();
  window.location.hash = '';
});

/** The shop's services, and those of one copy of it behind them. */
function servicesWithCopy() {
  const own = fakeServices();
  const copy = fakeServices();
  let copies: CopyView[] = [copyView('3', { name: 'Third operator' })];
  const api: Api = {
    on: own.api.on,
    async call(name, sent) {
      const { call, sent: passed } = (sent ?? {}) as { call: CallName; sent: never };
      if (name === 'copy.call') return (await copy.api.call(call, passed)) as never;
      if (name === 'copy.list') return { ok: true, value: copies } as never;
      if (name === 'plan.list' || name === 'change.list') return { ok: true, value: [] } as never;
      if (name === 'copy.adopt') {
        await own.api.call('shop.put', { table: 'people', replaces: null, row: { id: 'Eva', hours: [] } });
        return (await own.api.call('shop.read', null)) as never;
      }
      return own.api.call(name, sent);
    },
  };
  return {
    own,
    copy,
    api,
    discard: () => {
      copies = [];
      own.tell('copy.changed', { id: '3' });
    },
  };
}

async function open(hash: string) {
  window.location.hash = hash;
  const services = servicesWithCopy();
  render(<App stores={createStores({ api: services.api, connection: createConnectionStore('up') })} />);
  await screen.findByRole('navigation');
  return { ...services, user: userEvent.setup() };
}

const banner = (): HTMLElement => screen.getByRole('region', { name: 'What-if' });

describe('inside a what-if', () => {
  it('changes the copy on every screen and leaves the shop as it is', async () => {
    const { own, copy, user } = await open('#/jobs?copy=3');
    within(banner()).getByText('You are changing a copy; the shop stays as it is.');
    expect((await within(banner()).findByLabelText<HTMLInputElement>('Name of this what-if')).value).toBe(
      'Third operator',
    );
    await user.click(await screen.findByRole('button', { name: 'Delete J-2' }));
    await waitFor(() => expect(copy.shop.jobs.map(({ id }) => id)).toEqual(['J-1']));
    await user.click(screen.getByRole('link', { name: 'Pallets' }));
    await user.click(await screen.findByRole('button', { name: 'Delete P2' }));
    await waitFor(() => expect(copy.shop.pallets).toHaveLength(1));
    expect(window.location.hash).toBe('#/pallets?copy=3');
    expect([own.shop.jobs.length, own.shop.pallets.length]).toEqual([2, 2]);
  });

  it('keeps the copy when going to another screen by keys', async () => {
    const { user } = await open('#/jobs?copy=3');
    await user.keyboard('{Alt>}[Digit6]{/Alt}');
    await screen.findByRole('heading', { level: 1, name: 'Machines' });
    expect(window.location.hash).toBe('#/machines?copy=3');
  });

  it("undoes the copy's changes and not the shop's", async () => {
    const { own, copy, user } = await open('#/jobs?copy=3');
    await own.api.call('shop.remove', { table: 'pallets', id: 'P2' });
    await copy.api.call('shop.remove', { table: 'jobs', id: 'J-2' });
    await user.keyboard('{Control>}z{/Control}');
    await screen.findByText('Undone: Delete J-2 from jobs.');
    expect(copy.shop.jobs).toHaveLength(2);
    expect(own.shop.pallets).toHaveLength(1);
  });

  it('is adopted as one change, which the shop then offers to undo', async () => {
    const { own, user } = await open('#/people?copy=3');
    await user.click(await within(banner()).findByRole('button', { name: 'Adopt' }));
    await screen.findByText('Adopted “Third operator”.');
    expect(window.location.hash).toBe('#/plan');
    expect(screen.queryByRole('region', { name: 'What-if' })).toBeNull();
    expect(own.shop.people.map(({ id }) => id)).toEqual(['Ada', 'Eva']);
  });

  it('leads to the comparison with the shop, and back to the shop', async () => {
    const { user } = await open('#/people?copy=3');
    await user.click(await within(banner()).findByRole('button', { name: 'Compare with the shop' }));
    await screen.findByRole('main', { name: 'Compare' });
    expect(window.location.hash).toBe('#/compare');
    act(() => {
      window.location.hash = '#/people?copy=3';
    });
    await user.click(await screen.findByRole('button', { name: 'Back to the shop' }));
    await waitFor(() => expect(window.location.hash).toBe('#/plan'));
  });

  it('says that it is no longer there once it is discarded elsewhere', async () => {
    const { discard } = await open('#/people?copy=3');
    await within(banner()).findByLabelText('Name of this what-if');
    act(discard);
    await within(banner()).findByText(/no longer there/);
    screen.getByRole('button', { name: 'Back to the shop' });
  });
});

describe('the contract on a copy', () => {
  it('asks the copy, and the seat where it is about the seat', async () => {
    const { own, copy, api } = servicesWithCopy();
    const ofCopy = copyApi(api, '3');
    await ofCopy.call('shop.remove', { table: 'jobs', id: 'J-2' });
    await ofCopy.call('seat.read', null);
    expect(copy.calls.map(({ name }) => name)).toEqual(['shop.remove']);
    expect(own.calls.map(({ name }) => name)).toEqual(['seat.read']);
  });

  it('hears only what the services of that copy say, until it is closed', () => {
    const { own, api } = servicesWithCopy();
    const ofCopy = copyApi(api, '3');
    const heard: number[] = [];
    ofCopy.on('plan.done', ({ id }) => heard.push(id));
    own.tell('plan.done', { id: 1 });
    own.tell('copy.said', { copy: '2', event: 'plan.done', data: { id: 2 } });
    own.tell('copy.said', { copy: '3', event: 'plan.failed', data: { faults: [] } });
    own.tell('copy.said', { copy: '3', event: 'plan.done', data: { id: 3 } });
    ofCopy.close();
    own.tell('copy.said', { copy: '3', event: 'plan.done', data: { id: 4 } });
    expect(heard).toEqual([3]);
  });
});
