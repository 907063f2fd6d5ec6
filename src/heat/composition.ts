/**
 * What foods are made of: mass fractions, from which their thermal properties follow.
 * Source of the figures: ASHRAE Handbook, Refrigeration, "Thermal Properties of Foods", Table 3 (its total carbohydrate holds the
 * fibre, which is taken out here). Figures are lean meat, as raw; `obtained` says how each was come by.
 */

/** Mass fractions; they need not add up to 1, the properties use their shares of the sum. */
export interface Composition {
  readonly water: number;
  readonly protein: number;
  readonly fat: number;
  /** Without fibre. */
  readonly carbohydrate: number;
  readonly fibre: number;
  readonly ash: number;
}

export interface FoodRecord {
  /** As the source names it. */
  readonly name: string;
  /** Singular words of a cook by which it is known. */
  readonly words: readonly string[];
  readonly composition: Composition;
  readonly obtained: 'looked up' | 'from memory';
}

/** From per cent, carbohydrate with fibre, as printed. */
function record(
  name: string,
  words: string,
  [water, protein, fat, carbohydrateAndFibre, fibre, ash]: readonly [number, number, number, number, number, number],
  obtained: FoodRecord['obtained'] = 'from memory',
): FoodRecord {
  return {
    name,
    words: words.split(' '),
    composition: {
      water: water / 100,
      protein: protein / 100,
      fat: fat / 100,
      carbohydrate: (carbohydrateAndFibre - fibre) / 100,
      fibre: fibre / 100,
      ash: ash / 100,
    },
    obtained,
  };
}

export const FOODS = {
  beef: record(
    'beef sirloin, lean',
    'beef sirloin steak ribeye rib fillet tenderloin venison bison',
    [71.7, 21.24, 4.4, 0, 0, 1.08],
  ),
  beefRound: record(
    'beef round, full cut, lean',
    'round rump topside silverside brisket',
    [70.83, 22.03, 4.89, 0, 0, 1.07],
  ),
  veal: record('veal, lean', 'veal', [75.91, 20.2, 2.87, 0, 0, 1.08]),
  lamb: record('lamb leg, whole, lean', 'lamb mutton hogget goat', [74.11, 20.56, 4.51, 0, 0, 1.07]),
  pork: record('pork shoulder, whole, lean', 'pork boar', [72.63, 19.55, 7.14, 0, 0, 1.02]),
  ham: record('ham, whole, lean', 'ham gammon', [68.26, 22.32, 5.71, 0.05, 0, 3.66]),
  chicken: record('chicken', 'chicken hen capon cockerel poussin poultry', [65.99, 18.6, 15.06, 0, 0, 0.79]),
  turkey: record('turkey', 'turkey pheasant guineafowl', [70.4, 20.42, 8.02, 0, 0, 0.88]),
  duck: record('duck', 'duck duckling goose', [48.5, 11.49, 39.34, 0, 0, 0.68]),
  cod: record(
    'cod, whole',
    'cod fish hake haddock halibut turbot bass bream monkfish',
    [81.22, 17.81, 0.67, 0, 0, 1.16],
  ),
  salmon: record('salmon, pink', 'salmon trout tuna', [76.35, 19.94, 3.45, 0, 0, 1.22]),
  egg: record('egg, whole', 'egg', [75.33, 12.49, 10.02, 1.22, 0, 0.94]),
  carrot: record(
    'carrots',
    'carrot parsnip beet beetroot turnip celeriac root',
    [87.79, 1.03, 0.19, 10.14, 3, 0.87],
    'looked up',
  ),
  potato: record('potatoes, main crop', 'potato', [78.96, 2.07, 0.1, 17.98, 1.6, 0.89]),
} as const satisfies Record<string, FoodRecord>;

/**
 * The record that a cook's name for a food means, by its words from the last to the first, plural or not; null where none is
 * known. `beef`, `Leg of lamb`, `potatoes`.
 */
export function foodNamed(name: string): FoodRecord | null {
  const words = name.toLowerCase().match(/[a-z]+/g) ?? [];
  for (const word of words.reverse()) {
    const forms = [word, word.replace(/s$/, ''), word.replace(/es$/, '')];
    const found = Object.values(FOODS).find((food) => forms.some((form) => food.words.includes(form)));
    if (found !== undefined) return found;
  }
  return null;
}
