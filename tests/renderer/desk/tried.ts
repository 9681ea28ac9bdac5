import type { DeskChange, ShopView, Trial } from '../../../core/contract';
import type { Fault, FloorEntry, Shop } from '../../../core/shop';
import { createDeskStore, type DeskStore } from '../../../renderer/desk';
import { comparison } from '../compare/compared';
import { FakeApi } from '../support/fake-api';
import { planView } from '../support/plan-view';

export const OPEN = { machine: null, pallet: null, start: null, after: null } as const;

/** A change of one lock of `J-104/10/2`, which is planned on M1 from Wed 15:00. */
export function held(parts: Partial<DeskChange['locks'][number]> = {}): DeskChange {
  return { locks: [{ run: 'J-104/10/2', ...OPEN, ...parts }], withdraw: [], rush: null };
}

export function trial(changes: Partial<Trial> = {}): Trial {
  return { key: 7, conflicts: [], left: [], placed: [], comparison: comparison(), say: [], ...changes };
}

/** The fixture's shop with this on its floor. */
export function shopWith(...floor: readonly Partial<FloorEntry>[]): Shop {
  const whole = floor.map((entry) => ({ run: '', state: 'locked', end: null, ...OPEN, ...entry }) as FloorEntry);
  return { ...planView().shop, floor: whole };
}

interface Answers {
  /** What a change would bring, or why it is refused. */
  readonly tries?: Trial | null | readonly Fault[];
  /** Why a change is refused when it is made. */
  readonly takes?: readonly Fault[];
}

/** A desk whose services answer as told. */
export function deskThat({ tries = trial(), takes = [] }: Answers = {}): { api: FakeApi; desk: DeskStore } {
  const api = new FakeApi({
    'desk.try': () =>
      Array.isArray(tries) ? { ok: false, faults: tries } : { ok: true, value: tries as Trial | null },
    'desk.take': () => (takes.length > 0 ? { ok: false, faults: takes } : { ok: true, value: shopView() }),
  });
  return { api, desk: createDeskStore(api) };
}

function shopView(): ShopView {
  const { shop } = planView();
  return { shop, revision: 2, faults: [], present: '2026-11-25T13:30', wayBack: { undo: null, redo: null } };
}

export const fault = (say: string): Fault => ({ code: 'on-the-floor', at: [], say, level: 'error' });
