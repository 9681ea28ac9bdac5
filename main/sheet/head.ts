import type { Content } from 'pdfmake/interfaces';
import type { RunSheet, SheetPage } from '../../core/contract';
import { timeText } from './cells';

/** Points; the longest night is as wide in its letters. */
const NIGHT = 340;

/** The head of a page, as wide as `across`: what it is of, which night and plan, who is there, and the caution. */
export function headOf(across: number, sheet: RunSheet, page: SheetPage): Content {
  const alone =
    sheet.aloneFrom === null
      ? 'Somebody is always there.'
      : `Nobody from ${timeText(sheet.aloneFrom)} (numbers on black).`;
  return {
    stack: [
      {
        columns: [
          {
            width: across - NIGHT,
            text: [
              { text: page.title, fontSize: 26, bold: true },
              { text: `  ${page.name}`, fontSize: 16 },
            ],
          },
          {
            width: NIGHT,
            alignment: 'right',
            stack: [
              {
                text: `Night of ${sheet.date}, ${timeText(sheet.from)} to ${timeText(sheet.to)}`,
                fontSize: 15,
                bold: true,
              },
              { text: `Plan ${sheet.plan}, ${sheet.standing}`, bold: !sheet.isReleased },
            ],
          },
        ],
      },
      {
        margin: [0, 1, 0, 2],
        text: [
          { text: 'In the shop: ', bold: true },
          `${sheet.people.join(', ') || 'nobody'}. ${alone}   `,
          { text: 'First round in the morning: ', bold: true },
          page.morning ?? 'none planned',
        ],
      },
      { text: sheet.caution },
    ],
  };
}
