import { existsSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { parseArgs } from 'node:util';
import { record, type Setting, settingOf } from '../history';
import { nightShop } from '../night-generator';
import { type Column, figure, heading, line } from '../table';
import { LONG_MS, middle } from './figures';
import { measureMoving } from './moving';
import { measureSolving } from './solving';
import { Theatre } from './stage';
import { measureEdit, measureFirstPlan, measureMove, measureStart } from './waiting';
import type { Watched } from './watch';

/** A figure of the screens, milliseconds. */
interface Measured {
  readonly what: string;
  readonly ms: number;
  /** What it should not exceed; null: none. */
  readonly target: number | null;
  /** Of how many it is the middle. */
  readonly times: number;
  /** All that it is the middle of, or what else was seen. */
  readonly note: string;
}

const FRAME_MS = 16.8;
const USUAL_MS = 2000;
const LARGE = { machines: 16, runs: 400 };
/** The plan from which people start, move and edit. */
const PLAN_SECONDS = 5;

const COLUMNS: readonly Column[] = [
  { title: 'what', width: 44, align: 'left' },
  { title: 'ms', width: 8, align: 'right' },
  { title: 'target', width: 6, align: 'right' },
  { title: 'seen', width: 80, align: 'left' },
];

/** Measures the screens and prints what it found; the exit code. */
export async function benchScreen(args: readonly string[]): Promise<number> {
  const { json, isRecorded } = readOptions(args);
  if (json !== null && !existsSync(dirname(json))) {
    console.error(`There is no folder for ${json}; make it, or name another file.`);
    return 2;
  }
  const theatre = await Theatre.open();
  try {
    console.log(heading(COLUMNS));
    const all: Measured[] = [];
    for await (const measured of measurements(theatre)) {
      all.push(measured);
      const { what, ms, target, note } = measured;
      console.log(line(COLUMNS, [what, figure(ms, 1), target === null ? '-' : String(target), note]));
    }
    const setting = settingOf(new Date());
    if (json !== null) writeFileSync(json, `${JSON.stringify({ ...setting, measured: all }, null, 2)}\n`);
    if (isRecorded) record(all.map((measured) => historyRow(setting, measured)).join(''));
    return 0;
  } finally {
    await theatre.close();
  }
}

function readOptions(args: readonly string[]): { json: string | null; isRecorded: boolean } {
  const options = { json: { type: 'string' }, record: { type: 'boolean' } } as const;
  const { values } = parseArgs({ args: [...args], options });
  return { json: values.json ?? null, isRecorded: values.record === true };
}

async function* measurements(theatre: Theatre): AsyncGenerator<Measured> {
  const { folder } = await theatre.planned(null, PLAN_SECONDS);
  yield waited('start to the plan on the screen', await measureStart(theatre, folder), USUAL_MS);
  const first = await measureFirstPlan(theatre);
  yield waited('Plan pressed to a plan told of', first.told, null);
  yield waited('Plan pressed to the first bars', first.bars, null);
  yield waited('run moved by keys to the plan around it', await measureMove(theatre, folder), USUAL_MS);
  yield waited('due time edited to the plan around it, 1 s', await measureEdit(theatre, folder), USUAL_MS);
  yield solved('longest task while planning, demo', await measureSolving(theatre, null));
  yield solved('longest task while planning, 16/400', await measureSolving(theatre, nightShop(LARGE, 1)));
  const { runs, panning, hovering } = await measureMoving(theatre);
  yield drawn(`frame, wheel over ${runs} runs`, panning);
  yield drawn(`frame, mouse over ${runs} runs`, hovering);
}

function waited(what: string, times: readonly number[], target: number | null): Measured {
  return {
    what,
    ms: middle(times),
    target,
    times: times.length,
    note: `of ${times.map((ms) => ms.toFixed(0)).join(', ')}`,
  };
}

function solved(what: string, { longTasks, frames }: Watched): Measured {
  const note = `${longTasks.length} tasks over ${LONG_MS} ms; longest frame ${frames.longest.toFixed(0)} ms`;
  return { what, ms: Math.max(0, ...longTasks), target: LONG_MS, times: 1, note };
}

function drawn(what: string, { frames, script, task }: Watched): Measured {
  const { count, most, late, stalled } = frames;
  const seen = [
    `95 % within ${most.toFixed(1)}`,
    `of ${count} ${late} late, ${stalled} over ${LONG_MS}`,
    `scripts ${script.toFixed(1)}, all ${task.toFixed(1)} a frame`,
  ];
  return { what, ms: frames.middle, target: FRAME_MS, times: frames.count, note: seen.join('; ') };
}

function historyRow({ date, commit, machine }: Setting, { what, ms, target, times }: Measured): string {
  const isReached = target === null ? '-' : ms <= target ? 1 : 0;
  return `| ${[date, commit, machine, 'screen', what, times, '-', '-', 1, figure(ms, 3), isReached].join(' | ')} |\n`;
}
