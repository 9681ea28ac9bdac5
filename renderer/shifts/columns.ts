import type { ShiftTimes } from './sum-shifts';

/** The uses of a shift's time, in the order of table and bar. `explain` is the footnote. */
export const USES: readonly {
  readonly key: Exclude<keyof ShiftTimes, 'window'>;
  readonly label: string;
  readonly explain: string;
}[] = [
  { key: 'cutAttended', label: 'Cutting, attended', explain: 'the machine cuts while somebody is in the shop' },
  { key: 'cutUnattended', label: 'Cutting, unattended', explain: 'the machine cuts and nobody is in the shop' },
  { key: 'handWork', label: 'Hand work', explain: 'it stands while a person loads, checks or unloads at it' },
  {
    key: 'waiting',
    label: 'Waiting for a hand',
    explain: 'there is work, but nobody is free or in the shop to serve it',
  },
  { key: 'dry', label: 'Dry', explain: 'nothing is loaded, though there is work for it' },
  { key: 'off', label: 'Planned off', explain: 'outside its hours, or closed for care, repair or holidays' },
  { key: 'nothingDue', label: 'Nothing due', explain: 'the plan has no work left for it' },
];

/** Hours with one decimal; the unit stands in the column's head. */
export function hours(minutes: number): string {
  return (minutes / 60).toFixed(1);
}

export function share(part: number, whole: number): string {
  return whole === 0 ? '' : `${Math.round((100 * part) / whole)} %`;
}
