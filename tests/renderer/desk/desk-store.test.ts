import { describe, expect, it } from 'vitest';
import { deskThat, fault, held, trial } from './tried';

const RUNNING = fault('J-104/10/2 is running on the floor; what has begun is not moved by hand here.');

describe('a change by hand', () => {
  it('is tried with the seconds it may take, and shown once it is known', async () => {
    const { api, desk } = deskThat();
    const asked = desk.getState().try(held({ machine: 'M1' }), 2);
    expect(desk.getState()).toMatchObject({ change: held({ machine: 'M1' }), trial: null });
    await asked;
    expect(desk.getState().trial?.key).toBe(7);
    expect(api.asked).toEqual([{ name: 'desk.try', sent: { change: held({ machine: 'M1' }), seconds: 2 } }]);
  });

  it('is made with the plan that was shown for it, and then no longer in hand', async () => {
    const { api, desk } = deskThat();
    await desk.getState().try(held({ machine: 'M1' }), 0);
    expect(await desk.getState().apply(held({ machine: 'M1' }))).toBe(true);
    expect(api.asked.slice(1)).toEqual([{ name: 'desk.take', sent: { change: held({ machine: 'M1' }), trial: 7 } }]);
    expect(desk.getState()).toMatchObject({ change: null, trial: null, taking: false });
  });

  it('is tried before it is made where another was shown', async () => {
    const { api, desk } = deskThat();
    await desk.getState().try(held({ machine: 'M1' }), 0);
    await desk.getState().apply(held({ pallet: 'P-02' }));
    expect(api.asked.slice(1)).toEqual([
      { name: 'desk.try', sent: { change: held({ pallet: 'P-02' }), seconds: 0.1 } },
      { name: 'desk.take', sent: { change: held({ pallet: 'P-02' }), trial: 7 } },
    ]);
  });

  it('is not made where the trial is refused, and says why', async () => {
    const { api, desk } = deskThat({ tries: [RUNNING] });
    expect(await desk.getState().apply(held({ machine: 'M1' }))).toBe(false);
    expect(api.times('desk.take')).toBe(0);
    expect(desk.getState().faults).toEqual([RUNNING]);
  });

  it('stays in hand with the reason where it is refused', async () => {
    const { desk } = deskThat({ takes: [RUNNING] });
    expect(await desk.getState().apply(held({ machine: 'M1' }))).toBe(false);
    expect(desk.getState()).toMatchObject({ change: held({ machine: 'M1' }), trial: { key: 7 }, faults: [RUNNING] });
  });

  it('is made once, however often it is asked for while it is on its way', async () => {
    const { api, desk } = deskThat();
    await desk.getState().try(held({ machine: 'M1' }), 0);
    const taken = await Promise.all([desk.getState().take(), desk.getState().take()]);
    expect(taken).toEqual([true, false]);
    expect(api.times('desk.take')).toBe(1);
  });

  it('forgets what it knew of a place when the hand moves on, though the answer comes late', async () => {
    const { api, desk } = deskThat();
    const late = desk.getState().try(held({ start: '2026-11-25T16:00' }), 0);
    desk.getState().drop();
    await late;
    expect(api.times('desk.try')).toBe(1);
    expect(desk.getState()).toMatchObject({ change: null, trial: null });
  });

  it('is neither known nor refused where a newer one was asked about meanwhile', async () => {
    const { api, desk } = deskThat({ tries: null });
    expect(await desk.getState().apply(held({ machine: 'M1' }))).toBe(false);
    expect(api.times('desk.take')).toBe(0);
    expect(desk.getState()).toMatchObject({ trial: null, faults: [] });
  });

  it('keeps what is typed of a rush job when a run is held, and forgets it when the job is taken', async () => {
    const { desk } = deskThat({ tries: trial() });
    const draft = { like: 'J-104', id: 'R-7', quantity: '3', due: 'Thu 16:00', weight: 10 };
    desk.getState().write(draft);
    await desk.getState().apply(held({ machine: 'M1' }));
    expect(desk.getState().draft).toEqual(draft);
    await desk.getState().apply({ locks: [], withdraw: [], rush: { id: 'R-7' } });
    expect(desk.getState().draft).toBeNull();
  });
});
