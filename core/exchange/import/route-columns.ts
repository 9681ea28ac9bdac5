import {
  amountCell,
  dateCell,
  listCell,
  minutesCell,
  momentCell,
  namesCell,
  optionalCell,
  optionalNamesCell,
  optionalTextCell,
  shareCell,
  textCell,
  tickCell,
  wholeCell,
  wordCell,
} from './cells';
import { column, type ImportColumn } from './column';
import { checksCell, toolsCell } from './notes';

/** The tables whose records have a route: one row for each operation, or one for the whole. */
export type RouteTable = 'jobs' | 'templates';

const suspectLimitColumn = column('suspectLimit', 'Parts between checks', optionalCell(wholeCell), {
  names: ['suspect limit'],
});

/** Of the record itself; every row of its route may say it. */
export const headColumns: { readonly [T in RouteTable]: readonly ImportColumn[] } = {
  jobs: [
    column('id', 'Job', textCell, { names: ['job no', 'job number', 'order', 'order no'], needed: true }),
    column('name', 'Name', textCell, { names: ['part', 'part name', 'description'] }),
    column('customer', 'Customer', textCell),
    column('quantity', 'Quantity', wholeCell, { names: ['qty', 'pieces', 'pcs'] }),
    column('due', 'Due', momentCell, { names: ['due date', 'due time', 'deadline'], needed: true }),
    column('release', 'Not before', optionalCell(momentCell), { names: ['released'] }),
    column('weight', 'Weight', amountCell),
    column('overdue', 'Overdue', tickCell, { names: ['known to be overdue'] }),
    suspectLimitColumn,
    column('spareBlanks', 'Spare blanks', wholeCell, { names: ['spares'] }),
  ],
  templates: [
    column('id', 'Family', textCell, { names: ['template', 'part family'], needed: true }),
    column('name', 'Name', textCell),
    column('weight', 'Weight', amountCell),
    suspectLimitColumn,
  ],
};

/** The family of parts whose route a new job begins with; a job does not remember it. */
export const familyColumn = column('family', 'Family, of new jobs', textCell, {
  names: ['family', 'template', 'part family'],
});

export const operationColumn = column('op', 'Op', textCell, { names: ['operation', 'op no', 'step'], path: ['id'] });
/** Machines and their cycles stand in two columns, in the same order; one cycle is for all of them. */
export const machineColumn = column('machine', 'Machine', namesCell, { names: ['machines'] });
export const cycleColumn = column('cycle', 'Cycle', listCell(minutesCell), {
  names: ['cycle min', 'cycle time', 'cycle of a full pallet'],
});

/** Of one operation beside its id, machines and cycles. */
export const operationColumns: readonly ImportColumn[] = [
  column('opName', 'Name of the operation', textCell, { names: ['operation name'], path: ['name'] }),
  column('fixture', 'Fixture', optionalTextCell),
  column('perPallet', 'Parts a pallet', wholeCell, { names: ['parts per pallet', 'parts'] }),
  column('load', 'Load', minutesCell, { names: ['load min', 'minutes to load'] }),
  column('unload', 'Unload', minutesCell, { names: ['unload min', 'minutes to unload'] }),
  column('skill', 'Skill', textCell),
  column('firstPieceAfter', 'First piece after', minutesCell, { path: ['firstPiece', 'after'] }),
  column('firstPieceMinutes', 'First piece for', minutesCell, { path: ['firstPiece', 'minutes'] }),
  column('lag', 'Lag', minutesCell, { names: ['lag min'] }),
  column('program', 'Program', textCell, { names: ['program no', 'nc program'] }),
  column('revision', 'Revision', textCell, { names: ['rev'] }),
  column('measure', 'Measure', textCell, { names: ['what to measure'] }),
  column('ifStops', 'If it stops', wordCell(['skip', 'leave', 'call'])),
  column('corrected', 'Last correction', textCell, { names: ['correction'], path: ['correction', 'text'] }),
  column('correctedWhy', 'Why corrected', textCell, { path: ['correction', 'why'] }),
  column('correctedAt', 'Corrected on', dateCell, { path: ['correction', 'at'] }),
  column('tools', 'Tools', toolsCell),
  column('checks', 'Checks', checksCell),
  column('blockOdds', 'Block odds', shareCell, { path: ['odds', 'block'] }),
  column('lossOdds', 'Loss odds', shareCell, { path: ['odds', 'loss'] }),
  column('goodRuns', 'Good runs', wholeCell, { path: ['proof', 'goodRuns'] }),
  column('longestAlone', 'Longest alone', minutesCell, { path: ['proof', 'longestAlone'] }),
  column('provenRevision', 'Proven revision', optionalTextCell, { path: ['proof', 'revision'] }),
  column('provenTools', 'Proven tools', optionalNamesCell, { path: ['proof', 'tools'] }),
];

export const routeColumns: readonly ImportColumn[] = [operationColumn, machineColumn, cycleColumn, ...operationColumns];

/** Every column a spreadsheet of jobs or templates may have, in the order of the screens. */
export function columnsOfRoutes(table: RouteTable): readonly ImportColumn[] {
  const family = table === 'jobs' ? [familyColumn] : [];
  return [...headColumns[table], ...family, ...routeColumns];
}
