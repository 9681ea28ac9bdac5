import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { JobsScreen, MachinesScreen, PalletsScreen, PeopleScreen } from '../../../renderer/tables';
import { openTable } from './open-table';

afterEach(cleanup);

function paste(text: string, onto: Element): boolean {
  // false: somebody took it.
  return fireEvent.paste(onto, { clipboardData: { getData: () => text } });
}

const field = (label: string): HTMLElement => screen.getAllByLabelText(label)[0] as HTMLElement;

const PALLETS = 'pallet\tfixture\tfits\nP1\tCHUCK\t\nP7\tVISE\tM1; M2\nP8\t\t\n';

describe('rows pasted onto a table', () => {
  it('are shown with what is good and bad before anything is imported', async () => {
    const { services } = await openTable(<PalletsScreen />);
    const before = services.shop;
    expect(paste(PALLETS, field('Fixture'))).toBe(false);
    const panel = within(await screen.findByRole('region', { name: 'Import pallets' }));
    expect((await panel.findByText('2 rows good')).parentElement?.textContent).toBe(
      '2 rows good, 1 bad, 1 replaces a row that is there.',
    );
    expect(panel.getByText(/Row 4, fixture: is empty/)).toBeTruthy();
    expect(services.shop).toBe(before);
    expect(services.calls.map(({ name }) => name)).not.toContain('shop.putMany');
  });

  it('are imported as one change that has a name, and an existing row keeps what the sheet does not say', async () => {
    const { services, user } = await openTable(<PalletsScreen />);
    paste(PALLETS, field('Fixture'));
    await user.click(await screen.findByRole('button', { name: 'Import 2 good rows' }));
    const puts = services.calls.filter(({ name }) => name === 'shop.putMany');
    expect(puts).toHaveLength(1);
    expect(puts[0]?.sent).toMatchObject({ table: 'pallets', say: 'Import 2 pallets' });
    expect(services.shop.pallets.map(({ id, fixture, machines }) => [id, fixture, machines])).toEqual([
      ['P1', 'CHUCK', []],
      ['P2', 'VISE', ['M1']],
      ['P7', 'VISE', ['M1', 'M2']],
    ]);
    expect(screen.getByText('Imported 2 pallets.')).toBeTruthy();
    expect(document.activeElement).toBe(screen.getByRole('button', { name: 'Import pallets' }));
  });

  it('are left alone on Escape', async () => {
    const { services, user } = await openTable(<PalletsScreen />);
    const before = services.shop;
    paste(PALLETS, field('Fixture'));
    await screen.findByRole('button', { name: 'Import 2 good rows' });
    await user.keyboard('{Escape}');
    expect(screen.queryByRole('region', { name: 'Import pallets' })).toBeNull();
    expect(services.shop).toBe(before);
  });

  it('are a block only with a tab or a line break: one text goes into its field', async () => {
    await openTable(<PalletsScreen />);
    expect(paste('VISE\r\n', field('Fixture'))).toBe(true);
    expect(screen.queryByRole('region', { name: 'Import pallets' })).toBeNull();
  });

  it('with the focus nowhere belong to the first table of the screen', async () => {
    await openTable(<MachinesScreen />);
    paste('machine\tkind\nM7\tmill', document.body);
    expect(await screen.findByRole('region', { name: 'Import machines' })).toBeTruthy();
    expect(screen.queryByRole('region', { name: 'Import cells' })).toBeNull();
  });

  it('are read anew when a column is taken as another, and no field comes twice', async () => {
    const { services, user } = await openTable(<PalletsScreen />);
    paste('P7\tVISE\nP8\tCHUCK', field('Fixture'));
    expect(await screen.findByText(/No column is taken as Fixture, which new rows need\./)).toBeTruthy();
    await user.selectOptions(screen.getByLabelText('Column 2 is'), 'Fixture');
    await user.click(await screen.findByRole('button', { name: 'Import 2 good rows' }));
    expect(services.shop.pallets.slice(2).map(({ id, fixture }) => [id, fixture])).toEqual([
      ['P7', 'VISE'],
      ['P8', 'CHUCK'],
    ]);
  });

  it('keep their columns where one is left out', async () => {
    const { user } = await openTable(<PalletsScreen />);
    paste('pallet\tfixture\tname\nP7\tVISE\tLarge', field('Fixture'));
    await user.selectOptions(await screen.findByLabelText('Column 3, name, is'), 'left out');
    const chosen = screen.getAllByLabelText(/^Column \d/).map((select) => (select as HTMLSelectElement).value);
    expect(chosen).toEqual(['id', 'fixture', '']);
  });

  it('of one job gather into its route', async () => {
    const { services, user } = await openTable(<JobsScreen />);
    const text = 'job\tdue\top\tmachine\tcycle\nJ-9\t27.11.2026\t10\tM1\t1:45\nJ-9\t\t20\tM2\t30';
    paste(text, field('Customer'));
    expect((await screen.findByText('2 rows good')).parentElement?.textContent).toContain('(1 job)');
    await user.clear(screen.getByLabelText('Time of day of dates without one'));
    await user.type(screen.getByLabelText('Time of day of dates without one'), '12:30{Enter}');
    await user.click(await screen.findByRole('button', { name: 'Import 2 good rows' }));
    const job = services.shop.jobs.at(-1);
    expect(job).toMatchObject({ id: 'J-9', due: '2026-11-27T12:30' });
    expect(job?.route.map(({ id, machines }) => [id, machines[0]?.cycle])).toEqual([
      ['10', 105],
      ['20', 30],
    ]);
  });

  it('stay shown with the reason where the services refuse them', async () => {
    const { services, user } = await openTable(<PeopleScreen />);
    paste('person\tskills\nBo\tmilling', field('Skills'));
    const button = await screen.findByRole('button', { name: 'Import 1 good row' });
    services.refuseNext('shop.putMany', 'The store is full.');
    await user.click(button);
    expect(screen.getByRole('alert').textContent).toContain('The store is full.');
    expect(screen.getByRole('region', { name: 'Import people' })).toBeTruthy();
  });
});

