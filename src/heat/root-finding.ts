/** Where a function crosses nought, inside of a bracket that it never leaves. */

const LAST_DIGIT = 2 ** -52;
/** Halving alone takes about 60 steps down to neighbouring doubles of one size; the rest is for roots next to nought. */
const MOST_STEPS = 1100;

/**
 * The root of an increasing function between `low` (where it is negative) and `high` (positive), to the last digit or two: Newton's steps,
 * and halving wherever such a step would leave the bracket or does not at least halve the one before.
 * `evaluate` gives value and slope at points strictly inside.
 */
export function newtonWithin(
  evaluate: (x: number) => readonly [value: number, slope: number],
  low: number,
  high: number,
): number {
  let [left, right] = [low, high];
  let x = (left + right) / 2;
  let last = right - left;
  for (let step = 0; step < MOST_STEPS; step++) {
    const [value, slope] = evaluate(x);
    if (value === 0) return x;
    if (value < 0) left = x;
    else right = x;
    const newton = x - value / slope;
    const good = newton > left && newton < right && Math.abs(newton - x) <= last / 2;
    const next = good ? newton : (left + right) / 2;
    last = Math.abs(next - x);
    x = next;
    if (last <= LAST_DIGIT * Math.abs(x)) return x;
  }
  return x;
}

/**
 * The same without slopes: secants between the ends of the bracket, the older end's value halved when it stays (the Illinois rule),
 * and halving of the bracket whenever three steps have not halved it. Ends when the bracket is `tolerance` wide.
 */
export function crossingWithin(evaluate: (x: number) => number, low: number, high: number, tolerance: number): number {
  let [left, right] = [low, high];
  let [below, above] = [evaluate(left), evaluate(right)];
  if (below >= 0) return left;
  if (above <= 0) return right;
  let goal = (right - left) / 2;
  let tries = 0;
  let kept: 'left' | 'right' | null = null;
  for (let step = 0; step < MOST_STEPS && right - left > tolerance; step++) {
    const secant = right - (above * (right - left)) / (above - below);
    // Not so near an end that the other can never come close.
    const inside = Math.min(Math.max(secant, left + tolerance / 2), right - tolerance / 2);
    const x = tries < 3 && Number.isFinite(inside) ? inside : (left + right) / 2;
    const value = evaluate(x);
    if (value === 0) return x;
    if (value < 0) {
      [left, below] = [x, value];
      if (kept === 'right') above /= 2;
      kept = 'right';
    } else {
      [right, above] = [x, value];
      if (kept === 'left') below /= 2;
      kept = 'left';
    }
    tries = right - left <= goal ? 0 : tries + 1;
    if (tries === 0) goal = (right - left) / 2;
  }
  return (left + right) / 2;
}
