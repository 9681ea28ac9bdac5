import { type ReactNode, useEffect, useRef, useState } from 'react';
import type { ImportReading } from '../../../core/contract';
import type { TableName } from '../../../core/shop';
import { Button } from '../../look';
import { parseClockTime } from '../parse';
import { counted } from '../screen';
import { sentences, useShopStore } from '../store';
import type { Cells, Delimiter } from './cells-text';
import css from './import.module.css';
import { Preview } from './preview';
import type { Stage } from './use-bringing';
import { type Brought, LOOKED_FOR, type Taking, useImport } from './use-import';

interface ImportPanelProps {
  readonly table: TableName;
  /** One row and several in the shop's words. */
  readonly noun: string;
  readonly nouns: string;
  readonly stage: Exclude<Stage, { at: 'closed' }>;
  readonly onText: (text: string) => void;
  readonly onFile: (file: File) => void;
  /** `say`: what was imported, or null. */
  readonly onClose: (say: string | null) => void;
}

/** Above a table, before rows are taken into it: what they would change. Nothing is imported before it is said. */
export function ImportPanel(props: ImportPanelProps): ReactNode {
  const { stage, nouns, onClose } = props;
  return (
    <section
      className={css.panel}
      aria-label={`Import ${nouns}`}
      onKeyDown={(event) => {
        if (event.key === 'Escape') onClose(null);
      }}
    >
      {stage.at === 'waiting' ? (
        <Waiting {...props} say={stage.say} />
      ) : (
        <BroughtRows key={stage.brought.text} {...props} brought={stage.brought} />
      )}
    </section>
  );
}

function Waiting({ nouns, say, onText, onFile, onClose }: ImportPanelProps & { say: string | null }): ReactNode {
  const picker = useRef<HTMLInputElement>(null);
  const area = useRef<HTMLTextAreaElement>(null);
  const [typed, setTyped] = useState('');
  useEffect(() => area.current?.focus(), []);
  return (
    <>
      <p className={css.lead}>
        Copy rows from a spreadsheet and paste them here, or drop a CSV file on the table. A first row of column names
        helps; the rows are shown before anything is taken in.
      </p>
      {say !== null && (
        <p role="alert" className={css.wrong}>
          <b>Not taken</b> {say}
        </p>
      )}
      <textarea
        ref={area}
        className={css.area}
        aria-label={`Rows of ${nouns} to import`}
        rows={3}
        value={typed}
        spellCheck={false}
        onChange={(event) => setTyped(event.target.value)}
        onPaste={(event) => {
          event.preventDefault();
          onText(event.clipboardData.getData('text/plain'));
        }}
      />
      <div className={css.buttons}>
        {typed.trim() !== '' && (
          <Button rank="main" onClick={() => onText(typed)}>
            Read what was typed
          </Button>
        )}
        <Button onClick={() => picker.current?.click()}>Choose file…</Button>
        <Button onClick={() => onClose(null)}>Cancel</Button>
        <input
          ref={picker}
          type="file"
          accept=".csv,.tsv,.txt,text/csv,text/tab-separated-values,text/plain"
          hidden
          aria-label={`File of ${nouns} to import`}
          onChange={(event) => {
            const file = event.target.files?.[0];
            event.target.value = '';
            if (file !== undefined) onFile(file);
          }}
        />
      </div>
    </>
  );
}

