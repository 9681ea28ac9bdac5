import type { Shop, TableName } from '../../shop';
import type { Reading } from './cell';
import type { ImportColumn } from './column';
import { matchColumns, textRows } from './match';
import { plantColumns } from './plant-columns';
import { readPlantRows } from './read-plant';
import { readRouteRows } from './read-routes';
import type { ImportCells, ImportReading } from './reading';
import { columnsOfRoutes } from './route-columns';

/** The columns a table may have in a spreadsheet, in the order of its screen. */
export function columnsOf(table: TableName): readonly ImportColumn[] {
  return table === 'jobs' || table === 'templates' ? columnsOfRoutes(table) : plantColumns[table];
}

/**
 * What a spreadsheet would put into its table of `shop`: the columns it has, what is wrong with which row, and the records of
 * the good ones. An empty cell leaves what is there, or takes what is usual.
 */
export function readImport(shop: Shop, given: ImportCells): ImportReading {
  const { table } = given;
  const columns = columnsOf(table);
  const { header, fields } = matchColumns(given, columns);
  const reading: Reading = { timeOfDay: given.timeOfDay, timeless: 0 };
  const toRead = { shop, rows: textRows(given.cells, header, fields) };
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
