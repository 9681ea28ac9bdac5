import { describe, expect, it } from 'vitest';
import { carryTo, machinesFor, moveText, takeUp } from '../../../../renderer/timeline/drag/move';
import { judge, judgedText } from '../../../../renderer/timeline/drag/verdict';
import { indexPlan } from '../../../../renderer/timeline/plan-index';
import { at, planView } from '../../support/plan-view';

/** J-112 may run on M1, 4 h, and on M2, 5 h for a full pallet. */
function index(floor: 'running' | 'loaded' | null = null) {
  const view = planView();
  view.shop.jobs.find(({ id }) => id === 'J-112')!.route[0]!.machines.push({ machine: 'M2', cycle: 300 });
  if (floor !== null) {
    const entry = {
      run: 'J-112/10/2',
      state: floor,
      machine: 'M1',
      pallet: 'P-04',
      start: null,
      end: null,
      after: null,
    };
    view.shop.floor.push(entry);
  }
  return indexPlan(view);
}

const plan = index();
const carried = takeUp(plan, 'J-112/10/2')!;
const to = (machine: string, start: number) => carryTo(plan, carried, machine, start);

describe('a run that is carried', () => {
  it('goes in steps of five minutes', () => {
    expect(to('M1', at(0, '23:37') + 0.4).move).toEqual({ run: 'J-112/10/2', machine: 'M1', start: at(0, '23:35') });
    expect(to('M1', at(0, '23:38')).move.start).toBe(at(0, '23:40'));
  });

  it('comes back to the very minute at which it was taken up', () => {
    const view = planView();
    const run = view.plan.runs.find((each) => each.run === 'J-112/10/2')!;
    Object.assign(run, { start: at(0, '23:03'), end: at(1, '03:03') });
    const odd = indexPlan(view);
    const back = carryTo(odd, takeUp(odd, 'J-112/10/2')!, 'M1', at(0, '23:04'));
    expect(back.move).toEqual(back.from);
  });

  it('takes as long on another machine as the operation does there', () => {
    expect(to('M1', at(1, '00:00')).end).toBe(at(1, '04:00'));
    expect(to('M2', at(1, '00:00')).end).toBe(at(1, '05:00'));
  });

  it('may stand only on machines its operation names, and says which they are', () => {
    expect(machinesFor(plan, 'J-112/10/2')).toEqual(['M1', 'M2']);
    expect(to('M2', at(1, '00:00')).refusal).toBeNull();
    expect(to('G1', at(1, '00:00')).refusal).toBe('J-112 op 10 run 2 does not name G1: it runs on M1, M2.');
  });

  it('starts neither before the plan begins nor after it ends', () => {
    expect(to('M1', at(0, '13:00')).refusal).toBe('The plan begins at Wed 13:30; nothing starts before it.');
    expect(to('M1', at(3, '13:30')).refusal).toBe('The plan ends at Sat 13:30; nothing starts after it.');
  });

  it('stays where it is once it runs, and says so', () => {
    const running = index('running');
    expect(takeUp(running, 'J-112/10/2')?.refusal).toBe('J-112 op 10 run 2 is running and no longer moves.');
    expect(takeUp(index('loaded'), 'J-112/10/2')?.refusal).toBeNull();
    expect(takeUp(running, 'J-999/10/1')).toBeNull();
  });

  it('is said with machine, day and time, the second day only if it is another', () => {
    expect(moveText(plan, to('M1', at(0, '14:00')))).toBe('M1 Horizontal mill, Wed 14:00 to 18:00');
    expect(moveText(plan, to('M2', at(0, '22:00')))).toBe('M2 Five-axis mill, Wed 22:00 to Thu 03:00');
  });
});

describe('the verdict on a place', () => {
  const here = to('M2', at(0, '22:00'));
  const trial = { move: here.move, legal: true, say: ['J-115 turns late by 3 h.'], placed: null };

  it('is that of the trial made for it, in words and not by colour alone', () => {
    expect(judge(here, trial, true)).toMatchObject({ verdict: 'legal', head: 'Can stand here' });
    expect(judge(here, { ...trial, legal: false }, true).head).toBe('Cannot stand here');
    expect(judgedText(plan, here, judge(here, trial, true))).toBe(
      'M2 Five-axis mill, Wed 22:00 to Thu 03:00. Can stand here. J-115 turns late by 3 h.',
    );
  });

  it('is open while a trial is out, or only one for another place is in', () => {
    expect(judge(here, null, true).head).toBe('Being tried');
    const other = { ...trial, move: { ...here.move, start: here.move.start + 5 } };
    expect(judge(here, other, true).verdict).toBe('open');
  });

  it('is no on a machine that cannot do it, whatever a trial says', () => {
    const refused = to('G1', at(0, '22:00'));
    const kind = judge(refused, { ...trial, move: refused.move }, true);
    expect(kind).toMatchObject({ verdict: 'refused', say: [refused.refusal] });
  });
});
