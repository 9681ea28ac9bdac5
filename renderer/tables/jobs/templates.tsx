import type { ReactNode } from 'react';
import type { Job, Template } from '../../../core/shop';
import { Button } from '../../look';
import { AddChoice, AmountField, IdField, OptionalWholeField, TextField } from '../fields';
import { type Column, EditableTable } from '../grid';
import { Section } from '../screen';
import { type Edit, keyOf, sentences, usePlanMoment, useShop, useShopStore } from '../store';
import css from './jobs.module.css';
import { jobOfFamily, templateOf } from './new-job';
import { routeText } from './route-text';

const COLUMNS: readonly Column<'templates'>[] = [
  { id: 'id', head: 'Family', width: '22%', draw: (t) => <IdField path={['id']} label="Family" value={t.id} /> },
  { id: 'name', head: 'Name', width: '22%', draw: (t) => <TextField path={['name']} label="Name" value={t.name} /> },
  {
    id: 'weight',
    head: 'Weight',
    unit: '1 is usual',
    width: 72,
    align: 'end',
    draw: (t) => <AmountField path={['weight']} label="Weight" value={t.weight} />,
  },
  {
    id: 'suspectLimit',
    head: 'Most parts',
    unit: 'between checks',
    width: 124,
    align: 'end',
    draw: (t) => (
      <OptionalWholeField
        path={['suspectLimit']}
        label="Most parts between two checks"
        value={t.suspectLimit}
        placeholder="no limit"
      />
    ),
  },
  {
    id: 'route',
    head: 'Route',
    draw: (t) => (
      <span className={css.plain} title={routeText(t.route)}>
        {routeText(t.route)}
      </span>
    ),
  },
];

/** Families of parts: what their jobs begin with. */
export function Templates(): ReactNode {
  return (
    <Section title="Templates" lead="Families of parts and the route their jobs begin with.">
      <EditableTable
        table="templates"
        noun="template"
        columns={COLUMNS}
        empty="No templates yet. Open a job and press Save route as template; a new job of that family then begins with its route."
      />
    </Section>
  );
}

/** A menu that begins a job with the route of its family; nothing where there are no families. */
export function NewOfFamily(): ReactNode {
  const shop = useShop();
  const store = useShopStore();
  const moment = usePlanMoment();

  async function begin(template: Template | undefined): Promise<void> {
    if (template === undefined) return;
    const job = jobOfFamily(shop, moment, template);
    const reply = await store.add('jobs', job);
    if (reply.ok) store.arriveAt(keyOf({ table: 'jobs', id: job.id }, ['id']));
    else store.refuse('jobs', { text: null, say: sentences(reply.faults) });
  }

  return (
    <div className={css.family}>
      <AddChoice
        say="New job of family"
        choices={shop.templates}
        onAdd={(id) => void begin(shop.templates.find((template) => template.id === id))}
        at="jobs/of-family"
      />
    </div>
  );
}

/** Keeps a job's route as a family's: as a new one, or in the place of one that is there. */
export function SaveTemplate({ job }: { job: Job }): ReactNode {
  const { templates } = useShop();
  const store = useShopStore();
  const place = { table: 'jobs', id: job.id } as const;

  async function save(): Promise<void> {
    const template = templateOf(
      job,
      templates.map(({ id }) => id),
    );
    const reply = await store.add('templates', template);
    if (reply.ok) store.arriveAt(keyOf({ table: 'templates', id: template.id }, ['id']));
    else store.refuse(keyOf(place, ['route']), { text: null, say: sentences(reply.faults) });
  }

  async function replace(id: string): Promise<void> {
    const { route, weight, suspectLimit } = job;
    const edit: Edit = {
      path: [],
      change: (record) => ({ ...(record as Template), route, weight, suspectLimit }),
      undo: `Template ${id} now has the route of ${job.id}.`,
    };
    if (await store.edit({ table: 'templates', id }, edit)) store.arriveAt(keyOf({ table: 'templates', id }, ['id']));
  }

  return (
    <>
      <Button rank="quiet" onClick={() => void save()}>
        Save route as template
      </Button>
      <span className={css.replace}>
        <AddChoice
          say="Save route in place of template"
          choices={templates}
          onAdd={(id) => void replace(id)}
          at={keyOf(place, ['template'])}
        />
      </span>
    </>
  );
}
