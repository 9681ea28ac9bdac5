import type { ReactNode } from 'react';
import type { RunSheet, SheetPage, SheetPaper, SheetStop } from '../../core/contract';
import { timeText } from './cells';
import { MachineTable } from './machine-table';
import css from './paper.module.css';
import { ChecksTable, OrderTable, RoundsTable } from './together-tables';

interface PaperPageProps {
  readonly sheet: RunSheet;
  readonly page: SheetPage;
  readonly paper: SheetPaper;
  /** From 1. */
  readonly number: number;
}

/** One page of the sheet; on paper it may go on to another. */
export function PaperPage({ sheet, page, paper, number }: PaperPageProps): ReactNode {
  const head = <PageHead sheet={sheet} page={page} />;
  return (
    <section className={css.paper} data-paper={paper} aria-label={`${page.title} ${page.name}`.trim()}>
      {page.rows.length === 0 && head}
      {page.rows.length > 0 &&
        (page.of === 'machine' ? <MachineTable head={head} page={page} /> : <OrderTable head={head} page={page} />)}
      {page.care.length > 0 && (
        <p className={css.line}>
          <b>Tools:</b> {page.care.map((stop) => careText(stop, page)).join('; ')}.
        </p>
      )}
      {page.stands !== null && (
        <p className={css.line}>
          <b>Stands:</b> {page.stands}
        </p>
      )}
      {page.rounds.length > 0 && <RoundsTable page={page} />}
      {page.checks.length > 0 && <ChecksTable page={page} />}
      <p className={css.number}>
        page {number} of {sheet.pages.length}
      </p>
    </section>
  );
}

function careText({ start, person, machine, say }: SheetStop, { of }: SheetPage): string {
  const what = `${say.charAt(0).toLowerCase()}${say.slice(1)}`;
  return `${timeText(start)} ${person}: ${what}${of === 'machine' ? '' : ` on ${machine}`}`;
}

/** What a page is of, which night and plan, who is there, and the caution. */
function PageHead({ sheet, page }: Pick<PaperPageProps, 'sheet' | 'page'>): ReactNode {
  return (
    <div>
      <div className={css.titles}>
        <h2>
          {page.title} <small>{page.name}</small>
        </h2>
        <div className={css.night}>
          <b>
            Night of {sheet.date}, {timeText(sheet.from)} to {timeText(sheet.to)}
          </b>
          <span data-open={!sheet.isReleased}>
            Plan {sheet.plan}, {sheet.standing}
          </span>
        </div>
      </div>
      <p className={css.line}>
        <b>In the shop:</b> {sheet.people.join(', ') || 'nobody'}.{' '}
        {sheet.aloneFrom === null
          ? 'Somebody is always there.'
          : `Nobody from ${timeText(sheet.aloneFrom)} (numbers on black).`}{' '}
        <b>First round in the morning:</b> {page.morning ?? 'none planned'}
      </p>
      <p className={css.line}>{sheet.caution}</p>
    </div>
  );
}
