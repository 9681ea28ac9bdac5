import type { Job, Shop, TableName, Template } from '../../shop';
import { textAt } from './column';
import { plantColumns } from './plant-columns';
import {
  cycleColumn,
  headColumns,
  machineColumn,
  operationColumn,
  operationColumns,
  type RouteTable,
  routeColumns,
} from './route-columns';

/** A table of the shop as a spreadsheet with a header: what {@link readImport} takes back without loss. */
export function writeTable(shop: Shop, table: TableName): string[][] {
  if (table === 'jobs' || table === 'templates') return routesTable(table, shop[table]);
  const columns = plantColumns[table];
  return [columns.map(({ field }) => field), ...shop[table].map((row) => columns.map((each) => textAt(row, each)))];
}

/** One row for each operation, the record's own fields in every one. */
function routesTable(table: RouteTable, records: readonly (Job | Template)[]): string[][] {
  const head = headColumns[table];
  const rows = records.flatMap((record) =>
    record.route.map((operation) => {
      const cycles = operation.machines.map(({ cycle }) => cycle);
      const cyclesWritten = new Set(cycles).size === 1 ? cycles.slice(0, 1) : cycles;
      return [
        ...head.map((each) => textAt(record, each)),
        textAt(operation, operationColumn),
        machineColumn.cell.write(operation.machines.map(({ machine }) => machine)),
        cycleColumn.cell.write(cyclesWritten),
        ...operationColumns.map((each) => textAt(operation, each)),
      ];
    }),
  );
  return [[...head, ...routeColumns].map(({ field }) => field), ...rows];
}
