import type { AttendanceRole } from '../shop';
import type { Interval, Minute, Stretch } from '../time';

/** What a plan says to people: worked out from shop and plan, never stored. */
export interface PlanReport {
  readonly stretches: readonly Stretch[];
  /** The night the plan is about, or null if somebody is always there. */
  readonly tonight: Stretch | null;
  readonly machines: readonly MachineReport[];
  readonly people: readonly PersonReport[];
  readonly rounds: readonly Round[];
  readonly shifts: readonly ShiftRow[];
  readonly late: readonly LateJob[];
}

/** Why a machine stands. `dry`: nothing loaded. `hand`: needs a person. `off`: planned off. `nothing-due`: no work left for it. */
export type IdleReason = 'dry' | 'hand' | 'off' | 'nothing-due';

export interface Gap extends Interval {
  readonly reason: IdleReason;
  /** One sentence: why it stands. */
  readonly say: string;
}

export interface MachineReport {
  readonly machine: string;
  /** Every minute from the plan's moment to the horizon in which it neither cuts nor is worked at. */
  readonly gaps: readonly Gap[];
  /** Minutes cut in tonight's stretch. */
  readonly tonightCut: number;
  /** The minute from which it stands for the rest of tonight, or null if it cuts until the first person comes. */
  readonly quietFrom: Minute | null;
}

export interface PersonReport {
  readonly person: string;
  /** In the shop, breaks included. */
  readonly present: readonly Interval[];
  readonly breaks: readonly Interval[];
}

/** One walk of a person that serves several attendances back to back. */
export interface Round extends Interval {
  readonly person: string;
  readonly stops: readonly Stop[];
}

export interface Stop extends Interval {
  readonly role: AttendanceRole | 'care';
  /** Null where it is for the tools of a machine. */
  readonly run: string | null;
  readonly machine: string;
  readonly pallet: string | null;
  /** Begin later than this and a machine waits or a job slips. Never before `start`. */
  readonly latest: Minute;
  /** What to do, in one short phrase: `Load P-07 for J-104 op 10 (4 parts)`, `Replace EM16 and DR08`. */
  readonly say: string;
}

/** One machine in one occurrence of a shift. All but the first four are minutes, and they add up to `end - start`. */
export interface ShiftRow extends Interval {
  readonly machine: string;
  /** Name of the shift, or `no shift` for time that no shift covers. */
  readonly shift: string;
  readonly cutAttended: number;
  readonly cutUnattended: number;
  /** Stopped while a person loads on the table, checks or unloads there, or sees to its tools. */
  readonly handWork: number;
  readonly waiting: number;
  readonly dry: number;
  readonly off: number;
  readonly nothingDue: number;
}

export interface LateJob {
  readonly job: string;
  readonly due: Minute;
  /** When its last run is off, or null if it does not fit before the horizon. */
  readonly finish: Minute | null;
  readonly lateBy: number;
  /** One sentence: what it waits for, or that its route alone is too long. */
  readonly why: string;
}
