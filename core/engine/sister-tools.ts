import type { ToolTable } from '../problem';

/** More sister tools of one kind than any magazine holds. */
const MANY = 64;

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
  kind = 0;

  private count = 0;
  private readonly left = new Int32Array(MANY);
  private readonly since = new Int32Array(MANY);
  private readonly leftThen = new Int32Array(MANY);
  private readonly sinceThen = new Int32Array(MANY);
  private readonly act = new Uint8Array(MANY);
  private readonly actBefore = new Uint8Array(MANY);
  private minutes = 0;

  constructor(private readonly tools: ToolTable) {}

  /** The tools of a kind as they are now, all wheels freshly dressed. */
  open(kind: number): void {
    const { start, items } = this.tools.left;
    this.kind = kind;
    this.count = Math.min(MANY, start[kind + 1]! - start[kind]!);
    for (let s = 0; s < this.count; s++) this.left[s] = items[start[kind]! + s]!;
    this.since.fill(0, 0, this.count);
    this.forgetActs();
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

  /** An attendance comes here, and does nothing yet. */
  remember(): void {
    this.leftThen.set(this.left.subarray(0, this.count));
    this.sinceThen.set(this.since.subarray(0, this.count));
    this.forgetActs();
  }

  /**
   * Lets the attendance remembered do the next thing more that its minutes allow and goes back to its end; false if there
   * is none. One too long is passed over, for replacing a wheel may be shorter than dressing it.
   */
  doMore(room: number): boolean {
    const { act } = this;
    this.actBefore.set(act.subarray(0, this.count));
    const before = this.minutes;
    while (this.addAct()) {
      if (this.minutes > room) continue;
      this.goBack();
      return true;
    }
    act.set(this.actBefore.subarray(0, this.count));
    this.minutes = before;
    return false;
  }

  private addAct(): boolean {
    const wheel = this.undressed();
    const sister = wheel < 0 ? this.mostWorn() : wheel;
    if (sister < 0) return false;
    const next = wheel < 0 ? REPLACE : DRESS;
    this.minutes += this.minutesOf(next) - this.minutesOf(this.act[sister]!);
    this.act[sister] = next;
    return true;
  }

  /** Minutes the acts at the attendance remembered take. */
  actMinutes(): number {
    return this.minutes;
  }

  /** The acts at the attendance remembered: sister tool, and whether it is dressed or else replaced. */
  acts(): [sister: number, isDressing: boolean][] {
    const found: [number, boolean][] = [];
    for (let s = 0; s < this.count; s++) if (this.act[s] !== NOTHING) found.push([s, this.act[s] === DRESS]);
    return found;
  }

  private forgetActs(): void {
    this.act.fill(NOTHING, 0, this.count);
    this.minutes = 0;
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

  private goBack(): void {
    const { left, since, leftThen, sinceThen, act } = this;
    for (let s = 0; s < this.count; s++) {
      left[s] = act[s] === REPLACE ? this.tools.life[this.kind]! : leftThen[s]!;
      since[s] = act[s] === NOTHING ? sinceThen[s]! : 0;
    }
  }
}
