import type { ReactNode } from 'react';
import type { Person } from '../../../core/shop';
import { hoursText } from '../../../core/time';
import { IdField, TextField, WordsField } from '../fields';
import { type Column, EditableTable, Notes } from '../grid';
import { Block, ClockSpans, DayExceptions, ShopWeek, WeeklySpans, WeekStrip, weekMinutes } from '../hours';
import { counted, TableScreen } from '../screen';
import { keyOf, useShop } from '../store';
import css from './people.module.css';

const COLUMNS: readonly Column<'people'>[] = [
  { id: 'id', head: 'Person', width: 110, draw: (p) => <IdField path={['id']} label="Person" value={p.id} /> },
  { id: 'name', head: 'Name', draw: (p) => <TextField path={['name']} label="Name" value={p.name} /> },
  {
    id: 'skills',
    head: 'Skills',
    unit: 'separated by commas',
    width: '24%',
    draw: (p) => <WordsField path={['skills']} label="Skills" value={p.skills} placeholder="none" />,
  },
  {
    id: 'week',
    head: 'Week',
    unit: 'Monday to Sunday',
    width: '32%',
    draw: (p) => (
      <div className={css.week}>
        <WeekStrip spans={p.hours} label={`Hours of ${p.id}`} />
      </div>
    ),
  },
  {
    id: 'hours',
    head: 'Hours',
    unit: 'a week',
    width: 84,
    align: 'end',
    draw: (p) => <span className={css.figure}>{hoursText(weekMinutes(p.hours))}</span>,
  },
];

function PersonHours({ person }: { person: Person }): ReactNode {
  const key = keyOf({ table: 'people', id: person.id });
  return (
    <>
      <div className={css.detail}>
        <WeeklySpans
          title="Weekly hours"
          path={['hours']}
          spans={person.hours}
          none="None: never here, except on the dates given."
          withExtra
        />
        <Block title="Breaks, every day">
          <ClockSpans
            path={['breaks']}
            spans={person.breaks}
            noun="break"
            none="None"
            usual={{ from: '12:00', to: '12:30' }}
          />
        </Block>
        <DayExceptions path={['exceptions']} exceptions={person.exceptions} />
      </div>
      {DETAIL_FIELDS.map((field) => (
        <Notes key={field} of={`${key}/${field}`} />
      ))}
    </>
  );
}

const DETAIL_FIELDS = ['hours', 'breaks', 'exceptions'];

const USUAL_HOURS: Person['hours'] = [
  { days: ['mon', 'tue', 'wed', 'thu', 'fri'], from: '06:00', to: '14:00', extra: false },
];

export function PeopleScreen(): ReactNode {
  const { people } = useShop();
  return (
    <TableScreen title="People" lead={counted(people.length, 'person', 'people')}>
      <ShopWeek spans={people.flatMap((person) => person.hours)} />
      <EditableTable
        table="people"
        noun="person"
        nouns="people"
        columns={COLUMNS}
        detail={(person) => <PersonHours person={person} />}
        detailFields={DETAIL_FIELDS}
        fresh={(id) => ({ id, hours: USUAL_HOURS })}
        empty="Nobody yet, so nothing can be loaded. Type the first person's short name below; the hours start as Monday to Friday, 06:00 to 14:00."
      />
    </TableScreen>
  );
}
