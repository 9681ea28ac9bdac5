import { type RefObject, useEffect, useMemo, useRef, useState } from 'react';
import type { Minute } from '../../../core/time';
import type { Point } from '../gestures';
import { findItem, type TimelineModel } from '../model';
import type { PlanIndex } from '../plan-index';
import type { Surface } from '../surface';
import type { Shown } from './ghost';
import {
  type Carried,
  carryTo,
  type Move,
  machinesFor,
  moveText,
  runName,
  STEP_MIN,
  sameMove,
  type Trial,
  takeUp,
} from './move';
import { type Judged, judge, judgedText } from './verdict';

/** What the timeline's owner hears of moves and says to them; without `onMove` nothing can be taken up. */
export interface MoveProps {
  /** Told once a frame at most, and only of another place, while a run is carried. */
  onTry?(move: Move): void;
  /** A run was put down where nothing known speaks against it. */
  onMove?(move: Move): void;
  /** What would come of the move last tried. */
  readonly trial?: Trial | null;
}

interface Held {
  readonly carried: Carried;
  /** From the start of the run to where it was gripped. */
  readonly gripMin: number;
  /** Where the pointer is on the canvas; null if it is carried by keys. */
  readonly pointer: Point | null;
  /** Said once as it is taken up. */
  readonly hint: string;
}

/** A run that is carried, and the hands that carry it. */
export interface Carry {
  readonly held: { readonly carried: Carried; readonly judged: Judged; readonly pointer: Point | null } | null;
  /** For the live region: where the run is held and what would come of it, or what became of it; empty if nothing. */
  readonly said: string;
  take(at: Point): boolean;
  /** Takes up a run by keys; false if it cannot be. */
  takeRun(run: string): boolean;
  carry(at: Point): void;
  drop(): void;
  letGo(): void;
  /** A key while a run is carried; false if it means nothing here. */
  key(key: string, isShift: boolean): boolean;
  /** Forgets what was said. */
  hush(): void;
}

const SHIFT_STEP_MIN = 60;
const EDGE_CSS = 28;
const MOST_DRIFT_CSS = 14;
const HOW = 'Arrow keys move it, Enter drops it, Escape leaves it where it was.';

