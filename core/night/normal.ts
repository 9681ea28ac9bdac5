/**
 * Chance that a standard normal variable stays under `z`: by the error function's rational approximation 7.1.26 of
 * Abramowitz & Stegun, Handbook of Mathematical Functions (1964), error below 1.5e-7.
 */
export function normalBelow(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const poly = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  const tail = 0.5 * poly * Math.exp(-x * x);
  return z < 0 ? tail : 1 - tail;
}

/** Beyond this a draw is taken as this: no tool life is decided by a chance of one in a hundred million. */
const LEAST = 1e-8;

/**
 * The value that a standard normal variable stays under with chance `p`: 26.2.23 of the same handbook, error below
 * 4.5e-4.
 */
export function normalAt(p: number): number {
  const within = Math.min(Math.max(p, LEAST), 1 - LEAST);
  const t = Math.sqrt(-2 * Math.log(within < 0.5 ? within : 1 - within));
  const above = t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
  return within < 0.5 ? -above : above;
}
