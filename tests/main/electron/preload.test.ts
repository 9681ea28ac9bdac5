import { EventEmitter } from 'node:events';
import { describe, expect, it, vi } from 'vitest';
import type { Api } from '../../../core/contract';

const exposed = new Map<string, unknown>();
const renderer = Object.assign(new EventEmitter(), { invoke: vi.fn(() => Promise.resolve({ ok: true, value: 1 })) });
vi.mock('electron', () => ({
  contextBridge: { exposeInMainWorld: (name: string, value: unknown) => exposed.set(name, value) },
  ipcRenderer: renderer,
}));
await import('../../../main/preload');
const api = exposed.get('nightload') as Api;

describe('what the preload gives to the page', () => {
  it('is the contract and nothing else', () => {
    expect([...exposed.keys()]).toEqual(['nightload']);
    expect(Object.keys(api).sort()).toEqual(['call', 'on']);
  });

  it('sends calls through the one channel', async () => {
    expect(await api.call('plan.read', { id: 1 })).toEqual({ ok: true, value: 1 });
    expect(renderer.invoke).toHaveBeenCalledWith('nightload:call', 'plan.read', { id: 1 });
  });

  it('passes on the events asked for, without Electron’s own, until told to stop', () => {
    const hear = vi.fn();
    const stop = api.on('plan.done', hear);
    renderer.emit('nightload:event', { sender: 'secret' }, 'shop.changed', { revision: 1 });
    renderer.emit('nightload:event', { sender: 'secret' }, 'plan.done', { id: 4 });
    stop();
    renderer.emit('nightload:event', { sender: 'secret' }, 'plan.done', { id: 5 });
    expect(hear.mock.calls).toEqual([[{ id: 4 }]]);
  });
});
