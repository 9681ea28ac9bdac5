import { describe, expect, it } from 'vitest';
import { type KindLedger, toolLedger } from '../../../core/night';
import { EVENING, MORNING, NOW, type ToolShop, toolShop } from './tool-shop';

const EM10 = { id: 'EM10', life: 100 };
const BN06 = { id: 'BN06', life: 100, finish: true };
const lay = (given: ToolShop) => {
  const { shop, plan } = toolShop(given);
  return toolLedger(shop, plan);
};
const kind = (given: ToolShop, tool: string): KindLedger => {
  const found = lay(given).kinds.find((one) => one.tool === tool);
  if (found === undefined) throw new Error(`no ${tool} in the ledger`);
  return found;
};

describe('sister tools', () => {
  const given = (uses: number): ToolShop => ({
    tools: [EM10],
    magazines: { M1: { EM10: [30, 50] } },
    cuts: [
      { start: NOW, cut: 60, uses: { EM10: 20 } },
      { start: NOW + 100, cut: 60, uses: { EM10: uses } },
    ],
  });

  it('follow each other to the last minute', () => {
    const ledger = kind(given(60), 'EM10');
    expect(ledger.shortages).toEqual([]);
    expect(ledger.needed.queue).toBe(80);
    expect(ledger.left).toEqual({ sisters: [30, 50], day: 80, night: 40 });
  });

  it('are spent in their order, each at its minute of a cut', () => {
    // 10 of 60 minutes from the first tool; then the second takes over.
    expect(kind(given(60), 'EM10').spent).toEqual([{ sister: 0, why: 'spent', run: 'B/10/1', minute: NOW + 110 }]);
  });

  it('run short by one minute, in the last minute of the cut', () => {
    // 60 of 61 minutes over a cut of 61: the 61st is missing.
    const shop = given(61);
    const ledger = kind({ ...shop, cuts: [shop.cuts[0]!, { ...shop.cuts[1]!, cut: 61 }] }, 'EM10');
    const short = {
      machine: 'M1',
      tool: 'EM10',
      run: 'B/10/1',
      pallet: 'P1',
      start: NOW + 100,
      needed: 61,
      missing: 1,
    };
    expect(ledger.shortages).toEqual([{ ...short, minute: NOW + 160 }]);
    expect(ledger.spent.map(({ sister, minute }) => [sister, minute])).toEqual([
      [0, NOW + 110],
      [1, NOW + 160],
    ]);
  });

  it('give the night no more than the share it may use, and the day the rest', () => {
    // Life 100 at 0.8: 20 stay in the tool.
    const cuts = [
      { start: EVENING - 30, cut: 60, uses: { EM10: 31 } },
      { start: MORNING, cut: 60, uses: { EM10: 19 } },
    ];
    const night = { tools: [EM10], magazines: { M1: { EM10: [50] } }, cuts };
    const [short, ...more] = kind(night, 'EM10').shortages;
    expect(short).toMatchObject({ run: 'A/10/1', missing: 1 });
    expect(more).toEqual([]);
    expect(kind(night, 'EM10').spent[0]).toMatchObject({ sister: 0, why: 'night' });
    expect(kind({ ...night, always: true }, 'EM10').shortages).toEqual([]);
  });

  it('keep their night reserve for a cut that ends one minute into the night, and not for one that ends at its start', () => {
    const cut = (start: number) => ({
      tools: [EM10],
      magazines: { M1: { EM10: [50] } },
      cuts: [{ start, cut: 60, uses: { EM10: 50 } }],
    });
    expect(kind(cut(EVENING - 60), 'EM10').shortages).toEqual([]);
    expect(kind(cut(EVENING - 59), 'EM10').shortages).toMatchObject([{ missing: 20 }]);
  });

  it('are whole again once replaced, and spent again after that', () => {
    const care = { person: 'Ada', machine: 'M1', start: NOW + 90, end: NOW + 95 };
    const ledger = kind(
      {
        tools: [EM10],
        magazines: { M1: { EM10: [20] } },
        cuts: [
          { start: NOW, cut: 60, uses: { EM10: 30 } },
          { start: NOW + 100, cut: 60, uses: { EM10: 90 } },
          { start: NOW + 200, cut: 60, uses: { EM10: 20 } },
        ],
        care: [{ ...care, acts: [{ tool: 'EM10', sister: 0, act: 'replace' }] }],
      },
      'EM10',
    );
    expect(ledger.shortages.map(({ run, missing }) => [run, missing])).toEqual([
      ['A/10/1', 10],
      ['C/10/1', 10],
    ]);
    expect(ledger.spent.map(({ run, minute }) => [run, minute])).toEqual([
      ['A/10/1', NOW + 40],
      ['C/10/1', NOW + 230],
    ]);
    expect(ledger.care).toEqual([{ person: 'Ada', start: NOW + 90, end: NOW + 95, sister: 0, act: 'replace' }]);
  });
});