function BroughtRows({ table, noun, nouns, brought, onClose }: ImportPanelProps & { brought: Brought }): ReactNode {
  const store = useShopStore();
  const [taking, setTaking] = useState<Taking>(LOOKED_FOR);
  const { cells, reading, refused } = useImport(table, brought.text, taking);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const head = useRef<HTMLHeadingElement>(null);
  useEffect(() => head.current?.focus(), []);
  const change = (part: Partial<Taking>): void => setTaking((now) => ({ ...now, ...part }));

  async function take({ puts }: ImportReading): Promise<void> {
    setBusy(true);
    const what = counted(puts.length, noun, nouns);
    const reply = await store.putMany(table, puts, `Import ${what}`);
    setBusy(false);
    if (reply.ok) onClose(`Imported ${what}.`);
    else setTrouble(sentences(reply.faults));
  }

  const good = reading?.rows.filter(({ faults }) => faults.length === 0).length ?? 0;
  const wrong = cells.wrong ?? refused ?? trouble;
  return (
    <>
      <h2 ref={head} tabIndex={-1} className={css.head}>
        {brought.file === null ? 'Pasted rows' : brought.file}
      </h2>
      <div role="status" className={css.counts}>
        {reading === null ? (
          refused === null && 'Reading the rows'
        ) : (
          <Counts reading={reading} noun={noun} nouns={nouns} />
        )}
      </div>
      {wrong !== null && (
        <p role="alert" className={css.wrong}>
          <b>Not taken</b> {wrong}
        </p>
      )}
      <TakingFields cells={cells} reading={reading} taking={taking} onChange={change} />
      {reading !== null && (
        <Preview
          cells={cells.cells}
          reading={reading}
          onColumns={(columns) => change({ columns, header: reading.header })}
        />
      )}
      <div className={css.buttons}>
        <Button
          rank="main"
          disabled={good === 0 || busy || cells.wrong !== null}
          onClick={() => reading !== null && void take(reading)}
        >
          {good === 0 ? 'No good row to import' : `Import ${counted(good, 'good row')}`}
        </Button>
        <Button onClick={() => onClose(null)}>Cancel</Button>
        <span className={css.soft}>An empty cell leaves what is there; the word none empties a list.</span>
      </div>
    </>
  );
}

/** `38 rows good, 4 bad, 5 replace rows that are there.` */
function Counts({ reading, noun, nouns }: { reading: ImportReading; noun: string; nouns: string }): ReactNode {
  if (reading.rows.length === 0) return 'No rows in it but the names of the columns. Bring rows beneath them.';
  const good = reading.rows.filter(({ faults }) => faults.length === 0);
  const bad = reading.rows.length - good.length;
  const replacing = good.filter(({ replaces }) => replaces).length;
  const isGathered = reading.puts.length !== good.length;
  return (
    <>
      <strong>{counted(good.length, 'row')} good</strong>
      {isGathered && ` (${counted(reading.puts.length, noun, nouns)})`}, <strong data-bad={bad > 0}>{bad} bad</strong>
      {replacing > 0 && `, ${replacing} replace${replacing === 1 ? 's a row that is' : ' rows that are'} there`}.
    </>
  );
}

const DELIMITERS: readonly { readonly value: Delimiter; readonly say: string }[] = [
  { value: '\t', say: 'tabs' },
  { value: ';', say: 'semicolons' },
  { value: ',', say: 'commas' },
];

interface TakingFieldsProps {
  readonly cells: Cells;
  readonly reading: ImportReading | null;
  readonly taking: Taking;
  readonly onChange: (part: Partial<Taking>) => void;
}

/** How the text is cut into rows and cells. */
function TakingFields({ cells, reading, taking, onChange }: TakingFieldsProps): ReactNode {
  return (
    <div className={css.taking}>
      <label>
        Cells parted by
        <select
          value={cells.delimiter}
          onChange={({ target }) => {
            const delimiter = DELIMITERS.find(({ value }) => value === target.value)?.value ?? null;
            onChange({ delimiter, columns: null, header: null });
          }}
        >
          {DELIMITERS.map(({ value, say }) => (
            <option key={value} value={value}>
              {say}
            </option>
          ))}
        </select>
      </label>
      <label>
        <input
          type="checkbox"
          checked={reading?.header ?? false}
          onChange={({ target }) => onChange({ header: target.checked, columns: null })}
        />
        Row 1 names the columns
      </label>
      {reading !== null && reading.timeless > 0 && (
        <TimeOfDay
          count={reading.timeless}
          value={taking.timeOfDay}
          onChange={(timeOfDay) => onChange({ timeOfDay })}
        />
      )}
    </div>
  );
}

function TimeOfDay(props: { count: number; value: string; onChange: (time: string) => void }): ReactNode {
  const { count, value, onChange } = props;
  const [typed, setTyped] = useState(value);
  const parsed = parseClockTime(typed);
  const fits = parsed.ok && parsed.value !== '24:00';
  const commit = (): void => {
    if (fits) onChange(parsed.value);
  };
  return (
    <label>
      {count === 1 ? '1 date has' : `${count} dates have`} no time of day, taken as
      <input
        className={css.time}
        aria-label="Time of day of dates without one"
        aria-invalid={!fits}
        value={typed}
        onChange={({ target }) => setTyped(target.value)}
        onBlur={commit}
        onKeyDown={(event) => {
          if (event.key === 'Enter') commit();
        }}
      />
    </label>
  );
}
