/** From minutes at some temperatures to a table that a cook can read and a plan can use. °C, minutes. */

export interface Column {
  readonly celsius: number;
  readonly minutes: number;
}

/** How far a column that is left out may lie under the line through its neighbours. */
const CLOSE = 1;

/**
 * A table of few columns for minutes that fall with rising °C: whole minutes of at least 1, falling and convex, half a minute below
 * the given ones at the most and not more than a minute and a half above. Temperatures rise, no two alike; at least one.
 */
export function columnsOf(points: readonly Column[]): Column[] {
  const whole: Column[] = [];
  for (const { celsius, minutes } of points) {
    // What is a little uneven by reckoning is not to be told as more heat taking longer.
    const most = whole.at(-1)?.minutes ?? Number.POSITIVE_INFINITY;
    whole.push({ celsius, minutes: Math.max(1, Math.min(most, Math.round(minutes))) });
  }
  return thinned(whole, hullOf(whole));
}

/** Where the line through two columns is at a temperature. */
const between = (a: Column, b: Column, celsius: number): number =>
  a.minutes + ((celsius - a.celsius) / (b.celsius - a.celsius)) * (b.minutes - a.minutes);

/** The lower convex hull: rounding makes dents, and their rims are left out. */
function hullOf(points: readonly Column[]): Column[] {
  const hull: Column[] = [];
  for (const point of points) {
    while (hull.length > 1 && hull.at(-1)!.minutes >= between(hull.at(-2)!, point, hull.at(-1)!.celsius)) hull.pop();
    hull.push(point);
  }
  return hull;
}

/** Leaves out columns as long as a line does as well for all that lie between: of a convex row any part is convex. */
function thinned(points: readonly Column[], hull: readonly Column[]): Column[] {
  const kept = hull.slice(0, 1);
  let at = 0;
  while (at < hull.length - 1) {
    let next = hull.length - 1;
    const from = hull[at]!;
    const fits = (to: Column): boolean =>
      points
        .filter(({ celsius }) => celsius > from.celsius && celsius < to.celsius)
        .every((point) => between(from, to, point.celsius) - point.minutes <= CLOSE);
    while (next > at + 1 && !fits(hull[next]!)) next--;
    kept.push(hull[next]!);
    at = next;
  }
  return kept;
}
