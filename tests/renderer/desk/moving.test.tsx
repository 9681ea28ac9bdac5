import { act, renderHook } from '@testing-library/react';
import { describe, expect, it, vi } from 'vitest';
import type { Trial } from '../../../core/contract';
import type { Fault } from '../../../core/shop';
import { useMoving } from '../../../renderer/desk';
import { indexPlan } from '../../../renderer/timeline';
import { at, planView } from '../support/plan-view';
import { deskThat, fault, held, shopWith, trial } from './tried';

const MOVE = { run: 'J-104/10/2', machine: 'M1', start: at(0, '18:30') };

function moving(tries: Trial | readonly Fault[], shop = shopWith()) {
  const { api, desk } = deskThat({ tries });
  const index = indexPlan(planView());
  const refused = vi.fn();
  const { result } = renderHook(() => useMoving(desk, index, shop, refused));
  return { api, desk, refused, result };
}

const PLACED = { run: MOVE.run, machine: 'M1', start: '2026-11-25T18:30', end: '2026-11-25T22:10' };

describe('a run moved on the timeline', () => {
  it('is tried where it is carried, without search, and judged in the minutes of the timeline', async () => {
    const { api, result } = moving(trial({ placed: [PLACED], say: ['J-104 finishes later.'] }));
    await act(async () => result.current.onTry(MOVE));
    const change = held({ machine: 'M1', start: '2026-11-25T18:30' });
    expect(api.asked).toEqual([{ name: 'desk.try', sent: { change, seconds: 0.1 } }]);
    const placed = { machine: 'M1', start: at(0, '18:30'), end: at(0, '22:10') };
    expect(result.current.trial).toEqual({ move: MOVE, legal: true, say: ['J-104 finishes later.'], placed });
  });

  it('cannot stand where a lock can’t be kept, and hears what is in the way', async () => {
    const conflicts = [{ run: MOVE.run, say: 'J-112/10/1 runs there.' }];
    const { result } = moving(trial({ conflicts, say: ['J-104 finishes later.'] }));
    await act(async () => result.current.onTry(MOVE));
    expect(result.current.trial).toEqual({ move: MOVE, legal: false, say: ['J-112/10/1 runs there.'], placed: null });
  });

  it('is held where it is put, and what held it beside that stays', async () => {
    const shop = shopWith({ run: MOVE.run, start: '2026-11-25T15:00', pallet: 'P-02' });
    const { api, refused, result } = moving(trial(), shop);
    await act(async () => result.current.onMove(MOVE));
    const change = held({ machine: 'M1', start: '2026-11-25T18:30', pallet: 'P-02' });
    expect(api.asked.at(-1)).toEqual({ name: 'desk.take', sent: { change, trial: 7 } });
    expect(refused).not.toHaveBeenCalled();
    expect(result.current.trial).toBeNull();
  });

  it('is told of where it was put down and not taken', async () => {
    const { api, refused, result } = moving([fault('J-104/10/2 is running on the floor.')]);
    await act(async () => result.current.onMove(MOVE));
    expect(refused).toHaveBeenCalledWith(MOVE.run);
    expect(api.times('desk.take')).toBe(0);
    expect(result.current.trial).toMatchObject({ legal: false, say: ['J-104/10/2 is running on the floor.'] });
  });
});
