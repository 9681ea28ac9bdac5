import { type Machine, nightReserve, sistersLeft, type Tool, type ToolAct } from '../shop';

/**
 * Why a sister tool gave no more: `spent`: nothing left in it, or too little for a cut that one tool must cover whole;
 * `night`: what is left must stay in it unattended; `blunt`: a wheel waiting to be dressed by hand.
 */
export type GivesNoMore = 'spent' | 'night' | 'blunt';

/** A sister tool of which a run wanted more than it could give, after `taken` minutes of the need were covered. */
interface PassedOver {
  readonly sister: number;
  readonly why: GivesNoMore;
  readonly taken: number;
}

interface Taking {
  readonly passed: readonly PassedOver[];
  /** The need is not covered. */
  readonly isShort: boolean;
  /** What all sister tools together lack of it; none where only no single one has it all. */
  readonly missing: number;
}

/** What has been done to one sister tool since the plan's moment. */
interface Tended {
  readonly byMachine: number;
  readonly byHand: number;
  readonly replaced: boolean;
}

interface Sister {
  left: number;
  /** Minutes ground since the last dressing. */
  ground: number;
  byMachine: number;
  byHand: number;
  replaced: boolean;
}

/** Whether one tool has to give all that a run needs of its kind: a finish tool, a wheel dressed by hand. */
export function isTakenWhole(tool: Tool): boolean {
  return tool.finish || isHandDressed(tool);
}

export function isHandDressed(tool: Tool): boolean {
  return tool.dressing?.by === 'hand';
}

/** The sister tools of one kind in one magazine, as they are used up one after the other. */
export class SisterTools {
  readonly #tool: Tool;
  readonly #reserve: number;
  readonly #sisters: Sister[];

  /** As they stand in the shop, with `fresh` new ones behind them. */
  constructor(machine: Machine, tool: Tool, fresh = 0) {
    this.#tool = tool;
    this.#reserve = nightReserve(machine, tool);
    const left = [...sistersLeft(machine, tool), ...new Array<number>(fresh).fill(tool.life)];
    this.#sisters = left.map((minutes) => ({ left: minutes, ground: 0, byMachine: 0, byHand: 0, replaced: false }));
  }

  get left(): number[] {
    return this.#sisters.map((sister) => sister.left);
  }

  /** Minutes that a cut may still take, over all sister tools. */
  usable(alone: boolean): number {
    return this.#sisters.reduce((sum, sister) => sum + this.#gives(sister, alone), 0);
  }

  /** By sister tool: dressings of whatever wheel was in it, and whether that has been replaced. */
  get tended(): Tended[] {
    return this.#sisters.map(({ byMachine, byHand, replaced }) => ({ byMachine, byHand, replaced }));
  }

  act({ sister: index, act }: ToolAct): void {
    const sister = this.#sisters[index];
    if (sister === undefined) return;
    sister.ground = 0;
    if (act === 'dress') sister.byHand += 1;
    else Object.assign(sister, { left: this.#tool.life, replaced: true });
  }

  /** Covers a need as far as it can be covered; one that a single tool must cover, whole or not at all. */
  take(need: number, alone: boolean): Taking {
    return isTakenWhole(this.#tool) ? this.#takeWhole(need, alone) : this.#takeInTurn(need, alone);
  }

  #takeWhole(need: number, alone: boolean): Taking {
    const passed: PassedOver[] = [];
    for (const [index, sister] of this.#sisters.entries()) {
      if (this.#gives(sister, alone) >= need) {
        this.#use(sister, need);
        return { passed, isShort: false, missing: 0 };
      }
      passed.push({ sister: index, why: this.#why(sister, need, alone), taken: 0 });
    }
    return { passed, isShort: true, missing: Math.max(0, need - this.usable(alone)) };
  }

  #takeInTurn(need: number, alone: boolean): Taking {
    const passed: PassedOver[] = [];
    let missing = need;
    for (const [index, sister] of this.#sisters.entries()) {
      const minutes = Math.min(missing, this.#gives(sister, alone));
      this.#use(sister, minutes);
      missing -= minutes;
      if (missing === 0) break;
      passed.push({ sister: index, why: this.#why(sister, missing, alone), taken: need - missing });
    }
    return { passed, isShort: missing > 0, missing };
  }

  #gives(sister: Sister, alone: boolean): number {
    const kept = alone ? this.#reserve : 0;
    const byLife = Math.max(0, sister.left - kept);
    const { dressing } = this.#tool;
    return isHandDressed(this.#tool) && dressing !== null ? Math.min(byLife, dressing.every - sister.ground) : byLife;
  }

  #why(sister: Sister, wanted: number, alone: boolean): GivesNoMore {
    const byLife = Math.max(0, sister.left - (alone ? this.#reserve : 0));
    if (this.#gives(sister, alone) < byLife) return 'blunt';
    const enoughByDay = isTakenWhole(this.#tool) ? sister.left >= wanted : sister.left > 0;
    return alone && enoughByDay ? 'night' : 'spent';
  }

  #use(sister: Sister, minutes: number): void {
    sister.left -= minutes;
    sister.ground += minutes;
    const { dressing } = this.#tool;
    if (dressing?.by === 'machine') {
      // Dressed when it is to grind on, so the last interval of the queue brings none.
      const due = Math.max(0, Math.ceil(sister.ground / dressing.every) - 1);
      sister.byMachine += due;
      sister.ground -= due * dressing.every;
    }
  }
}
