import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { useState } from 'react';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { indexPlan, type Move, type Selection, Timeline, type Trial } from '../../../../renderer/timeline';
import { at, planView } from '../../support/plan-view';

const view = planView();
view.shop.jobs.find(({ id }) => id === 'J-112')!.route[0]!.machines.push({ machine: 'M2', cycle: 300 });
view.shop.floor.push({
  ...{ run: 'J-104/10/1', state: 'running', machine: 'M1', pallet: 'P-01' },
  ...{ start: '2026-11-25T12:00', end: null, after: null },
});
const index = indexPlan(view);
const RUN = 'J-112/10/2';
const frame = (): Promise<void> => new Promise((resolve) => requestAnimationFrame(() => resolve()));

interface OwnerProps {
  readonly run: string;
  onMove(move: Move): void;
  onTry(move: Move): void;
  onSelect(selection: Selection | null): void;
  /** What comes of a move at once; null leaves it open. */
  readonly answer: ((move: Move) => Trial) | null;
}

function Owner({ run, onMove, onTry, onSelect, answer }: OwnerProps) {
  const [trial, setTrial] = useState<Trial | null>(null);
  const [selection, setSelection] = useState<Selection | null>({ kind: 'run', run });
  const tried = (move: Move): void => {
    onTry(move);
    if (answer !== null) setTrial(answer(move));
  };
  const select = (next: Selection | null): void => {
    onSelect(next);
    setSelection(next);
  };
  return <Timeline {...{ index, selection, trial, onMove }} nowMin={view.plan.now} onSelect={select} onTry={tried} />;
}

function open(run = RUN, answer: OwnerProps['answer'] = null) {
  const heard = { onMove: vi.fn(), onTry: vi.fn(), onSelect: vi.fn() };
  render(<Owner {...heard} run={run} answer={answer} />);
  const stage = screen.getByRole('application');
  const press = async (key: string, shiftKey = false): Promise<string> => {
    fireEvent.keyDown(stage, { key, shiftKey });
    await frame();
    await frame();
    return screen.getByRole('status').textContent ?? '';
  };
  return { ...heard, press };
}

afterEach(cleanup);

describe('moving a run by keyboard', () => {
  it('says how, each step with its place, and drops it there', async () => {
    const { press, onMove } = open();
    expect(await press('m')).toBe(
      'Moving J-112 op 10 run 2. Arrow keys move it, Enter drops it, Escape leaves it where it was.',
    );
    expect(await press('ArrowRight')).toBe('M1 Horizontal mill, Wed 23:05 to Thu 03:05.');
    expect(await press('ArrowLeft', true)).toBe('M1 Horizontal mill, Wed 22:05 to Thu 02:05.');
    expect(await press('ArrowDown')).toBe('M2 Five-axis mill, Wed 22:05 to Thu 03:05.');
    expect(await press('ArrowDown')).toBe('M2 Five-axis mill, Wed 22:05 to Thu 03:05.');
    expect(await press('Enter')).toBe('J-112 op 10 run 2 put down: M2 Five-axis mill, Wed 22:05 to Thu 03:05.');
    expect(onMove.mock.calls).toEqual([[{ run: RUN, machine: 'M2', start: at(0, '22:05') }]]);
  });

  it('tries each place once and reads out what would come of it', async () => {
    const { press, onTry } = open(RUN, (move) => ({
      move,
      legal: true,
      say: ['J-115 turns late by 1 h.'],
      placed: null,
    }));
    await press('m');
    expect(await press('ArrowRight')).toBe(
      'M1 Horizontal mill, Wed 23:05 to Thu 03:05. Can stand here. J-115 turns late by 1 h.',
    );
    await press('ArrowUp');
    expect(onTry.mock.calls).toEqual([[{ run: RUN, machine: 'M1', start: at(0, '23:05') }]]);
  });

  it('is not dropped where it cannot stand: it stays in the hand', async () => {
    const say = ['Ben is not there to load it.'];
    const { press, onMove } = open(RUN, (move) => ({ move, legal: move.machine === 'M2', say, placed: null }));
    await press('m');
    await press('ArrowRight');
    expect(await press('Enter')).toContain('Cannot stand here. Ben is not there to load it.');
    expect(onMove).not.toHaveBeenCalled();
    await press('ArrowDown');
    await press('Enter');
    expect(onMove.mock.calls).toEqual([[{ run: RUN, machine: 'M2', start: at(0, '23:05') }]]);
  });

  it('leaves it where it was by Escape, which keeps it selected', async () => {
    const { press, onMove, onSelect } = open();
    await press('m');
    await press('ArrowRight');
    expect(await press('Escape')).toBe('J-112 op 10 run 2 stays where it was.');
    expect(onSelect).not.toHaveBeenCalled();
    expect(await press('Enter')).toBe('J-112 op 10 run 2 stays where it was.');
    expect(onMove).not.toHaveBeenCalled();
  });

  it('says of a run that runs already why it does not move', async () => {
    const { press } = open('J-104/10/1');
    expect(await press('m')).toBe('J-104 op 10 run 1 is running and no longer moves.');
    expect(await press('ArrowRight')).toMatch(/^J-104 Cavity insert\. op 10, run 2 of 2/);
  });
});

