import { useId, useMemo, useState } from 'react';
import type { PlanView, ShiftRow } from '../../core/contract';
import { dayText } from '../../core/time';
import { type PlanStore, usePlan } from '../plan';
import { hours, share } from './columns';
import styles from './shifts-screen.module.css';
import { ShiftsTable } from './shifts-table';
import { cutOf, daysOf, nightShift, type ShiftSum, shiftTitle, sumShifts } from './sum-shifts';

const ALL = '';

/** The owner's screen: what each shift of the plan makes of its machine hours. */
export function ShiftsScreen({ planStore }: { readonly planStore: PlanStore }) {
  const status = usePlan(planStore, (state) => state.status);
  const view = usePlan(planStore, (state) => state.view);
  return (
    <main className={styles.screen} aria-label="Shifts">
      {view !== null && <Shifts view={view} />}
      {view === null && <p className={styles.empty}>{EMPTY_WORDS[status]}</p>}
    </main>
  );
}

const EMPTY_WORDS = {
  loading: 'Reading the last plan',
  failed: 'The last plan could not be read.',
  ready: 'No plan yet. Make one on the Plan screen; this table then shows what each shift makes of its hours.',
} as const;

function Shifts({ view }: { readonly view: PlanView }) {
  const { clock } = view.plan;
  const rows = useMemo(() => cuttingRows(view), [view]);
  const [chosen, setChosen] = useState(ALL);
  const days = useMemo(() => daysOf(clock, rows), [clock, rows]);
  // A day may vanish with the next plan.
  const day = days.includes(chosen) ? chosen : ALL;
  const sums = useMemo(
    () => sumShifts(rows.filter((row) => day === ALL || dayText(clock, row.start) === day)),
    [clock, rows, day],
  );
  const id = useId();
  return (
    <>
      <header className={styles.head}>
        <Headline sums={sums} />
        <span className={styles.filter}>
          <label htmlFor={id}>Shifts that begin on</label>
          <select id={id} value={day} onChange={(event) => setChosen(event.target.value)}>
            <option value={ALL}>all days of the plan</option>
            {days.map((each) => (
              <option key={each}>{each}</option>
            ))}
          </select>
        </span>
      </header>
      <ShiftsTable sums={sums} view={view} />
    </>
  );
}

/** Benches never cut: their hours would only hide what the machines make of theirs. */
function cuttingRows(view: PlanView): ShiftRow[] {
  const benches = new Set(view.shop.machines.filter((machine) => machine.kind === 'bench').map((bench) => bench.id));
  return view.report.shifts.filter((row) => !benches.has(row.machine));
}

function Headline({ sums }: { readonly sums: readonly ShiftSum[] }) {
  const night = nightShift(sums);
  const others = sums.filter((sum) => sum !== night);
  return (
    <div>
      <h1>
        {night === null
          ? 'Nothing is cut unattended'
          : `${shiftTitle(night.shift)} cuts ${hours(cutOf(night.times))} h of ${hours(night.times.window)} h`}
      </h1>
      <p>
        {night !== null && `${hours(night.times.cutUnattended)} h of it with nobody here. `}
        {others.length > 0 && 'Share of hours cut: '}
        {others.map((sum) => `${shiftTitle(sum.shift)} ${share(cutOf(sum.times), sum.times.window)}`).join(', ')}
      </p>
    </div>
  );
}
