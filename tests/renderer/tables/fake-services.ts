import type {
  Api,
  CallName,
  EventName,
  Events,
  ImportCells,
  Reply,
  RowPut,
  SeatSettings,
  ShopView,
} from '../../../core/contract';
import { readImport } from '../../../core/exchange';
import {
  type Fault,
  faultsOf,
  parseRow,
  type Shop,
  type ShopInput,
  shopSchema,
  type TableName,
} from '../../../core/shop';

/** Own instance: two machines, a person, two pallets and a job, with fields that no screen shows. */
export const SHOP: ShopInput = {
  format: 'nightload-shop',
  version: 1,
  name: 'Test shop',
  zone: 'Europe/Berlin',
  planFrom: '2026-11-25T13:00',
  people: [
    {
      id: 'Ada',
      skills: ['milling'],
      hours: [{ days: ['mon', 'tue', 'wed', 'thu', 'fri'], from: '06:00', to: '14:00' }],
    },
  ],
  machines: [
    { id: 'M1', kind: 'mill', places: 4, nightFraction: 0.7, magazine: [{ tool: 'EM10', left: [90, 120] }] },
    { id: 'M2', kind: 'mill', places: 2 },
  ],
  pallets: [
    { id: 'P1', fixture: 'VISE' },
    { id: 'P2', fixture: 'VISE', machines: ['M1'] },
  ],
  tools: [{ id: 'EM10', life: 120 }],
  jobs: [
    {
      id: 'J-1',
      name: 'Insert',
      quantity: 4,
      due: '2026-11-27T16:00',
      suspectLimit: 2,
      route: [
        {
          id: '10',
          machines: [{ machine: 'M1', cycle: 105 }],
          fixture: 'VISE',
          perPallet: 2,
          load: 10,
          unload: 5,
          tools: [{ tool: 'EM10', minutes: 40 }],
          checks: [{ name: 'bore', chance: 0.1, repeat: 5, most: 2 }],
          odds: { block: 0.01, loss: 0.02 },
          proof: { goodRuns: 3, longestAlone: 240 },
        },
        { id: '20', machines: [{ machine: 'M2', cycle: 30 }], fixture: 'VISE' },
      ],
    },
    { id: 'J-2', due: '2026-11-28T12:00', route: [{ id: '10', machines: [{ machine: 'M2', cycle: 60 }] }] },
  ],
};

export interface FakeServices {
  readonly api: Api;
  /** Everything asked so far, oldest first. */
  readonly calls: { readonly name: CallName; readonly sent: unknown }[];
  readonly shop: Shop;
  /** The next call of this name is refused with this sentence. */
  refuseNext(name: CallName, say: string): void;
  tell<K extends EventName>(name: K, event: Events[K]): void;
}

interface Asked {
  readonly table: TableName;
  readonly replaces: string | null;
  readonly row: unknown;
  readonly rows: readonly RowPut[];
  readonly id: string;
  readonly to: string;
  readonly list: string;
}

/** Services that keep a shop in memory and refuse what the shop's schema refuses. */
export function fakeServices(input: ShopInput = SHOP): FakeServices {
  let shop = shopSchema.parse(input);
  let revision = 1;
  const done: { shop: Shop; say: string }[] = [];
  const undone: { shop: Shop; say: string }[] = [];
  let seat: SeatSettings = { theme: 'system', planSeconds: 10 };
  const calls: FakeServices['calls'] = [];
  const refusals = new Map<CallName, string>();
  const hearers = new Map<EventName, Set<(event: never) => void>>();

  const view = (): ShopView => ({
    shop,
    revision,
    faults: faultsOf(shop, shop.planFrom ?? '2026-11-25T08:00'),
    present: '2026-11-25T08:00',
    wayBack: { undo: done.at(-1)?.say ?? null, redo: undone.at(-1)?.say ?? null },
  });
  const change = (say: string, next: Shop): Reply<ShopView> => {
    done.push({ shop, say });
    undone.length = 0;
    shop = next;
    revision++;
    return { ok: true, value: view() };
  };
  const step = (from: typeof done, to: typeof done): Reply<ShopView> => {
    const last = from.pop();
    if (last === undefined) return refuse({ code: 'nothing', at: [], say: 'There is nothing left.', level: 'error' });
    to.push({ shop, say: last.say });
    shop = last.shop;
    revision++;
    return { ok: true, value: view() };
  };
  const refuse = (...faults: Fault[]): Reply<never> => ({ ok: false, faults });
  const put = (table: TableName, replaces: string | null, input: unknown): Reply<ShopView> => {
    const parsed = parseRow(table, input);
    if (!parsed.ok) return refuse(...parsed.faults);
    const row = parsed.value;
    const rows: readonly { id: string }[] = shop[table];
    if (row.id !== replaces && rows.some((other) => other.id === row.id))
      return refuse({ code: 'duplicate-id', at: ['id'], say: `There is already ${row.id}.`, level: 'error' });
    const next = replaces === null ? [...rows, row] : rows.map((other) => (other.id === replaces ? row : other));
    return change(`Change ${row.id} in ${table}`, { ...shop, [table]: next });
  };

  const putMany = (table: TableName, rows: readonly RowPut[]): Reply<ShopView> => {
    for (const { replaces, row } of rows) {
      const reply = put(table, replaces, row);
      if (!reply.ok) return reply;
    }
    return { ok: true, value: view() };
  };

  const answer = (name: CallName, sent: never): Reply<unknown> => {
    const refusal = refusals.get(name);
    refusals.delete(name);
    if (refusal !== undefined) return refuse({ code: 'refused', at: [], say: refusal, level: 'error' });
    const { table, replaces, row, rows, id, to, list } = (sent ?? {}) as Partial<Asked>;
    switch (name) {
      case 'shop.read':
        return { ok: true, value: view() };
      case 'shop.put':
        return put(table ?? 'jobs', replaces ?? null, row);
      case 'shop.putMany':
        return putMany(table ?? 'jobs', rows ?? []);
      case 'list.export':
        return { ok: true, value: { fileName: `test-shop-${list}.csv`, text: '' } };
      case 'rows.read':
        return { ok: true, value: readImport(shop, sent as ImportCells) };
      case 'shop.remove':
        return change(`Delete ${id} from ${table}`, {
          ...shop,
          [table ?? 'jobs']: shop[table ?? 'jobs'].filter((other) => other.id !== id),
        });
      case 'shop.settings':
        return change('Change the settings', { ...shop, ...(sent as object) });
      case 'shop.reset':
        return change(
          'Reset',
          shopSchema.parse({ format: 'nightload-shop', version: 1, name: `Reset to ${to}`, zone: 'UTC' }),
        );
      case 'change.undo':
        return step(done, undone);
      case 'change.redo':
        return step(undone, done);
      case 'seat.put':
        seat = sent;
        return { ok: true, value: seat };
      case 'seat.read':
        return { ok: true, value: seat };
      default:
        return { ok: true, value: null };
    }
  };

  return {
    api: {
      async call(name, sent) {
        calls.push({ name, sent });
        return answer(name, sent as never) as never;
      },
      on(name, hear) {
        const known = hearers.get(name) ?? new Set();
        hearers.set(name, known.add(hear as never));
        return () => known.delete(hear as never);
      },
    },
    calls,
    get shop() {
      return shop;
    },
    refuseNext: (name, say) => void refusals.set(name, say),
    tell: (name, event) => {
      for (const hear of hearers.get(name) ?? []) hear(event as never);
    },
  };
}
