import type { Shop, TableName } from '../../shop';

/** Cells from a spreadsheet or a CSV file, and how they are to be taken. */
export interface ImportCells {
  readonly table: TableName;
  /** Rows of cells, as they stand there; row 1 is the first. */
  readonly cells: readonly (readonly string[])[];
  /** Whether row 1 heads the columns; null: look whether it does. */
  readonly header: boolean | null;
  /** The field of each column, null for one left out; null as a whole: by the header, or in the order of the table. */
  readonly columns: readonly (string | null)[] | null;
  /** `HH:MM` for dates that have no time of day. */
  readonly timeOfDay: string;
}

/** What a spreadsheet would put into its table; nothing has been put in yet. */
export interface ImportReading {
  readonly header: boolean;
  /** The field of each column of the spreadsheet, or null. */
  readonly columns: readonly (string | null)[];
  /** The fields that a column may be, in the table's order. */
  readonly fields: readonly ImportField[];
  /** Every row with something in it, but for the header. */
  readonly rows: readonly ImportRow[];
  /** The records of the good rows; several rows may make one. */
  readonly puts: readonly RowPut[];
  /** Dates without a time of day among the cells read. */
  readonly timeless: number;
}

export interface ImportField {
  readonly field: string;
  readonly label: string;
  /** A new row cannot do without it. */
  readonly needed: boolean;
}

export interface ImportRow {
  /** Number of the row in the spreadsheet, from 1. */
  readonly row: number;
  /** What is wrong with it, a sentence each with its place; none in a good row. */
  readonly faults: readonly string[];
  /** Its record takes the place of one that is there. */
  readonly replaces: boolean;
}

/** A row for a table: in place of the row `replaces`, or a new one if null. */
export interface RowPut {
  readonly replaces: string | null;
  readonly row: unknown;
}

/** The rows of a spreadsheet as they are read against a shop. */
export type RowsRead = Pick<ImportReading, 'rows' | 'puts'>;

/** What a row reader gets: the spreadsheet's rows with their fields, without blank ones and without the header. */
export interface RowsToRead {
  readonly shop: Shop;
  readonly rows: readonly TextRow[];
}

export interface TextRow {
  readonly row: number;
  /** Text by field, only where there is some. */
  readonly texts: ReadonlyMap<string, string>;
}
