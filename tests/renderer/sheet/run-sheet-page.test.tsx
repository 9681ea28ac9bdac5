import { cleanup, render, screen, within } from '@testing-library/react';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it, vi } from 'vitest';
import type { PlanView, Reply, Returned } from '../../../core/contract';
import { RunSheetPage } from '../../../renderer/sheet';
import { FakeApi } from '../support/fake-api';
import { sheetOfFixture } from '../support/run-sheet';

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
  vi.unstubAllGlobals();
});

const refused = (say: string): Reply<never> => ({ ok: false, faults: [{ code: 'x', at: [], say, level: 'error' }] });

async function open(given: { changes?: Partial<PlanView>; pdf?: Reply<Returned<'sheet.pdf'>>; lost?: boolean } = {}) {
  const onClose = vi.fn();
  const api = new FakeApi({
    'sheet.read': () =>
      given.lost
        ? refused('There is no plan 1; choose one of the list.')
        : { ok: true, value: sheetOfFixture(given.changes) },
    'sheet.pdf': () =>
      given.pdf ?? { ok: true, value: { fileName: 'a-run-sheet-plan-1.pdf', base64: btoa('%PDF-1.3') } },
  });
  render(<RunSheetPage api={api} id={1} onClose={onClose} />);
  await vi.waitFor(() => expect(screen.getByRole('main').getAttribute('aria-busy')).toBe('false'));
  return { api, onClose, user: userEvent.setup() };
}

const page = (name: string) => within(screen.getByRole('region', { name }));
const cells = (name: string, table = 0): (string | null)[][] =>
  within(page(name).getAllByRole('table')[table]!)
    .getAllByRole('row')
    .slice(2)
    .map((row) =>
      within(row)
        .getAllByRole('cell')
        .map((cell) => cell.textContent),
    );

describe('the run sheet on the screen', () => {
  it('has a page for each machine and one for the shop, each with its number', async () => {
    await open();
    const pages = screen.getAllByRole('region').map((one) => one.getAttribute('aria-label'));
    expect(pages).toEqual([
      'M1 Horizontal mill',
      'M2 Five-axis mill',
      'G1 Profile grinder',
      'C1 Mill-grind centre',
      'B1 Fitting bench',
      'Test shop',
    ]);
    expect(page('Test shop').getByText('page 6 of 6')).toBeDefined();
  });

  it('has in each row, in order, what is next: place, pallet, times, job, program, and a cell to write in', async () => {
    await open();
    expect(cells('M1 Horizontal mill').map((row) => row.slice(0, 4))).toEqual([
      ['now', 'P-014 parts', '12:00to 15:00', 'J-104 op 10Cavity insert'],
      ['1', 'P-024 parts', '15:00to 18:40', 'J-104 op 10Cavity insert'],
      ['2', 'P-032 parts', '18:40to 23:00', 'J-112 op 10Runner insert'],
      ['3', 'P-042 parts', '23:00to Thu 03:00', 'J-112 op 10Runner insert'],
      ['4', 'P-052 parts', 'Thu 03:00to Thu 07:00', 'J-112 op 10Runner insert'],
    ]);
    expect(cells('M1 Horizontal mill').map((row) => row.at(-1))).toEqual(['', '', '', '', '']);
  });

  it('marks the places of what runs with nobody there', async () => {
    await open();
    const rows = within(page('M1 Horizontal mill').getByRole('table')).getAllByRole('row').slice(2);
    const alone = rows.map((row) => within(row).getAllByRole('cell')[0]!.dataset.alone);
    expect(alone).toEqual(['false', 'false', 'true', 'true', 'true']);
  });

  it('says on every page which night and plan it is of, who is there, and the caution', async () => {
    await open();
    for (const region of screen.getAllByRole('region')) {
      expect(region.textContent).toContain('Night of Wed 25 Nov, 13:30 to Thu 06:00');
      expect(region.textContent).toContain(
        'Anna until 14:30, Ben 14:00 to 22:30. Nobody from 22:30 (numbers on black).',
      );
      expect(region.textContent).toContain('This plan is no approval to run unattended.');
    }
    expect(page('M2 Five-axis mill').getByText('Plan 1, not released').dataset.open).toBe('true');
  });

  it('has on the page of the shop the rounds with their latest times, and what to see to before going home', async () => {
    await open();
    expect(cells('Test shop', 1)[0]).toEqual(['13:40', '14:45', 'Anna', 'M1', 'Load P-02, J-104 op 10', '']);
    expect(cells('Test shop', 2)).toEqual([
      ['First piece of J-112/10/1 checked on M1', '19:30', '', ''],
      ['Filter clean', '', '', ''],
    ]);
  });

  it('says on the page of a machine without a run why it stands', async () => {
    await open();
    expect(page('B1 Fitting bench').queryByRole('table')).toBeNull();
    expect(page('B1 Fitting bench').getByText(/waits for Anna/).textContent).toMatch(/^Stands: J-101/);
  });

  it('asks for a release before the sheet goes to the machines, and no more once it is released', async () => {
    await open();
    expect(screen.getByText(/Release it on Tonight/)).toBeDefined();
    cleanup();
    await open({ changes: { released: { at: '2026-11-25T13:40', checked: [] } } });
    expect(screen.queryByText(/Release it on Tonight/)).toBeNull();
    expect(screen.getByText('Plan 1, released Wed 25 Nov 13:40.')).toBeDefined();
  });

  it('prints what is seen', async () => {
    const print = vi.fn();
    vi.stubGlobal('print', print);
    const { user } = await open();
    await user.click(screen.getByRole('button', { name: 'Print' }));
    expect(print).toHaveBeenCalledOnce();
  });

  it('keeps a PDF for the paper chosen, under the name the services give it', async () => {
    const saved: [string, string][] = [];
    vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (this: HTMLAnchorElement) {
      saved.push([this.download, this.href]);
    });
    const { api, user } = await open();
    await user.selectOptions(screen.getByLabelText('Paper'), 'US Letter');
    await user.click(screen.getByRole('button', { name: 'Save PDF' }));
    expect(api.asked.at(-1)).toEqual({ name: 'sheet.pdf', sent: { id: 1, paper: 'Letter' } });
    await vi.waitFor(() => expect(saved).toEqual([['a-run-sheet-plan-1.pdf', expect.stringMatching(/^blob:/)]]));
  });

  it('says why there is no sheet, and why no PDF, and keeps the way back', async () => {
    const { onClose, user } = await open({ lost: true });
    expect(screen.getByRole('alert').textContent).toBe('There is no plan 1; choose one of the list.');
    await user.click(screen.getByRole('button', { name: 'Back' }));
    expect(onClose).toHaveBeenCalledOnce();
    cleanup();
    const { user: other } = await open({ pdf: refused('The disk is full.') });
    await other.click(screen.getByRole('button', { name: 'Save PDF' }));
    expect((await screen.findByRole('alert')).textContent).toBe('The disk is full.');
    expect(screen.getAllByRole('region')).toHaveLength(6);
  });
});
