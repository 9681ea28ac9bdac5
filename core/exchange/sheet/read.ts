import type { Shop, TableName } from '../../shop';
import type { Reading } from './cell';
import type { SheetColumn } from './column';
import { matchColumns, textRows } from './match';
import { plantColumns } from './plant-columns';
import { readPlantRows } from './read-plant';
import { readRouteRows } from './read-routes';
import type { Sheet, SheetReading } from './reading';
import { columnsOfRoutes } from './route-columns';

/** The columns a table may have in a sheet, in the order of its screen. */
export function columnsOf(table: TableName): readonly SheetColumn[] {
  return table === 'jobs' || table === 'templates' ? columnsOfRoutes(table) : plantColumns[table];
}

/**
 * What a sheet would put into its table of `shop`: the columns it has, what is wrong with which row, and the records of
 * the good ones. An empty cell leaves what is there, or takes what is usual.
 */
export function readSheet(shop: Shop, sheet: Sheet): SheetReading {
  const { table } = sheet;
  const columns = columnsOf(table);
  const { header, fields } = matchColumns(sheet, columns);
  const reading: Reading = { timeOfDay: sheet.timeOfDay, timeless: 0 };
  const toRead = { shop, rows: textRows(sheet.cells, header, fields) };
  const read =
    table === 'jobs' || table === 'templates'
      ? readRouteRows(table, toRead, reading)
      : readPlantRows(table, toRead, reading);
  return {
    header,
    columns: fields,
    fields: columns.map(({ field, label, needed }) => ({ field, label, needed })),
    timeless: reading.timeless,
    ...read,
  };
}