describe('a finish tool', () => {
  const cuts = [{ start: NOW, cut: 60, uses: { BN06: 40 } }];

  it('covers its whole cut from one tool: two halves do not add', () => {
    const short = kind({ tools: [BN06], magazines: { M1: { BN06: [39, 39] } }, cuts }, 'BN06').shortages;
    expect(short).toMatchObject([{ run: 'A/10/1', minute: NOW, start: NOW, missing: 0 }]);
    expect(kind({ tools: [BN06], magazines: { M1: { BN06: [39, 40] } }, cuts }, 'BN06').shortages).toEqual([]);
  });

  it('that is passed over still serves a shorter cut', () => {
    const ledger = kind(
      {
        tools: [BN06],
        magazines: { M1: { BN06: [39, 40] } },
        cuts: [...cuts, { start: NOW + 100, cut: 60, uses: { BN06: 39 } }],
      },
      'BN06',
    );
    expect(ledger.shortages).toEqual([]);
    expect(ledger.spent).toEqual([{ sister: 0, why: 'spent', run: 'A/10/1', minute: NOW }]);
  });

  it('too short for the night is long enough by day', () => {
    const held = (start: number) => ({
      tools: [BN06],
      magazines: { M1: { BN06: [59] } },
      cuts: [{ start, cut: 60, uses: { BN06: 40 } }],
    });
    expect(kind(held(NOW), 'BN06').shortages).toEqual([]);
    const night = kind(held(EVENING), 'BN06');
    expect(night.shortages).toMatchObject([{ minute: EVENING }]);
    expect(night.spent).toMatchObject([{ why: 'night' }]);
  });
});

describe('the clock minute of a shortage', () => {
  it('leaves out the hold for a first-piece check', () => {
    // 20 minutes cut, held for 40, 20 more to cut; 30 of 40 tool minutes last for 30 minutes of cutting.
    const check = { after: 20, start: NOW + 50, minutes: 10 };
    const cuts = [{ start: NOW, cut: 40, uses: { EM10: 40 }, check }];
    const ledger = kind({ tools: [EM10], magazines: { M1: { EM10: [30] } }, cuts }, 'EM10');
    expect(ledger.shortages).toMatchObject([{ minute: NOW + 70 }]);
  });

  it('is never before the moment of the plan, and what ended before it needs nothing any more', () => {
    const cuts = [
      { start: NOW - 120, cut: 60, uses: { EM10: 90 } },
      { start: NOW - 50, cut: 60, uses: { EM10: 60 } },
    ];
    const ledger = kind({ tools: [EM10], magazines: { M1: { EM10: [6] } }, cuts }, 'EM10');
    expect(ledger.needed.queue).toBe(60);
    expect(ledger.shortages).toMatchObject([{ run: 'B/10/1', minute: NOW, start: NOW, missing: 54 }]);
  });
});