describe('a file for a table', () => {
  async function choose(file: File) {
    const all = await openTable(<PalletsScreen />);
    await all.user.click(screen.getByRole('button', { name: 'Import pallets' }));
    await all.user.upload(screen.getByLabelText('File of pallets to import'), file);
    return all;
  }

  it('is shown like pasted rows, and may be cut otherwise', async () => {
    const { user } = await choose(new File(['pallet,fixture\nP7,VISE;4'], 'pallets.csv', { type: 'text/csv' }));
    expect(await screen.findByRole('heading', { name: 'pallets.csv' })).toBeTruthy();
    expect(await screen.findByRole('button', { name: 'Import 1 good row' })).toBeTruthy();
    await user.selectOptions(screen.getByLabelText('Cells parted by'), 'semicolons');
    expect(await screen.findByText('pallet,fixture')).toBeTruthy();
  });

  it('that cannot be read is refused by its name, and another may be chosen', async () => {
    const { user } = await choose(new File([new Uint8Array([0x4d, 0xfc, 0x2c])], 'old.csv', { type: 'text/csv' }));
    expect((await screen.findByRole('alert')).textContent).toContain('old.csv is not written in UTF-8');
    await user.upload(
      screen.getByLabelText('File of pallets to import'),
      new File(['pallet,fixture\nP7,V'], 'new.csv'),
    );
    expect(await screen.findByRole('heading', { name: 'new.csv' })).toBeTruthy();
  });

  it('may be dropped on the table', async () => {
    await openTable(<PalletsScreen />);
    const file = new File(['pallet,fixture\nP7,VISE'], 'dropped.csv');
    fireEvent.drop(field('Fixture'), { dataTransfer: { files: [file], types: ['Files'] } });
    expect(await screen.findByRole('heading', { name: 'dropped.csv' })).toBeTruthy();
  });
});

describe('a large sheet', () => {
  it('shows its first 50 rows and every bad one', async () => {
    await openTable(<PalletsScreen />);
    const rows = Array.from({ length: 2000 }, (_, at) => `Q${at}\t${at % 400 === 399 ? '' : 'VISE'}`);
    paste(['pallet\tfixture', ...rows].join('\n'), field('Fixture'));
    const preview = within(await screen.findByRole('region', { name: 'Rows to import' }));
    expect(preview.getAllByRole('rowheader').map((head) => Number(head.textContent))).toEqual([
      ...Array.from({ length: 50 }, (_, at) => at + 2),
      401,
      801,
      1201,
      1601,
      2001,
    ]);
    expect(screen.getByText(/^1945 more good rows/)).toBeTruthy();
    fireEvent.click(screen.getByLabelText('Show only bad rows'));
    expect(preview.getAllByRole('rowheader').map((head) => Number(head.textContent))).toEqual([
      401, 801, 1201, 1601, 2001,
    ]);
  });

  it('with nothing but a header says so', async () => {
    await openTable(<PalletsScreen />);
    paste('pallet\tfixture', field('Fixture'));
    expect(await screen.findByText(/^No rows in it but the names of the columns\./)).toBeTruthy();
    expect(screen.getByRole<HTMLButtonElement>('button', { name: 'No good row to import' }).disabled).toBe(true);
  });
});

describe('a table of many rows', () => {
  it('draws some at a time, and finds what is to be shown beyond them', async () => {
    const pallets = Array.from({ length: 420 }, (_, at) => ({ id: `Q${at}`, fixture: 'VISE' }));
    const { store } = await openTable(<PalletsScreen />, {
      format: 'nightload-shop',
      version: 1,
      name: 'Large',
      zone: 'UTC',
      pallets,
    });
    expect(screen.getAllByLabelText('Pallet')).toHaveLength(200);
    store.arriveAt('pallets/Q410/fixture');
    await waitFor(() =>
      expect(screen.getAllByLabelText<HTMLInputElement>('Pallet').map(({ value }) => value)).toEqual(['Q410']),
    );
    // Until it is focused, it is brought up again.
    await waitFor(() => expect(store.getState().arrival).toBeNull());
    fireEvent.change(screen.getByRole('searchbox'), { target: { value: '' } });
    fireEvent.click(screen.getByText('220 more rows; show the next'));
    expect(screen.getAllByLabelText('Pallet')).toHaveLength(400);
  }, 30_000);
});
