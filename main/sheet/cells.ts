import type { Content, TableCell } from 'pdfmake/interfaces';
import type { SheetRow, SheetTime } from '../../core/contract';

/** All sizes in points; pallet and time are read first, and from further away. */
const LARGE = 18;
const TIME = 14;

export function timeText({ day, time }: SheetTime): string {
  return day === null ? time : `${day} ${time}`;
}

/** Which one it is of those that wait: white on black where it runs with nobody there. */
export function placeCell({ place, isAlone }: SheetRow): TableCell {
  return {
    alignment: 'center',
    bold: true,
    ...(place === null
      ? { text: 'now', fontSize: TIME, margin: [0, 3, 0, 0] }
      : { text: String(place), fontSize: LARGE }),
    ...(isAlone ? { fillColor: 'black', color: 'white' } : {}),
  };
}

export function palletText({ pallet }: SheetRow): Content {
  return { text: pallet ?? 'none', fontSize: LARGE, bold: true };
}

/** `4 parts`. */
export function partsText({ parts }: SheetRow): string {
  return parts === 1 ? '1 part' : `${parts} parts`;
}

export function timeCell(time: SheetTime, bold = false): TableCell {
  return { text: timeText(time), fontSize: TIME, bold };
}

/** From and to, under each other. */
export function spanCell({ start, end }: SheetRow): TableCell {
  return {
    stack: [
      { text: timeText(start), fontSize: LARGE - 2, bold: true },
      { text: `to ${timeText(end)}`, fontSize: TIME - 1 },
    ],
  };
}

/** `1810` and `rev. E`: of the program only this revision is meant. */
export function programWords({ program, revision }: SheetRow): string[] {
  return [program, revision === '' ? '' : `rev. ${revision}`].filter((text) => text !== '');
}

/** An empty square to be ticked by pen. */
export function tickCell(): TableCell {
  return { canvas: [{ type: 'rect', x: 0, y: 2, w: 11, h: 11, lineWidth: 1 }] };
}
