/** How much of its juice meat has pressed out, by temperature. °C. */

/** Half is out at this °C; where little is, so many K more make it e times as much. */
const HALF = 52 + 4 * Math.log(30);
const SCALE = 4;

/**
 * How meat that contracts lets go of its water: the share of all that it ever does, and the share's integral over temperature, K. A half by 66 °C,
 * nine tenths by 74 °C. Source: the equilibrium of Feyissa, Gernaey and Adler-Nissen, Meat Science 93 (2013) 810, 1/(1 + 30 exp(−(T − 52)/4))
 * (their constants looked up in a public simulator of beef).
 */
export function pressedOut(celsius: number): { share: number; sum: number } {
  const grown = Math.exp((celsius - HALF) / SCALE);
  return { share: grown / (1 + grown), sum: SCALE * Math.log1p(grown) };
}

/** Temperatures this near, K, are taken to be alike. */
const ALIKE = 1;
/** Share that is out where temperatures are spread evenly between two. */
export function pressedBetween(low: number, high: number): number {
  const [atLow, atHigh] = [pressedOut(low), pressedOut(high)];
  if (Math.abs(high - low) < ALIKE) return (atLow.share + atHigh.share) / 2;
  return (atHigh.sum - atLow.sum) / (high - low);
}
