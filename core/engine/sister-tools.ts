import type { ToolTable } from '../problem';

/** What is done to one sister tool at the attendance remembered. */
const NOTHING = 0;
const DRESS = 1;
const REPLACE = 2;

/**
 * The sister tools of one kind on one machine while its queue is read: minutes left in each, and minutes ground since
 * each was dressed. An attendance may be remembered, and then made to do more and more: dress the wheels, those that
 * have ground longest first, then replace tools, those with least left first.
 */
export class SisterTools {
  /** Minutes the acts at the attendance remembered take. */
  actMinutes = 0;
  /**
   * Minutes that cuts may take without anything being done, in whatever order and whenever they come; -1 where that
   * hangs on the order.
   */
  readonly surplus: number;

  private readonly count: number;
  private readonly left: Int32Array;
  private readonly since: Int32Array;
  private readonly leftThen: Int32Array;
  private readonly sinceThen: Int32Array;
  private readonly act: Uint8Array;
  private readonly actBefore: Uint8Array;
  private readonly actKept: Uint8Array;
  private minutesKept = 0;

  constructor(
    private readonly tools: ToolTable,
    private readonly kind: number,
  ) {
    const { start, items } = tools.left;
    this.count = start[kind + 1]! - start[kind]!;
    const column = () => new Int32Array(this.count);
    this.left = column();
    this.since = column();
    this.leftThen = column();
    this.sinceThen = column();
    this.act = new Uint8Array(this.count);
    this.actBefore = new Uint8Array(this.count);
    this.actKept = new Uint8Array(this.count);
    const usable = items
      .subarray(start[kind]!, start[kind + 1]!)
      .map((left) => Math.max(0, left - tools.reserve[kind]!));
    this.surplus = tools.isWhole[kind] === 1 ? -1 : usable.reduce((sum, minutes) => sum + minutes, 0);
    this.open();
  }

  /** As the tools are now, all wheels freshly dressed. */
  open(): void {
    const { start, items } = this.tools.left;
    for (let s = 0; s < this.count; s++) {
      this.left[s] = items[start[this.kind]! + s]!;
      this.since[s] = 0;
    }
    this.remember();
  }

  /** True if a need is covered, and taken; otherwise nothing is. */
  cut(minutes: number, isUnattended: boolean): boolean {
    const { left, since, count, kind, tools } = this;
    const reserve = isUnattended ? tools.reserve[kind]! : 0;
    if (tools.isWhole[kind] === 1) {
      const every = tools.dressEvery[kind]!;
      for (let s = 0; s < count; s++) {
        if (left[s]! - reserve < minutes || since[s]! + minutes > every) continue;
        left[s]! -= minutes;
        since[s]! += minutes;
        return true;
      }
      return false;
    }
    let missing = minutes;
    for (let s = 0; s < count; s++) missing -= Math.max(0, left[s]! - reserve);
    if (missing > 0) return false;
    this.drain(minutes, reserve);
    return true;
  }

  /** For a run that cannot be helped. */
  takeWhatThereIs(isUnattended: boolean): void {
    const reserve = isUnattended ? this.tools.reserve[this.kind]! : 0;
    if (this.tools.isWhole[this.kind] === 0) this.drain(Number.POSITIVE_INFINITY, reserve);
  }

  private drain(minutes: number, reserve: number): void {
    const { left, count } = this;
    let missing = minutes;
    for (let s = 0; s < count && missing > 0; s++) {
      const taken = Math.min(missing, Math.max(0, left[s]! - reserve));
      left[s]! -= taken;
      missing -= taken;
    }
  }

  /** Somebody replaces or dresses one of them. */
  see(sister: number, isDressing: boolean): void {
    if (!isDressing) this.left[sister] = this.tools.life[this.kind]!;
    this.since[sister] = 0;
  }

  /** An attendance comes here, and does nothing yet. */
  remember(): void {
    for (let s = 0; s < this.count; s++) {
      this.leftThen[s] = this.left[s]!;
      this.sinceThen[s] = this.since[s]!;
    }
    this.forgetActs();
  }

  /**
   * Lets the attendance remembered do the next thing more that its minutes allow, to be followed by {@link goBack}; false
   * if there is none. One too long is passed over, for replacing a wheel may be shorter than dressing it.
   */
  doMore(room: number): boolean {
    const { act } = this;
    for (let s = 0; s < this.count; s++) this.actBefore[s] = act[s]!;
    const before = this.actMinutes;
    while (this.addAct()) {
      if (this.actMinutes > room) continue;
      return true;
    }
    for (let s = 0; s < this.count; s++) act[s] = this.actBefore[s]!;
    this.actMinutes = before;
    return false;
  }

  /** Keeps the acts as they are, to come back to them by {@link undoActs}. */
  keepActs(): void {
    for (let s = 0; s < this.count; s++) this.actKept[s] = this.act[s]!;
    this.minutesKept = this.actMinutes;
  }

  undoActs(): void {
    for (let s = 0; s < this.count; s++) this.act[s] = this.actKept[s]!;
    this.actMinutes = this.minutesKept;
  }

  private addAct(): boolean {
    const wheel = this.undressed();
    const sister = wheel < 0 ? this.mostWorn() : wheel;
    if (sister < 0) return false;
    const next = wheel < 0 ? REPLACE : DRESS;
    this.actMinutes += this.minutesOf(next) - this.minutesOf(this.act[sister]!);
    this.act[sister] = next;
    return true;
  }

  /** The acts at the attendance remembered: sister tool, and whether it is dressed or else replaced. */
  acts(): [sister: number, isDressing: boolean][] {
    const found: [number, boolean][] = [];
    for (let s = 0; s < this.count; s++) if (this.act[s] !== NOTHING) found.push([s, this.act[s] === DRESS]);
    return found;
  }

  private forgetActs(): void {
    for (let s = 0; s < this.count; s++) this.act[s] = NOTHING;
    this.actMinutes = 0;
  }

  private minutesOf(act: number): number {
    if (act === NOTHING) return 0;
    return act === DRESS ? this.tools.dressMinutes[this.kind]! : this.tools.replaceMinutes[this.kind]!;
  }

  /** The wheel dressed by hand that had ground longest then and is left alone, or -1. */
  private undressed(): number {
    let longest = -1;
    for (let s = 0; s < this.count; s++) {
      if (this.act[s] !== NOTHING || this.sinceThen[s] === 0) continue;
      if (this.tools.dressEvery[this.kind]! >= this.tools.life[this.kind]!) continue;
      if (longest < 0 || this.sinceThen[s]! > this.sinceThen[longest]!) longest = s;
    }
    return longest;
  }

  /** The tool with least left then that is not replaced, or -1. */
  private mostWorn(): number {
    let least = -1;
    for (let s = 0; s < this.count; s++) {
      if (this.act[s] === REPLACE || this.leftThen[s]! >= this.tools.life[this.kind]!) continue;
      if (least < 0 || this.leftThen[s]! < this.leftThen[least]!) least = s;
    }
    return least;
  }

  /** As the tools are when the attendance remembered is over. */
  goBack(): void {
    const { left, since, leftThen, sinceThen, act } = this;
    for (let s = 0; s < this.count; s++) {
      left[s] = act[s] === REPLACE ? this.tools.life[this.kind]! : leftThen[s]!;
      since[s] = act[s] === NOTHING ? sinceThen[s]! : 0;
    }
  }
}