describe('a timeline whose owner does not hear of moves', () => {
  it('takes nothing up', async () => {
    render(<Timeline index={index} nowMin={0} selection={{ kind: 'run', run: RUN }} onSelect={() => {}} />);
    fireEvent.keyDown(screen.getByRole('application'), { key: 'm' });
    await frame();
    expect(screen.getByRole('status').textContent).toMatch(/^J-112 Runner insert/);
  });
});

describe('moving a run by mouse', () => {
  const size = { width: 1000, height: 600 };

  /** Elements as large as on a screen; what is drawn is laid out all the same where no canvas can draw. */
  function onScreen() {
    vi.spyOn(HTMLElement.prototype, 'clientWidth', 'get').mockReturnValue(size.width);
    vi.spyOn(HTMLElement.prototype, 'clientHeight', 'get').mockReturnValue(size.height);
    HTMLElement.prototype.setPointerCapture = () => {};
    const heard = open();
    const sight = screen.getByRole('application').firstElementChild!;
    const point = async (type: string, x: number, y: number): Promise<void> => {
      fireEvent(sight, new PointerEvent(type, { clientX: x, clientY: y, pointerType: 'mouse', bubbles: true }));
      await frame();
      await frame();
    };
    return { ...heard, point };
  }

  // Tonight shows 13:00 to 07:30 on 1000 px; rows are 92 px high.
  const xOf = (minute: number): number => ((minute - at(0, '13:00')) / (18.5 * 60)) * size.width;

  afterEach(() => vi.restoreAllMocks());

  it('drops it on the machine and at the five minutes where it is let go', async () => {
    const { point, onTry, onMove } = onScreen();
    await frame();
    const grip = xOf(at(1, '00:00'));
    await point('pointerdown', grip, 30);
    await point('pointermove', grip + 20, 40);
    await point('pointermove', xOf(at(1, '00:31')), 130);
    await point('pointerup', xOf(at(1, '00:31')), 130);
    const move = { run: RUN, machine: 'M2', start: at(0, '23:30') };
    expect(onMove.mock.calls).toEqual([[move]]);
    expect(onTry.mock.lastCall).toEqual([move]);
  });

  it('keeps it where it was when it is dropped on a machine that cannot do it, and says why', async () => {
    const { point, onTry, onMove } = onScreen();
    await frame();
    await point('pointerdown', xOf(at(1, '00:00')), 30);
    await point('pointermove', xOf(at(1, '00:00')), 200);
    await point('pointerup', xOf(at(1, '00:00')), 200);
    expect(onMove).not.toHaveBeenCalled();
    expect(onTry).not.toHaveBeenCalled();
    expect(screen.getByRole('status').textContent).toBe(
      'Not moved. J-112 op 10 run 2 does not name G1: it runs on M1, M2.',
    );
  });

  it('pans where it begins on empty ground', async () => {
    const { point, onMove } = onScreen();
    await frame();
    const shown = (): string | null => screen.getByRole('slider').getAttribute('aria-valuetext');
    await vi.waitFor(() => expect(shown()).toBe('Wed 13:00 to Thu 07:30'));
    await point('pointerdown', xOf(at(1, '07:15')), 30);
    await point('pointermove', xOf(at(1, '04:00')), 30);
    await point('pointerup', xOf(at(1, '04:00')), 30);
    await vi.waitFor(() => expect(shown()).toBe('Wed 16:15 to Thu 10:45'));
    expect(onMove).not.toHaveBeenCalled();
  });
});
