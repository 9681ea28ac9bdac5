import { type ReactNode, useState } from 'react';
import type { Api, ListName } from '../../core/contract';
import { Button } from '../look';
import { Section, sentences } from '../tables';
import { saveText } from './save-text';
import css from './settings.module.css';

interface ListChoice {
  readonly list: ListName;
  readonly say: string;
}

const OF_SHOP: readonly ListChoice[] = [
  { list: 'jobs', say: 'Jobs' },
  { list: 'templates', say: 'Templates' },
  { list: 'machines', say: 'Machines' },
  { list: 'cells', say: 'Cells' },
  { list: 'pallets', say: 'Pallets' },
  { list: 'tools', say: 'Tools' },
  { list: 'people', say: 'People' },
  { list: 'shifts', say: 'Names of shifts' },
  { list: 'floor', say: 'Floor' },
];

const OF_PLAN: readonly ListChoice[] = [
  { list: 'runs', say: 'Runs' },
  { list: 'attendances', say: 'Attendances' },
  { list: 'rounds', say: 'Rounds' },
  { list: 'shift-hours', say: 'Hours by shift' },
];

/** Every list of the shop and of its latest plan, each to be saved as CSV. */
export function ListsPart({ api }: { api: Api }): ReactNode {
  const [said, setSaid] = useState<{ readonly say: string; readonly isRefused: boolean } | null>(null);

  async function save(list: ListName): Promise<void> {
    const reply = await api.call('list.export', { list });
    if (reply.ok) saveText(reply.value.fileName, reply.value.text, 'text/csv');
    setSaid(
      reply.ok
        ? { say: `Saved as ${reply.value.fileName}.`, isRefused: false }
        : { say: sentences(reply.faults), isRefused: true },
    );
  }

  const buttons = (lists: readonly ListChoice[]): ReactNode =>
    lists.map(({ list, say }) => (
      <Button key={list} onClick={() => void save(list)}>
        {say}
      </Button>
    ));

  return (
    <Section
      title="Lists as CSV"
      lead="For a spreadsheet. What is changed there comes back by Import above each table; the floor only by the shop file."
    >
      <dl className={css.list}>
        <dt>Of the shop</dt>
        <dd className={css.lists}>{buttons(OF_SHOP)}</dd>
        <dt>Of the latest plan</dt>
        <dd className={css.lists}>{buttons(OF_PLAN)}</dd>
      </dl>
      <div role="status">{said?.isRefused === false && <p className={css.done}>{said.say}</p>}</div>
      {said?.isRefused && (
        <p role="alert" className={css.refused}>
          <b>Not saved</b> {said.say}
        </p>
      )}
    </Section>
  );
}