describe('the ledger', () => {
  const two: ToolShop = {
    tools: [EM10, BN06, { id: 'DR08', life: 60 }],
    magazines: { M1: { EM10: [100] }, M2: { DR08: [60] } },
    cuts: [
      { start: NOW, cut: 60, uses: { EM10: 50, BN06: 30 } },
      { start: EVENING - 60, cut: 61, uses: { DR08: 45 }, machine: 'M2' },
      { start: MORNING, cut: 60, uses: { DR08: 10 }, machine: 'M2' },
    ],
  };

  it('names what is held and what is used, machine by machine', () => {
    expect(lay(two).kinds.map(({ machine, tool }) => `${machine} ${tool}`)).toEqual(['M1 EM10', 'M1 BN06', 'M2 DR08']);
  });

  it('counts a run whole for the night in which it cuts only a minute', () => {
    expect(kind(two, 'DR08').needed).toEqual({ queue: 55, tonight: 45 });
  });

  it('takes a kind the magazine does not hold for one empty pocket', () => {
    const ledger = kind(two, 'BN06');
    expect(ledger.left).toEqual({ sisters: [0], day: 0, night: 0 });
    expect(ledger.shortages).toMatchObject([{ run: 'A/10/1', minute: NOW, missing: 30 }]);
    expect(ledger.spent).toEqual([]);
  });

  it('says what would be short first if nobody replaced anything', () => {
    const care = { person: 'Ada', machine: 'M1', start: NOW, end: NOW };
    const kept = { ...two, care: [{ ...care, acts: [{ tool: 'BN06', sister: 0, act: 'replace' as const }] }] };
    expect(kind(kept, 'BN06').shortages).toEqual([]);
    expect(kind(kept, 'BN06').withoutCare).toMatchObject({ run: 'A/10/1', missing: 30 });
    expect(kind(kept, 'EM10').withoutCare).toBeNull();
  });

  it('says after each run what is left of the tool nearest its end, as its next cut by the same hours may use it', () => {
    const { minutesLeftAfter } = lay(two);
    expect(minutesLeftAfter).toEqual({
      'A/10/1': { tool: 'BN06', minutes: 0, lives: 0 },
      // 60 - 45 = 15, of which the night must leave 12.
      'B/10/1': { tool: 'DR08', minutes: 3, lives: 0.05 },
      'C/10/1': { tool: 'DR08', minutes: 5, lives: 5 / 60 },
    });
  });

  it('takes for a part-filled pallet its share, rounded up, and for planned repeats as much more', () => {
    const more = { perPallet: 3, checks: [{ chance: 0.5, repeat: 15, most: 1 }] };
    const cuts = [{ start: NOW, cut: 60, uses: { EM10: 31 }, more }];
    // One part of three: 20 minutes and 15 of repeats, of a cycle of 60: 31 x 35 / 60 = 18.08.
    expect(kind({ tools: [EM10], magazines: { M1: { EM10: [100] } }, cuts }, 'EM10').needed.queue).toBe(19);
  });

  it('passes over runs and machines the shop does not know', () => {
    const { shop, plan } = toolShop(two);
    const strange = plan.runs.map((run) => ({ ...run, run: `X-${run.run}` }));
    const moved = plan.runs.map((run) => ({ ...run, machine: 'M9' }));
    const ledger = toolLedger(shop, { ...plan, runs: [...strange, ...moved] });
    expect(ledger.kinds.every((one) => one.needed.queue === 0)).toBe(true);
    expect(ledger.minutesLeftAfter).toEqual({});
  });
});

describe('the course of a tool', () => {
  const { course, fresh } = kind(
    {
      tools: [EM10],
      magazines: { M1: { EM10: [30, 50] } },
      cuts: [
        { start: NOW, cut: 60, uses: { EM10: 20 } },
        { start: NOW + 100, cut: 60, uses: { EM10: 10 } },
      ],
      care: [
        {
          machine: 'M1',
          person: 'Ada',
          start: NOW + 70,
          end: NOW + 75,
          acts: [{ tool: 'EM10', sister: 0, act: 'replace' }],
        },
      ],
    },
    'EM10',
  );

  it('is what the night may use, which a cut takes evenly and a replacement gives back at once', () => {
    // Life 100 at 0.8: 20 stay in each tool. 30 and 50 left: 10 + 30; after 20 of the first: 0 + 30; a fresh one: 80.
    expect(course).toEqual([
      { minute: NOW, left: 40 },
      { minute: NOW, left: 40 },
      { minute: NOW + 60, left: 30 },
      { minute: NOW + 75, left: 30 },
      { minute: NOW + 75, left: 110 },
      { minute: NOW + 100, left: 110 },
      { minute: NOW + 160, left: 100 },
    ]);
  });

  it('is held against what fresh tools would give', () => expect(fresh).toBe(160));
});
