import type { ReactNode } from 'react';
import { WEEKDAYS } from '../../core/time';
import { ClockTimeField, type Column, DaysField, EditableTable, IdField, Section } from '../tables';

const COLUMNS: readonly Column<'shifts'>[] = [
  { id: 'id', head: 'Shift', width: '16%', draw: (shift) => <IdField path={['id']} label="Shift" value={shift.id} /> },
  { id: 'days', head: 'Days', width: 240, draw: (s) => <DaysField path={['days']} label="Days" value={s.days} /> },
  {
    id: 'from',
    head: 'From',
    width: 90,
    draw: (s) => <ClockTimeField path={['from']} label="From" value={s.from} inTable />,
  },
  { id: 'to', head: 'To', draw: (s) => <ClockTimeField path={['to']} label="To" value={s.to} inTable /> },
];

export function ShiftsPart(): ReactNode {
  return (
    <Section
      title="Names of the shifts"
      lead="What the table of shifts is cut into. Who is there when stands with the people."
    >
      <EditableTable
        table="shifts"
        noun="shift"
        columns={COLUMNS}
        fresh={(id) => ({ id, days: WEEKDAYS.slice(0, 5), from: '06:00', to: '14:00' })}
        empty="No shifts: the table of shifts shows each machine's whole plan in one."
      />
    </Section>
  );
}
