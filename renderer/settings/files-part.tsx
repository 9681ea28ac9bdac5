import { type ReactNode, useRef, useState } from 'react';
import type { Api, Reply, ShopView } from '../../core/contract';
import type { Fault } from '../../core/shop';
import { Button, TwoStepButton } from '../look';
import { Section, useShop, useShopStore } from '../tables';
import { saveText } from './save-text';
import css from './settings.module.css';

interface Chosen {
  readonly name: string;
  readonly text: string;
}

interface Outcome {
  readonly done: string | null;
  readonly faults: readonly Fault[];
}

/** The shop as a file, and other shops in its place. */
export function FilesPart({ api }: { api: Api }): ReactNode {
  const store = useShopStore();
  const { name } = useShop();
  const picker = useRef<HTMLInputElement>(null);
  const [chosen, setChosen] = useState<Chosen | null>(null);
  const [outcome, setOutcome] = useState<Outcome>({ done: null, faults: [] });

  const tell = (reply: Reply<ShopView>, done: string): void =>
    setOutcome(reply.ok ? { done, faults: [] } : { done: null, faults: reply.faults });

  async function save(): Promise<void> {
    const reply = await api.call('shop.export', null);
    if (reply.ok) saveText(reply.value.fileName, reply.value.text, 'application/json');
    setOutcome(
      reply.ok ? { done: `Saved as ${reply.value.fileName}.`, faults: [] } : { done: null, faults: reply.faults },
    );
  }

  async function open({ name: file, text }: Chosen): Promise<void> {
    setChosen(null);
    tell(await store.replace('shop.import', { text }), `Opened ${file}. A dated backup of the shop before it is kept.`);
  }

  async function reset(to: 'demo' | 'empty'): Promise<void> {
    const what = to === 'demo' ? 'the demo shop' : 'an empty shop';
    tell(
      await store.replace('shop.reset', { to }),
      `Started with ${what}. A dated backup of the shop before it is kept.`,
    );
  }

  return (
    <Section
      title="Shop file"
      lead="Opening a file or starting anew replaces the whole shop; a dated backup of the present one is kept."
    >
      <div className={css.files}>
        <Button onClick={() => void save()}>Save shop file</Button>
        <span>All of the shop in one file, for another computer or for keeping.</span>

        {chosen === null ? (
          <Button onClick={() => picker.current?.click()}>Open shop file…</Button>
        ) : (
          <fieldset className={css.asking} aria-label={`Open ${chosen.name}`}>
            <Button rank="main" onClick={() => void open(chosen)}>
              Replace {name}
            </Button>
            <Button onClick={() => setChosen(null)}>Keep it</Button>
          </fieldset>
        )}
        <span>
          {chosen === null
            ? 'A shop file in place of the present shop. Asked once more before it is replaced.'
            : `${chosen.name} is ready to replace the present shop, of which a dated backup is kept.`}
        </span>
        <input
          ref={picker}
          type="file"
          accept=".json,application/json"
          hidden
          aria-label="Shop file to open"
          onChange={async (event) => {
            const file = event.target.files?.[0];
            event.target.value = '';
            setOutcome({ done: null, faults: [] });
            if (file !== undefined) setChosen({ name: file.name, text: await file.text() });
          }}
        />

        <TwoStepButton
          say="Start from the demo shop"
          ask={`Replace ${name}?`}
          yes="Replace by the demo shop"
          no="Keep it"
          onYes={() => void reset('demo')}
        />
        <span>An invented shop with a week of work to learn the program with. A dated backup of yours is kept.</span>

        <TwoStepButton
          say="Start with an empty shop"
          ask={`Replace ${name}?`}
          yes="Replace by an empty shop"
          no="Keep it"
          onYes={() => void reset('empty')}
        />
        <span>No machines, people or jobs, to enter your own. A dated backup of the present shop is kept.</span>
      </div>
      <div role="status">{outcome.done !== null && <p className={css.done}>{outcome.done}</p>}</div>
      {outcome.faults.length > 0 && (
        <div role="alert" className={css.refused}>
          <b>Not taken; the shop is as it was.</b>
          <ul>
            {outcome.faults.map((fault) => (
              <li key={`${fault.code} ${fault.at.join('/')} ${fault.say}`}>{fault.say}</li>
            ))}
          </ul>
        </div>
      )}
    </Section>
  );
}
