import type { MachineNight, NightOutcome, StopCause, Swap } from '../../core/night';
import type { Plan } from '../../core/shop';
import { clockText, momentText } from '../../core/time';
import { columns, section } from './layout';

const MOST_STOPS = 10;

/** What simulated nights make of a plan, for reading on a terminal: the two numbers first. */
export function nightText(plan: Plan, outcome: NightOutcome, swap: Swap | null): string {
  const { stretch } = outcome;
  if (stretch === null) return 'Somebody is always there: no night to simulate.';
  const night = `${momentText(plan.clock, stretch.start)}-${momentText(plan.clock, stretch.end)}`;
  const weakest = outcome.runs.find(({ run }) => run === outcome.weakest);
  const [wrong] = outcome.wrong;
  return [
    [
      `${outcome.loaded.toFixed(1)} h loaded, ${outcome.expected.toFixed(1)} h to expect (± ${outcome.halfWidth.toFixed(2)}), ${outcome.badNight.toFixed(1)} h or less in one night of ten`,
      `${night}, ${outcome.nights} nights, seed ${outcome.seed}`,
    ].join('\n'),
    section('Machines', columns(outcome.machines.map((machine) => machineLine(plan, machine))), 'Nothing is cut.'),
    section('First stops, the dearest first', columns(outcome.stops.slice(0, MOST_STOPS).map(stopLine)), 'None.'),
    section(
      'Weakest',
      [
        ...(weakest === undefined
          ? []
          : [`  ${weakest.run} on ${weakest.machine} comes to something in ${percent(weakest.done)} of nights`]),
        ...(wrong === undefined
          ? []
          : [
              `  ${wrong.job}: ${wrong.mean.toFixed(2)} parts wrong unnoticed on average, one night of ten more than ${wrong.p90}`,
            ]),
      ],
      'Nothing is cut.',
    ),
    section(
      'Best exchange',
      swap === null
        ? []
        : [
            `  ${swap.second} before ${swap.first} on ${swap.machine}: ${swap.gain.toFixed(2)} h more (± ${swap.halfWidth.toFixed(2)})`,
          ],
      'No exchange of two neighbours gains anything.',
    ),
  ].join('\n\n');
}

function machineLine(plan: Plan, machine: MachineNight): string[] {
  const quiet =
    machine.quietMedian === null
      ? 'cuts until morning'
      : `quiet at ${clockText(plan.clock, machine.quietMedian)} in the middle night`;
  return [
    machine.machine,
    `${machine.expected.toFixed(1)} of ${machine.loaded.toFixed(1)} h`,
    `bad night ${machine.badNight.toFixed(1)} h`,
    `still cutting ${percent(machine.stillCutting)}`,
    quiet,
  ];
}

const KINDS = { block: 'blocks', tool: 'out of', handling: 'pallet change before', shared: 'shared cause' } as const;

function stopLine({ kind, machine, run, name, chance, lost }: StopCause): string[] {
  const what =
    kind === 'tool'
      ? `${KINDS.tool} ${name} in ${run}`
      : kind === 'shared'
        ? `${KINDS.shared}: ${name}`
        : kind === 'block'
          ? `${run} ${KINDS.block}`
          : `${KINDS.handling} ${run}`;
  return [machine ?? 'several', what, `${percent(chance)} of nights`, `${lost.toFixed(2)} h lost a night`];
}

function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
