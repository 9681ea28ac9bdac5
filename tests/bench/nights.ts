import { isWanted, type Request } from './arguments';
import { NIGHT_SIZES, type NightSize, nightShop } from './night-generator';
import { BadRequest } from './refusal';
import type { Print, Report } from './report';
import { measure, millisecondsToStop, type Run } from './run';
import { distance, growthExponent, mean, secondsToWithin } from './statistics';
import { type Column, figure, heading, line } from './table';

const COLUMNS: readonly Column[] = [
  { title: 'size', width: 7, align: 'left' },
  { title: 'cost', width: 8, align: 'right' },
  { title: '% above', width: 7, align: 'right' },
  { title: 'night h', width: 7, align: 'right' },
  { title: '% below', width: 7, align: 'right' },
  { title: 'to first', width: 8, align: 'right' },
  { title: 'to 1 %', width: 6, align: 'right' },
  { title: 'in all', width: 6, align: 'right' },
  { title: 'steps/s', width: 7, align: 'right' },
  { title: 'MB', width: 4, align: 'right' },
  { title: 'left', width: 4, align: 'right' },
  { title: 'stop ms', width: 7, align: 'right' },
];

/** Of its last cost, where a plan counts as good as finished. */
const NEARLY = 0.01;

interface Row {
  readonly size: string;
  readonly runs: number;
  readonly cost: number;
  readonly bound: number | null;
  /** Of the cost above its bound, percent of the bound. */
  readonly distance: number | null;
  readonly tonight: number;
  readonly tonightBound: number | null;
  /** Of tonight's hours below their bound, percent of the bound. */
  readonly tonightDistance: number | null;
  readonly secondsToFirst: number;
  readonly secondsToNearly: number | null;
  readonly seconds: number;
  readonly stepsPerSecond: number | null;
  readonly memory: number;
  /** Runs that found no room before the horizon. */
  readonly left: number;
  /** From a stop to the plan, milliseconds; null where the search ended before it. */
  readonly stopMilliseconds: number | null;
  readonly ending: string;
}

/** Plans generated nights of growing size. */
export async function benchNights(request: Request, print: Print): Promise<Report> {
  const sizes = NIGHT_SIZES.filter((size) => isWanted(request.only, labelOf(size)));
  if (sizes.length === 0) {
    throw new BadRequest(`No night has such a size; there are ${NIGHT_SIZES.map(labelOf).join(', ')}.`);
  }
  print(
    `nights: ${sizes.length} sizes (machines/runs), ${request.seconds} s each, ${request.workers} workers, seed ${request.seed}\n`,
  );
  print(heading(COLUMNS));
  const rows: Row[] = [];
  const failures: string[] = [];
  for (const size of sizes) {
    const shop = nightShop(size, request.seed);
    const { seconds, seed, workers } = request;
    const run = await measure(shop, seconds, seed, workers);
    if (run.breaches.length > 0) {
      print(`${labelOf(size)}  not counted`);
      for (const say of run.breaches) print(`  ! ${say}`);
      failures.push(...run.breaches.map((say) => `${labelOf(size)}: ${say}`));
      continue;
    }
    const row = rowOf(size, run, await millisecondsToStop(shop, seconds, seed, workers));
    rows.push(row);
    print(lineOf(row));
  }
  print('\n% above: cost over its bound. night h: hours cut tonight. % below: under their bound.');
  print('Seconds to the first plan, to 1 % of the last cost, in all. stop ms: from a stop to the plan.');
  print('MB: memory of the whole process, which plans the sizes one after the other.');
  for (const say of growthOf(rows)) print(say);
  const distances = rows.flatMap((row) => row.distance ?? []);
  const reached = rows.filter(({ ending }) => ending === 'proved').length;
  return {
    rows: rows.map((row) => ({ ...row })),
    sets: [{ set: 'nights', instances: rows.length, distance: mean(distances), reached }],
    failures,
  };
}

/** How times grow with the number of runs, where at least two sizes tell. */
export function growthOf(rows: readonly Pick<Row, 'size' | 'runs' | 'secondsToFirst' | 'stepsPerSecond'>[]): string[] {
  const stepping = rows.flatMap(({ runs, stepsPerSecond }) =>
    stepsPerSecond === null ? [] : { x: runs, y: 1 / stepsPerSecond },
  );
  const first = growthExponent(rows.map(({ runs, secondsToFirst }) => ({ x: runs, y: secondsToFirst })));
  const step = growthExponent(stepping);
  const still = rows.flatMap(({ size, stepsPerSecond }) => (stepsPerSecond === null ? size : []));
  return [
    ...(first === null ? [] : [`Time to the first plan grows as runs to the power ${first.toFixed(2)}.`]),
    ...(step === null ? [] : [`Time per step grows as runs to the power ${step.toFixed(2)}.`]),
    ...(still.length === 0 ? [] : [`No step was made at ${still.join(', ')}: it is not in the growth per step.`]),
  ];
}

function labelOf({ machines, runs }: NightSize): string {
  return `${machines}/${runs}`;
}

function rowOf(
  size: NightSize,
  { plan, moments, firstSeconds, searchFrom, seconds, memory }: Run,
  stopMilliseconds: number | null,
): Row {
  const { cost, bound, search } = plan;
  const searching = seconds - searchFrom;
  const under = bound === null ? null : distance(cost.tonight, bound.tonight);
  return {
    size: labelOf(size),
    runs: size.runs,
    cost: cost.total,
    bound: bound?.total ?? null,
    distance: bound === null ? null : distance(cost.total, bound.total),
    tonight: cost.tonight,
    tonightBound: bound?.tonight ?? null,
    tonightDistance: under === null ? null : -under,
    secondsToFirst: firstSeconds,
    secondsToNearly: secondsToWithin(moments, NEARLY),
    seconds,
    stepsPerSecond: search.steps > 0 && searching > 0 ? search.steps / searching : null,
    memory,
    left: plan.left.length,
    stopMilliseconds,
    ending: search.ending,
  };
}

function lineOf(row: Row): string {
  return line(COLUMNS, [
    row.size,
    figure(row.cost, 2),
    figure(row.distance, 2),
    figure(row.tonight, 2),
    figure(row.tonightDistance, 2),
    figure(row.secondsToFirst, 2),
    figure(row.secondsToNearly, 2),
    figure(row.seconds, 1),
    figure(row.stepsPerSecond, 0),
    figure(row.memory, 0),
    String(row.left),
    figure(row.stopMilliseconds, 0),
  ]);
}
