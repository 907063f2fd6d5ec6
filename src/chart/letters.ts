/** The letters that stand for dishes, so that a chart is understood without colour. */

const CAPITALS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';

/**
 * A to Z, then a to z, then AA, AB and so on: unique for every dish, and one column wide for the first 52.
 */
export function letterOf(dish: number): string {
  if (dish < 26) return CAPITALS.charAt(dish);
  if (dish < 52) return CAPITALS.charAt(dish - 26).toLowerCase();
  let rest = dish - 52;
  let letters = CAPITALS.charAt(rest % 26);
  rest = Math.floor(rest / 26);
  do {
    letters = CAPITALS.charAt(rest % 26) + letters;
    rest = Math.floor(rest / 26) - 1;
  } while (rest >= 0);
  return letters;
}
