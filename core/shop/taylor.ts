import { accept, type Fault, type Result, refuse } from './fault';

/**
 * F. W. Taylor's rule of tool life, V * T^n = C: an aid to enter a life nobody has measured. It holds for one cutter, one
 * material, one feed and depth, between speeds not far from the measured ones; a measured life beats it.
 */

/** A life at a cutting speed. */
export interface LifeAtSpeed {
  /** Cutting speed, metres a minute. */
  readonly speed: number;
  /** Minutes in the cut until the tool is spent. */
  readonly life: number;
}

/**
 * Usual exponents by what the edge is made of; a higher one means that life answers less to speed. From a public
 * examination page of a university course; to be put right by two measured lives.
 */
export const USUAL_EXPONENTS = [
  { edge: 'high-speed steel', least: 0.08, most: 0.2 },
  { edge: 'carbide', least: 0.2, most: 0.3 },
  { edge: 'ceramic', least: 0.4, most: 0.6 },
] as const;

/** Beyond this the rule has been taken too far from what was measured to mean anything. */
const LONGEST_LIFE = 100_000;

/** The exponent `n` from two measured lives: `ln(V1 / V2) / ln(T2 / T1)`. Refuses two that no exponent fits. */
export function exponentFrom(one: LifeAtSpeed, other: LifeAtSpeed): Result<number> {
  const wrong = [...notPositive('speed', one.speed, other.speed), ...notPositive('life', one.life, other.life)];
  if (wrong.length > 0) return refuse(...wrong);
  if (one.speed === other.speed) return refuse(fault('speed', 'Both lives are for the same speed; give two speeds.'));
  const [slow, fast] = one.speed < other.speed ? [one, other] : [other, one];
  if (fast.life >= slow.life) {
    const say = `At the higher speed of ${fast.speed} m/min the tool would last no shorter; check both lives.`;
    return refuse(fault('life', say));
  }
  const exponent = Math.log(fast.speed / slow.speed) / Math.log(slow.life / fast.life);
  return exponent <= 1 ? accept(exponent) : refuse(fault('exponent', beyondOne(exponent)));
}

/** The constant `C`, metres a minute: the speed at which the tool would last one minute. */
export function constantFrom(known: LifeAtSpeed, exponent: number): Result<number> {
  return refused([known], exponent) ?? accept(known.speed * known.life ** exponent);
}

/** Minutes the tool lasts at `speed` metres a minute, from one life known. */
export function lifeFromSpeed(known: LifeAtSpeed, exponent: number, speed: number): Result<number> {
  const wrong = refused([known, { speed, life: known.life }], exponent);
  if (wrong !== null) return wrong;
  const life = known.life * (known.speed / speed) ** (1 / exponent);
  if (life <= LONGEST_LIFE) return accept(life);
  const say = `At ${speed} m/min the rule gives more than ${LONGEST_LIFE} min; that is too far from ${known.speed} m/min, measure a life nearer to it.`;
  return refuse(fault('speed', say));
}

/** The cutting speed, metres a minute, at which the tool lasts `life` minutes. */
export function speedFromLife(known: LifeAtSpeed, exponent: number, life: number): Result<number> {
  return (
    refused([known, { speed: known.speed, life }], exponent) ?? accept(known.speed * (known.life / life) ** exponent)
  );
}

function refused(points: readonly LifeAtSpeed[], exponent: number): Result<number> | null {
  const wrong = [
    ...notPositive('speed', ...points.map((point) => point.speed)),
    ...notPositive('life', ...points.map((point) => point.life)),
  ];
  if (!(exponent > 0)) wrong.push(fault('exponent', 'The exponent n must be above 0; carbide has about 0.25.'));
  else if (exponent > 1) wrong.push(fault('exponent', beyondOne(exponent)));
  return wrong.length === 0 ? null : refuse(...wrong);
}

function notPositive(what: 'speed' | 'life', ...values: readonly number[]): Fault[] {
  if (values.every((value) => value > 0 && Number.isFinite(value))) return [];
  const say =
    what === 'speed'
      ? 'A cutting speed must be above 0 m/min; give the speed at the edge.'
      : 'A life must be above 0 min; give the minutes in the cut.';
  return [fault(what, say)];
}

function beyondOne(exponent: number): string {
  return `An exponent n of ${exponent.toFixed(2)} is above 1, and edges have 0.08 to 0.60; check the speeds and lives.`;
}

function fault(field: string, say: string): Fault {
  return { code: `taylor-${field}`, at: [field], say, level: 'error' };
}
