import { type ReactNode, useEffect, useState } from 'react';
import type { Api, RunSheet, SheetPaper } from '../../core/contract';
import type { Fault } from '../../core/shop';
import { Button } from '../look';
import { PaperPage } from './paper-page';
import css from './run-sheet-page.module.css';
import { savePdf } from './save-pdf';

interface RunSheetPageProps {
  readonly api: Api;
  /** Of the plan. */
  readonly id: number;
  readonly onClose: () => void;
}

/** What hangs at the machines tonight, as it will come out of the printer; to print, or to keep as a PDF. */
export function RunSheetPage({ api, id, onClose }: RunSheetPageProps): ReactNode {
  const [sheet, setSheet] = useState<RunSheet | null>(null);
  const [faults, setFaults] = useState<readonly Fault[]>([]);
  const [paper, setPaper] = useState<SheetPaper>('A4');
  useEffect(() => {
    let isOpen = true;
    setSheet(null);
    setFaults([]);
    void api.call('sheet.read', { id }).then((reply) => {
      if (!isOpen) return;
      if (reply.ok) setSheet(reply.value);
      else setFaults(reply.faults);
    });
    return () => {
      isOpen = false;
    };
  }, [api, id]);
  return (
    <main className={css.screen} aria-label="Run sheet" aria-busy={sheet === null && faults.length === 0}>
      <header className={css.bar}>
        <Button onClick={onClose}>Back</Button>
        <h1>Run sheet</h1>
        {sheet !== null && (
          <Ways api={api} id={id} sheet={sheet} paper={paper} onPaper={setPaper} onFaults={setFaults} />
        )}
      </header>
      {faults.map((fault) => (
        <p key={fault.say} className={css.fault} role="alert">
          {fault.say}
        </p>
      ))}
      {sheet?.pages.map((page, at) => (
        <PaperPage key={`${page.of} ${page.title}`} sheet={sheet} page={page} paper={paper} number={at + 1} />
      ))}
    </main>
  );
}

interface WaysProps {
  readonly api: Api;
  readonly id: number;
  readonly sheet: RunSheet;
  readonly paper: SheetPaper;
  readonly onPaper: (paper: SheetPaper) => void;
  readonly onFaults: (faults: readonly Fault[]) => void;
}

/** The ways onto paper. */
function Ways({ api, id, sheet, paper, onPaper, onFaults }: WaysProps): ReactNode {
  const [isSaving, setSaving] = useState(false);

  async function save(): Promise<void> {
    setSaving(true);
    const reply = await api.call('sheet.pdf', { id, paper });
    setSaving(false);
    onFaults(reply.ok ? [] : reply.faults);
    if (reply.ok) savePdf(reply.value.fileName, reply.value.base64);
  }

  return (
    <>
      <p className={css.note}>
        {`Plan ${sheet.plan}, ${sheet.standing}. `}
        {!sheet.isReleased && 'Release it on Tonight before the sheet goes to the machines.'}
      </p>
      <label className={css.paper}>
        Paper
        <select value={paper} onChange={(event) => onPaper(event.target.value === 'Letter' ? 'Letter' : 'A4')}>
          <option>A4</option>
          <option value="Letter">US Letter</option>
        </select>
      </label>
      <Button disabled={isSaving} onClick={() => void save()}>
        Save PDF
      </Button>
      <Button rank="main" onClick={() => window.print()}>
        Print
      </Button>
    </>
  );
}
