import { grouped, jobOf, type PlanIndex, personName } from '../plan-index';
import { type HandItem, type Mark, type Row, rowOf } from './row';
import { type Attended, attendancesOf, caresOf } from './run-item';

/** The people as they stand beneath the machines: when they are here, with their attendances as signs. */
export function slimPeopleRows(index: PlanIndex): Row[] {
  return peopleWith(index).map(({ attended, ...person }, i) =>
    rowOf({
      ...person,
      size: 'slim',
      heading: i === 0 ? 'People' : null,
      marks: attended.map(({ mark }) => mark),
    }),
  );
}

/** Each person with the attendances as bars that say what is to be done. */
export function peopleRows(index: PlanIndex): Row[] {
  return peopleWith(index).map(({ attended, ...person }) =>
    rowOf({ ...person, lanes: HAND_LANES, items: handItems(index, attended) }),
  );
}

function peopleWith(index: PlanIndex) {
  const { report } = index.view;
  const attended = grouped(allAttended(index), ({ person }) => person);
  return report.people.map(({ person, present, breaks }) => ({
    key: `person ${person}`,
    head: { name: personName(index, person), aside: '', below: '', bad: null, kind: null },
    present,
    breaks,
    attended: attended.get(person) ?? [],
  }));
}

/** Every attendance of the plan, in order of start. */
export function allAttended(index: PlanIndex): Attended[] {
  const { plan } = index.view;
  return [...attendancesOf(plan.runs), ...caresOf(plan.care)].sort((a, b) => a.mark.start - b.mark.start);
}

/** As many attendances as are often done in one round. */
const HAND_LANES = 6;
const PAUSE_MIN = 90;

const ROLES = { load: 'Load', check: 'Check', work: 'Work on', unload: 'Unload' } as const;

/** An attendance in words, the longest first: `Load P-07, J-104 on M1`. */
export function handWords(index: PlanIndex, { role, selection }: Mark): string[] {
  if (role === 'care' || selection.kind !== 'run') {
    return selection.kind === 'run' ? [] : [`Tools of ${selection.machine}`, 'Tools'];
  }
  const run = index.runs.get(selection.run);
  const job = jobOf(selection.run);
  const head = ROLES[role];
  const what = run?.pallet ?? job;
  const where = run === undefined ? '' : ` on ${run.machine}`;
  return [what === job ? `${head} ${job}${where}` : `${head} ${what}, ${job}${where}`, `${head} ${what}`, what, head];
}

/**
 * Back to back attendances go down like stairs, each in the lane beneath the one before, so that there is room for words
 * beside it; after a pause they begin on top again.
 */
function handItems(index: PlanIndex, attended: readonly Attended[]): HandItem[] {
  let lane = -1;
  const lanes = attended.map(({ mark }, i) => {
    const before = attended[i - 1]?.mark;
    lane = before === undefined || mark.start - before.end > PAUSE_MIN ? 0 : (lane + 1) % HAND_LANES;
    return lane;
  });
  return attended.map(({ mark }, i) => {
    const next = attended.find((_, j) => j > i && lanes[j] === lanes[i]);
    const free = next?.mark.start ?? Number.POSITIVE_INFINITY;
    return { kind: 'hand', ...mark, lane: lanes[i]!, free, labels: handWords(index, mark) };
  });
}
