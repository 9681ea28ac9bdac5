import type { TableName } from '../../shop';
import { WEEKDAYS } from '../../time';
import {
  amountCell,
  clockCell,
  listCell,
  minutesCell,
  namesCell,
  optionalTextCell,
  placesCell,
  shareCell,
  textCell,
  tickCell,
  wholeCell,
  wordCell,
} from './cells';
import { column, type ImportColumn } from './column';
import { closuresCell, exceptionsCell, hoursCell, magazineCell, spansCell, weekCell } from './notes';

/** The tables of which each row of a spreadsheet is one record. Columns stand in the order of the screens' tables. */
export type PlantTable = Exclude<TableName, 'jobs' | 'templates'>;

export const plantColumns: { readonly [T in PlantTable]: readonly ImportColumn[] } = {
  shifts: [
    column('id', 'Shift', textCell, { names: ['shift name'], needed: true }),
    column('days', 'Days', listCell(wordCell(WEEKDAYS), /[;,\s]/), { needed: true }),
    column('from', 'From', clockCell, { names: ['start'], needed: true }),
    column('to', 'To', clockCell, { names: ['end'], needed: true }),
  ],
  people: [
    column('id', 'Person', textCell, { names: ['short name', 'operator'], needed: true }),
    column('name', 'Name', textCell),
    column('skills', 'Skills', namesCell, { names: ['skill'] }),
    column('hours', 'Hours', hoursCell, { names: ['week', 'weekly hours'] }),
    column('breaks', 'Breaks', spansCell),
    column('exceptions', 'Dates that differ', exceptionsCell),
  ],
  cells: [
    column('id', 'Cell', textCell, { needed: true }),
    column('name', 'Name', textCell),
    column('places', 'Places', wholeCell, { names: ['pallets', 'pallet places'], needed: true }),
    column('stations', 'Load stations', wholeCell, { names: ['load'] }),
    column('spot', 'Spot', textCell),
  ],
  machines: [
    column('id', 'Machine', textCell, { names: ['machine no', 'short name'], needed: true }),
    column('name', 'Name', textCell),
    column('kind', 'Kind', wordCell(['mill', 'grind', 'mill-grind', 'bench']), { names: ['type'], needed: true }),
    column('cell', 'Cell', optionalTextCell),
    column('places', 'Places', placesCell, { names: ['pallets', 'pallet places'] }),
    column('stations', 'Load stations', wholeCell, { names: ['load'] }),
    column('spot', 'Spot', textCell),
    column('skill', 'Skill it needs', textCell, { names: ['skill'] }),
    column('hours', 'Hours', weekCell, { names: ['hours it may run'] }),
    column('ratePerHour', 'Rate an hour', amountCell, { names: ['rate'] }),
    column('inUse', 'In use', tickCell),
    column('closures', 'Planned off', closuresCell),
    column('nightFraction', 'Share of a life at night', shareCell),
    column('magazine', 'Magazine', magazineCell),
  ],
  pallets: [
    column('id', 'Pallet', textCell, { names: ['pallet no'], needed: true }),
    column('name', 'Name', textCell),
    column('fixture', 'Fixture', textCell, { needed: true }),
    column('machines', 'Fits', namesCell, { names: ['machine', 'fits machines'] }),
    column('inUse', 'In use', tickCell),
  ],
  tools: [
    column('id', 'Tool', textCell, { names: ['tool no'], needed: true }),
    column('name', 'Name', textCell),
    column('kind', 'Kind', wordCell(['cutter', 'wheel']), { names: ['type'] }),
    column('life', 'Life', minutesCell, { names: ['life min', 'tool life'], needed: true }),
    column('lifeSpread', 'Spread', shareCell, { names: ['spread of its life'] }),
    column('replaceMinutes', 'Replace', minutesCell, { names: ['minutes to replace it', 'replace min'] }),
    column('finish', 'Finish', tickCell, { names: ['finish tool'] }),
    column('dressEvery', 'Dressed every', minutesCell, { names: ['dressed'], path: ['dressing', 'every'] }),
    column('dressMinutes', 'A dressing takes', minutesCell, { path: ['dressing', 'minutes'] }),
    column('dressBy', 'Dressed by', wordCell(['machine', 'hand']), { path: ['dressing', 'by'] }),
    column('dressUsesMm', 'Radius a dressing uses, mm', amountCell, { path: ['dressing', 'usesMm'] }),
    column('dressLeftMm', 'Radius left, mm', amountCell, { path: ['dressing', 'leftMm'] }),
  ],
};
