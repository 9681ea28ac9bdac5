import { useEffect, useMemo, useState } from 'react';
import type { ImportReading } from '../../../core/contract';
import type { TableName } from '../../../core/shop';
import { sentences, useShopState, useShopStore } from '../store';
import { type Cells, cellsOf, type Delimiter } from './cells-text';

/** Text brought to a table, and what it is called. */
export interface Brought {
  /** `jobs.csv`, or null for pasted rows. */
  readonly file: string | null;
  readonly text: string;
}

/** How the text is taken; null where the program is to look for itself. */
export interface Taking {
  readonly delimiter: Delimiter | null;
  readonly header: boolean | null;
  readonly columns: readonly (string | null)[] | null;
  readonly timeOfDay: string;
}

/** Of a date alone: when the day's last parts usually go out. Common practice, no source. */
const USUAL_TIME = '16:00';

export const LOOKED_FOR: Taking = { delimiter: null, header: null, columns: null, timeOfDay: USUAL_TIME };

export interface ImportState {
  readonly cells: Cells;
  readonly reading: ImportReading | null;
  /** Why it could not be read. */
  readonly refused: string | null;
}

/** What the text would put into the table, read anew whenever how it is taken changes, or the shop does. */
export function useImport(table: TableName, text: string, taking: Taking): ImportState {
  const store = useShopStore();
  const revision = useShopState((state) => state.view?.revision);
  const { delimiter, header, columns, timeOfDay } = taking;
  const cells = useMemo(() => cellsOf(text, delimiter), [text, delimiter]);
  const [answer, setAnswer] = useState<Omit<ImportState, 'cells'>>({ reading: null, refused: null });
  // biome-ignore lint/correctness/useExhaustiveDependencies: another revision of the shop reads the spreadsheet otherwise
  useEffect(() => {
    let isLatest = true;
    void store.readImport({ table, cells: cells.cells, header, columns, timeOfDay }).then((reply) => {
      if (!isLatest) return;
      setAnswer(
        reply.ok ? { reading: reply.value, refused: null } : { reading: null, refused: sentences(reply.faults) },
      );
    });
    return () => {
      isLatest = false;
    };
  }, [store, table, cells, header, columns, timeOfDay, revision]);
  return { cells, ...answer };
}