export function useCarry(
  surface: RefObject<Surface | null>,
  index: PlanIndex,
  model: TimelineModel,
  pan: (byXCss: number, byYCss: number) => void,
  { onTry, onMove, trial = null }: MoveProps,
): Carry {
  const [held, setHeld] = useState<Held | null>(null);
  const [became, setBecame] = useState('');
  const judged = held === null ? null : judge(held.carried, trial, onTry !== undefined);
  const latest = useRef({ index, model, pan, onTry, onMove, held, trial });
  latest.current = { index, model, pan, onTry, onMove, held, trial };
  const told = useRef<Move | null>(null);

  // A new plan may have the run elsewhere.
  // biome-ignore lint/correctness/useExhaustiveDependencies: it is the change of plan that counts
  useEffect(() => setHeld(null), [index]);

  useEffect(() => {
    surface.current?.setCarried(held === null || judged === null ? null : shownOf(index, held.carried, judged));
  });

  const hands = useMemo(() => {
    const hold = (next: Held | null): void => {
      latest.current = { ...latest.current, held: next };
      setHeld(next);
      if (next !== null) surface.current?.inFrame(tell);
    };
    const tell = (): void => {
      const carried = latest.current.held?.carried;
      if (carried === undefined || carried.refusal !== null || sameMove(carried.move, carried.from)) return;
      if (told.current !== null && sameMove(told.current, carried.move)) return;
      told.current = carried.move;
      latest.current.onTry?.(carried.move);
    };
    const begin = (run: string, gripMin: number, pointer: Point | null): boolean => {
      const { index, model, onMove } = latest.current;
      const carried = onMove === undefined ? null : takeUp(index, run);
      if (carried === null) return false;
      if (findItem(model, { kind: 'run', run })?.kind !== 'run') {
        setBecame('Runs are moved in the rows of machines, pallets or jobs.');
        return true;
      }
      // By keys there is nothing to show of what cannot be moved; under a pointer it says why.
      setBecame(pointer === null ? (carried.refusal ?? '') : '');
      if (pointer === null && carried.refusal !== null) return true;
      told.current = null;
      hold({ carried, gripMin, pointer, hint: `Moving ${runName(index, run)}. ${carried.refusal ?? HOW}` });
      return true;
    };
    const step = (held: Held, machine: string, start: Minute): void => {
      const carried = carryTo(latest.current.index, held.carried, machine, start);
      hold({ ...held, carried, hint: '' });
      surface.current?.reveal({ start: carried.move.start, end: carried.end });
    };
    const carry = (at: Point): void => {
      const { held, index, model } = latest.current;
      const drawn = surface.current;
      if (held === null || drawn === null) return;
      const row = drawn.rowAt(at.y);
      const machine = (row === null ? null : model.rows[row]?.machine) ?? held.carried.move.machine;
      const carried = carryTo(index, held.carried, machine, drawn.minuteAt(at.x) - held.gripMin);
      hold({ ...held, carried, pointer: at, hint: '' });
      drawn.inFrame(drift);
    };
    /** While the pointer rests near an edge, what lies beyond it comes into view. */
    const drift = (): void => {
      const pointer = latest.current.held?.pointer ?? null;
      const size = surface.current?.size() ?? null;
      if (pointer === null || size === null) return;
      const [x, y] = [driftBy(pointer.x, size.width), driftBy(pointer.y, size.height)];
      if (x === 0 && y === 0) return;
      latest.current.pan(x, y);
      carry(pointer);
    };
    const end = (words: string): void => {
      hold(null);
      setBecame(words);
    };
    const letGo = (): void => {
      const { held, index } = latest.current;
      if (held !== null) end(`${runName(index, held.carried.move.run)} stays where it was.`);
    };
    const drop = (): void => {
      const { held, trial, index, onMove } = latest.current;
      if (held === null) return;
      const { carried } = held;
      const { verdict, say } = judge(carried, trial, true);
      if (verdict === 'refused') {
        // By keys it stays in the hand: the next press may bring it to a better place.
        if (held.pointer !== null) end(`Not moved. ${say.join(' ')}`);
      } else if (sameMove(carried.move, carried.from)) letGo();
      else {
        end(`${runName(index, carried.move.run)} put down: ${moveText(index, carried)}.`);
        onMove?.(carried.move);
      }
    };
    return {
      take(at: Point) {
        const run = surface.current?.runAt(at) ?? null;
        const start = run === null ? undefined : latest.current.index.runs.get(run)?.start;
        if (run === null || start === undefined) return false;
        return begin(run, (surface.current?.minuteAt(at.x) ?? start) - start, at);
      },
      takeRun: (run: string) => begin(run, 0, null),
      carry,
      drop,
      letGo,
      key(key: string, isShift: boolean) {
        const { held, index } = latest.current;
        if (held === null) return false;
        const { machine, start, run } = held.carried.move;
        const by = isShift ? SHIFT_STEP_MIN : STEP_MIN;
        const able = machinesFor(index, run);
        const other = (to: 1 | -1): string => able[able.indexOf(machine) + to] ?? machine;
        if (key === 'ArrowLeft') step(held, machine, start - by);
        else if (key === 'ArrowRight') step(held, machine, start + by);
        else if (key === 'ArrowUp') step(held, other(-1), start);
        else if (key === 'ArrowDown') step(held, other(1), start);
        else if (key === 'Enter') drop();
        else if (key === 'Escape') letGo();
        else return false;
        return true;
      },
      hush: () => setBecame(''),
    };
  }, [surface]);

  const said = held === null || judged === null ? became : held.hint || judgedText(index, held.carried, judged);
  const shown = held === null || judged === null ? null : { carried: held.carried, judged, pointer: held.pointer };
  return { ...hands, held: shown, said };
}

/** Pixels a frame, more the nearer the pointer is to the edge or the farther beyond it. */
function driftBy(at: number, length: number): number {
  const inwards = Math.min(at, length - at);
  if (inwards >= EDGE_CSS || length < 4 * EDGE_CSS) return 0;
  const speed = Math.min(MOST_DRIFT_CSS, Math.ceil((EDGE_CSS - inwards) / 3));
  return at < length / 2 ? -speed : speed;
}

function shownOf(index: PlanIndex, carried: Carried, { verdict, placed }: Judged): Shown {
  const { run } = carried.move;
  const kind = index.machines.get(carried.move.machine)?.kind ?? 'mill';
  const job = index.needs.get(run)?.job.id ?? run;
  const labels = [runName(index, run), job];
  return { carried, verdict, placed, able: machinesFor(index, run), kind, labels };
}
