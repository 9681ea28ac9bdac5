/**
 * What hangs at the machines for one night, ready to be laid out: names, times and sentences are texts as people read
 * them, so that screen, print and PDF say the same.
 */
export interface RunSheet {
  readonly shop: string;
  /** Number of the plan. */
  readonly plan: number;
  /** Whether people work by this plan, and since when: `released Mon 30 Nov 13:20`, `not released`. */
  readonly standing: string;
  readonly isReleased: boolean;
  /** `Mon 30 Nov`, the day on which the sheet begins. */
  readonly date: string;
  /** `13:20` and `Tue 06:00`: the time it covers. */
  readonly from: SheetTime;
  readonly to: SheetTime;
  /** Since when nobody is there, or null if somebody always is. */
  readonly aloneFrom: SheetTime | null;
  /** Who is in the shop before that: `Jana until 14:00`. */
  readonly people: readonly string[];
  readonly caution: string;
  /** The machines in the shop's order, then the cells, then one page for the machines that share no cell. */
  readonly pages: readonly SheetPage[];
}

/** Printed across. */
export type SheetPaper = 'A4' | 'Letter';

/** A time on the 24-hour clock; `day` is null on the day on which the sheet begins, else `Tue`. */
export interface SheetTime {
  readonly day: string | null;
  readonly time: string;
}

export interface SheetPage {
  /** `machine`: one of them. `together`: a cell, or all that share none. */
  readonly of: 'machine' | 'together';
  /** What it is known by: `M1`, `CELL`, the shop's name. */
  readonly title: string;
  readonly name: string;
  /** What runs, in order; what runs already comes first. */
  readonly rows: readonly SheetRow[];
  /** Why it stands after its last run, or all the time; null if it cuts to the end, and on pages for several machines. */
  readonly stands: string | null;
  /** Tools replaced and wheels dressed by hand. */
  readonly care: readonly SheetStop[];
  /** On pages for several machines: the rounds that lead there, with what is done there. */
  readonly rounds: readonly SheetRound[];
  /** On pages for several machines: what to see to before going home. */
  readonly checks: readonly SheetCheck[];
  /** The first round after the night: `Tue 06:00 Jana, here from 06:12`. Null if there is none. */
  readonly morning: string | null;
}

/** One run. */
export interface SheetRow {
  /** Which one it is of those that wait, from 1; null runs already. */
  readonly place: number | null;
  readonly machine: string;
  readonly job: string;
  readonly jobName: string;
  readonly operation: string;
  readonly operationName: string;
  /** On the pallet. */
  readonly parts: number;
  readonly program: string;
  readonly revision: string;
  readonly pallet: string | null;
  readonly start: SheetTime;
  readonly end: SheetTime;
  /** Some of it runs with nobody there. */
  readonly isAlone: boolean;
  /** The kind of tool nearest its end after this run, and the minutes it could still cut; null where no tool is counted. */
  readonly tool: { readonly id: string; readonly minutes: number } | null;
  readonly measure: string;
  /** `Skip it, next pallet`. */
  readonly ifStops: string;
  /** `24 Nov: 0.02 mm off the depth (wall measured thick)`, or empty. */
  readonly correction: string;
  readonly spareBlanks: number;
}

export interface SheetRound {
  readonly person: string;
  readonly stops: readonly SheetStop[];
}

export interface SheetStop {
  readonly person: string;
  readonly machine: string;
  readonly start: SheetTime;
  /** Begin later than this and a machine waits or a job slips. */
  readonly latest: SheetTime;
  readonly say: string;
}

export interface SheetCheck {
  readonly say: string;
  readonly by: SheetTime | null;
}
