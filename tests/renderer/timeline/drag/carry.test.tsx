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
