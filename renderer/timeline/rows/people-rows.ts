import { grouped, type PlanIndex, personName } from '../plan-index';
import { type Row, rowOf } from './row';
import { attendancesOf, caresOf } from './run-item';

/** The people as they stand beneath the machines: when they are here, with their attendances as signs. */
export function slimPeopleRows(index: PlanIndex): Row[] {
  const { plan, report } = index.view;
  const attended = grouped([...attendancesOf(plan.runs), ...caresOf(plan.care)], ({ person }) => person);
  return report.people.map(({ person, present, breaks }, i) =>
    rowOf({
      key: `person ${person}`,
      size: 'slim',
      heading: i === 0 ? 'People' : null,
      head: { name: personName(index, person), aside: '', below: '', bad: null, kind: null },
      present,
      breaks,
      marks: (attended.get(person) ?? []).map(({ mark }) => mark),
    }),
  );
}
