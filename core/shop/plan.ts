import { z } from 'zod';

/**
 * A plan as it leaves the engine and as it stands in a plan file. Times are minutes from `clock.origin`. It is
 * complete: with the shop it was made for it can be refereed, drawn and printed.
 */

const minute = z.number().int();
const attendance = z.object({ person: z.string(), start: minute, end: minute });

const plannedRun = z.object({
  /** `job/operation/number`. */
  run: z.string(),
  machine: z.string(),
  /** Null where the operation needs no fixture. */
  pallet: z.string().nullable(),
  /** Null where nothing needs loading by hand, or it was loaded before the plan's moment. */
  load: attendance.nullable(),
  /** Cutting begins. */
  start: minute,
  /** Cutting, with any hold for a first-piece check in it, ends. At a bench the person works from start to end. */
  end: minute,
  /** The first-piece check, inside start to end; at a bench null. */
  check: attendance.nullable(),
  /** The person who works at a bench; elsewhere null. */
  work: attendance.nullable(),
  unload: attendance.nullable(),
});

/** What is done to one tool in an attendance at its machine. */
const toolAct = z.object({
  tool: z.string(),
  /** Which of the sister tools in the magazine, from 0. */
  sister: z.number().int().min(0),
  act: z.enum(['replace', 'dress']),
});

/** Tools replaced and wheels dressed by hand; the machine cuts nothing meanwhile. */
const toolCare = attendance.extend({ machine: z.string(), acts: z.array(toolAct).min(1) });

/** What makes plans better or worse, each in its own unit; `total` is their weighted sum, smaller is better. */
const costParts = z.object({
  /** Weighted hours late, over all jobs. */
  lateness: z.number(),
  /** Machine hours planned to be cut in tonight's unattended stretch; not part of the total. */
  loaded: z.number(),
  /** Of these the hours to expect, by the odds that a run blocks its machine or loses its pallet. */
  tonight: z.number(),
  /** Machine hours to expect in later unattended stretches. */
  laterNights: z.number(),
  /** Machines cutting in the last minute of tonight's stretch. */
  morning: z.number(),
  rounds: z.number(),
  /** Hand hours outside normal hours. */
  extraHours: z.number(),
  /** Runs on another machine or more than 30 minutes away from the released plan. */
  moved: z.number(),
  /** Hours from the plan's moment until each run's cut ends, summed over the runs; bench work apart. */
  flow: z.number(),
  /** Hours from the plan's moment until the last run is off. */
  finish: z.number(),
  total: z.number(),
});

/** A plan made before odds were counted expects all it has loaded. */
const planCost = z.preprocess(
  (cost) => (typeof cost === 'object' && cost !== null && 'tonight' in cost ? { loaded: cost.tonight, ...cost } : cost),
  costParts,
);

/** What no plan for this shop and moment can beat, from the linear relaxation with pooled hours. */
const planBound = z.object({
  /** No plan's total is smaller. */
  total: z.number(),
  /** No plan lets more hours be expected tonight. */
  tonight: z.number(),
  /** No plan is less late, weighted hours. */
  lateness: z.number(),
  /** No plan is finished sooner, hours from the plan's moment. */
  finish: z.number(),
});

export const planSchema = z.object({
  format: z.literal('nightload-plan'),
  version: z.literal(1),
  shop: z.string(),
  clock: z.object({ zone: z.string(), origin: z.number().int() }),
  /** Nothing is planned before it. */
  now: minute,
  /** Nothing is planned after it. */
  horizon: minute,
  runs: z.array(plannedRun),
  /** In order of start. */
  care: z.array(toolCare).default([]),
  /** Runs that found no room before the horizon, and why. */
  left: z.array(z.object({ run: z.string(), why: z.string() })),
  /** Locks that could not hold: kept where they are, and reported. */
  conflicts: z.array(z.object({ run: z.string(), say: z.string() })),
  cost: planCost,
  bound: planBound.nullable(),
  search: z.object({
    seed: z.number().int(),
    steps: z.number().int(),
    seconds: z.number(),
    /** `proved`: cost meets the bound. `limit`: time or steps used up. `stopped`: by the user. */
    ending: z.enum(['proved', 'limit', 'stopped']),
  }),
});

export type Plan = z.infer<typeof planSchema>;
export type PlannedRun = Plan['runs'][number];
export type ToolCare = Plan['care'][number];
export type ToolAct = ToolCare['acts'][number];
export type Attendance = z.infer<typeof attendance>;
export type PlanCost = Plan['cost'];
export type PlanBound = z.infer<typeof planBound>;
export type AttendanceRole = 'load' | 'check' | 'work' | 'unload';
export const ATTENDANCE_ROLES: readonly AttendanceRole[] = ['load', 'check', 'work', 'unload'];

/** Nearer than this to the bound is at the bound. */
const MET = 1e-6;

/** Whether a total is at its bound, so that no plan is better. */
export function meetsBound(total: number, bound: PlanBound | null): boolean {
  return bound !== null && total <= bound.total + MET;
}

/** Two attendances of one person belong to one round if no more than this many minutes beyond the walk lie between. */
export const ROUND_PAUSE = 10;

/** A run counts as moved from the released plan beyond this many minutes. */
export const MOVED_AFTER = 30;
