import type { Random } from '../random';
import type { Elite } from './elite';
import type { MachineShop } from './machine-shop';

/** Each generation is half as large again as the one before, up to this many members. */
const LARGEST = 30;

/** Candidates in a row, for each place of the population, that bring nothing better before a generation ends. */
const VAIN = 2;

/** Sequences that differ in less than this share of their runs are nearly the same. */
const TWINS = 0.02;

interface Member {
  readonly elite: Elite;
  /** The run before each on its machine, -1 if none. */
  readonly before: Int32Array;
}

/**
 * Good sequences that differ, between which new beginnings are looked for. It is small at first, so that a short search
 * already gets to go between its members. Once they bring forth nothing better any more, all but the best give way to a
 * larger generation.
 */
export class Population {
  private readonly members: Member[] = [];
  private inVain = 0;
  private readonly lastOn: Int32Array;

  constructor(
    private readonly shop: MachineShop,
    private readonly random: Random,
    private size: number,
  ) {
    this.lastOn = new Int32Array(shop.machines);
  }

  get isFull(): boolean {
    return this.members.length >= this.size;
  }

  /** Takes a sequence up in the place of one that is nearly the same, else of the worst, if it is better than that. */
  admit(elite: Elite): void {
    const { members } = this;
    const member = { elite, before: this.neighbours(elite) };
    let rival = members.findIndex((other) => differing(other, member) < TWINS * this.shop.count);
    if (rival < 0 && !this.isFull) {
      members.push(member);
      return;
    }
    const isTwin = rival >= 0;
    if (!isTwin) rival = this.worst();
    const gain = members[rival]!.elite.makespan - elite.makespan;
    if (gain > 0 || (gain === 0 && !isTwin)) members[rival] = member;
    if (gain > 0) this.inVain = 0;
    else if (++this.inVain >= VAIN * this.size && this.isFull) this.renew();
  }

  /** Two members at random. */
  pair(): [Elite, Elite] {
    const { members, random } = this;
    const a = random.below(members.length);
    const b = (a + 1 + random.below(members.length - 1)) % members.length;
    return [members[a]!.elite, members[b]!.elite];
  }

  private worst(): number {
    const { members } = this;
    let worst = 0;
    for (let i = 1; i < members.length; i++)
      if (members[i]!.elite.makespan >= members[worst]!.elite.makespan) worst = i;
    return worst;
  }

  private renew(): void {
    const { members } = this;
    const best = members.reduce((a, b) => (b.elite.makespan < a.elite.makespan ? b : a));
    members.splice(0, members.length, best);
    this.size = Math.min(Math.round(this.size * 1.5), LARGEST);
    this.inVain = 0;
  }

  private neighbours({ order, option }: Elite): Int32Array {
    const { shop, lastOn } = this;
    const before = new Int32Array(shop.count);
    lastOn.fill(-1);
    for (const run of order) {
      const machine = shop.optionMachine[option[run]!]!;
      before[run] = lastOn[machine]!;
      lastOn[machine] = run;
    }
    return before;
  }
}

/** The number of runs that follow another one, or none, in the other sequence. */
function differing(a: Member, b: Member): number {
  let runs = 0;
  for (let run = 0; run < a.before.length; run++) if (a.before[run] !== b.before[run]) runs++;
  return runs;
}
