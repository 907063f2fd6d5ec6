/** The names of cautions, which a dish's `accept` may give. What they say, and when, is in `src/safety`. */

/** By what is at stake, worst first. */
export const CAUTION_RULES = [
  /** Poultry, ground meat, stuffing, game or food heated again is set below its published core temperature. */
  'core-unsafe',
  /** Fire on a grill: carbon monoxide, walls, nobody there. */
  'grill-outdoors',
  /** The same foods as in `core-unsafe`, set below their figure and safe only if the core goes as predicted. */
  'core-predicted',
  /** Set to its published core temperature, and it may rise to less where the rest is reckoned on. */
  'core-short',
  /** A whole cut, fish or eggs are set below their published core temperature. */
  'core-low',
  /** A core target of a food that we have no figure for. */
  'core-unknown',
  /** Perishable food is neither cold nor hot for too long. */
  'warm-too-long',
  'hold-low',
  /** Raw meat and then ready-to-eat food on one board or in one pan. */
  'raw-then-ready',
  /** Heat while no cook is there. */
  'heat-alone',
  'reheat',
  'cooling',
  /** Meat, fish or eggs that no thermometer is asked for. */
  'thermometer',
  'rest-short',
  'hot-fat',
  'hot-iron',
] as const;
export type CautionRule = (typeof CAUTION_RULES)[number];
