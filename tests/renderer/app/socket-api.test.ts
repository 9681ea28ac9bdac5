import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { socketApi } from '../../../renderer/app/socket-api';

/** A socket whose other end is this test. */
class FakeSocket extends EventTarget {
  static readonly OPEN = 1;
  static last: FakeSocket;
  static count = 0;
  readyState = 0;
  readonly sent: { id: number; call: string; sent: unknown }[] = [];

  constructor(readonly address: string) {
    super();
    FakeSocket.last = this;
    FakeSocket.count++;
  }

  send(text: string): void {
    this.sent.push(JSON.parse(text));
  }

  close(): void {
    this.readyState = 3;
    this.dispatchEvent(new Event('close'));
  }

  accept(): void {
    this.readyState = 1;
    this.dispatchEvent(new Event('open'));
  }

  say(message: unknown): void {
    this.dispatchEvent(new MessageEvent('message', { data: JSON.stringify(message) }));
  }
}

beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal('WebSocket', FakeSocket);
  FakeSocket.count = 0;
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

const reply = { ok: true, value: { theme: 'dark', planSeconds: 5 } };

describe('the contract over a socket', () => {
  it('holds the first calls until the connection stands, then answers each by its number', async () => {
    const { api } = socketApi('ws://here/api');
    const [first, second] = [api.call('seat.read', null), api.call('plan.current', null)];
    FakeSocket.last.accept();
    await vi.advanceTimersByTimeAsync(0);
    const { sent } = FakeSocket.last;
    expect(sent.map(({ call }) => call)).toEqual(['seat.read', 'plan.current']);
    FakeSocket.last.say({ id: sent[1]?.id, reply: { ok: true, value: null } });
    FakeSocket.last.say({ id: sent[0]?.id, reply });
    expect(await first).toEqual(reply);
    expect(await second).toEqual({ ok: true, value: null });
  });

  it('tells events to who listens, and to nobody after that', () => {
    const { api } = socketApi('ws://here/api');
    FakeSocket.last.accept();
    const heard: number[] = [];
    const stop = api.on('shop.changed', ({ revision }) => heard.push(revision));
    FakeSocket.last.say({ event: 'shop.changed', data: { revision: 2 } });
    stop();
    FakeSocket.last.say({ event: 'shop.changed', data: { revision: 3 } });
    expect(heard).toEqual([2]);
  });

  it('refuses calls while the connection is lost instead of letting them hang', async () => {
    const { api, connection } = socketApi('ws://here/api');
    FakeSocket.last.accept();
    FakeSocket.last.close();
    expect(connection.getState().connection).toBe('lost');
    const refused = await api.call('seat.read', null);
    expect(refused).toMatchObject({ ok: false, faults: [{ say: expect.stringContaining('not sent') }] });
  });

  it('refuses what was asked but not answered when the connection is lost', async () => {
    const { api } = socketApi('ws://here/api');
    FakeSocket.last.accept();
    const asked = api.call('seat.read', null);
    await vi.advanceTimersByTimeAsync(0);
    FakeSocket.last.close();
    expect(await asked).toMatchObject({ ok: false, faults: [{ say: expect.stringContaining('before it answered') }] });
  });

  it('refuses the first calls when nobody is there', async () => {
    const { api } = socketApi('ws://here/api');
    const asked = api.call('seat.read', null);
    await vi.advanceTimersByTimeAsync(8000);
    expect(await asked).toMatchObject({ ok: false });
  });

  it('refuses a call that is not answered within a minute', async () => {
    const { api } = socketApi('ws://here/api');
    FakeSocket.last.accept();
    const asked = api.call('seat.read', null);
    await vi.advanceTimersByTimeAsync(60_000);
    expect(await asked).toMatchObject({ ok: false, faults: [{ say: expect.stringContaining('for a minute') }] });
  });

  it('tries again until the connection stands', async () => {
    const { api, connection } = socketApi('ws://here/api');
    FakeSocket.last.close();
    await vi.advanceTimersByTimeAsync(300);
    FakeSocket.last.close();
    await vi.advanceTimersByTimeAsync(700);
    expect(FakeSocket.count).toBe(3);
    FakeSocket.last.accept();
    expect(connection.getState().connection).toBe('up');
    const asked = api.call('seat.read', null);
    await vi.advanceTimersByTimeAsync(0);
    FakeSocket.last.say({ id: FakeSocket.last.sent[0]?.id, reply });
    expect(await asked).toEqual(reply);
  });
});
