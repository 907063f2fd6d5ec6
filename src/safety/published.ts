/**
 * Published figures: minimum core temperatures and rests by food, and limits on time and temperature. °F is what the
 * publications print first; °C is the whole degree that they print beside it. Nothing here is a rule of this program.
 */
import { celsiusOfFahrenheit } from '../units/temperature.js';

export interface Publication {
  readonly name: string;
  /** `looked up`: seen in stored copies of the publication; `from memory`: known from it, not seen. */
  readonly obtained: 'looked up' | 'from memory';
}

export const PUBLICATIONS = {
  coreChart: { name: 'USDA FSIS, Safe Minimum Internal Temperature Chart', obtained: 'looked up' },
  canada: { name: 'Health Canada, Safe Internal Cooking Temperatures (2012)', obtained: 'looked up' },
  dangerZone: { name: 'USDA FSIS, "Danger Zone" fact sheet', obtained: 'looked up' },
  appendixA: { name: 'USDA FSIS, Appendix A (1999), times for cooked meat', obtained: 'looked up' },
  cookingGuideline: {
    name: 'USDA FSIS, Cooking Guideline for Meat and Poultry Products (2021)',
    obtained: 'looked up',
  },
  poultryTables: {
    name: 'USDA FSIS, Time-Temperature Tables for Cooking Ready-to-Eat Poultry Products (2005)',
    obtained: 'looked up',
  },
  timeLimit: { name: 'FDA Food Code 3-501.19', obtained: 'looked up' },
  hotHolding: { name: 'FDA Food Code 3-501.16(A)', obtained: 'looked up' },
  cooling: { name: 'FDA Food Code 3-501.14(A)', obtained: 'looked up' },
  separation: { name: 'FDA Food Code 3-302.11', obtained: 'from memory' },
  charcoal: { name: 'US CPSC, charcoal and carbon monoxide', obtained: 'looked up' },
  grilling: { name: 'NFPA, grilling safety', obtained: 'from memory' },
  fire: { name: 'NFPA, cooking safety', obtained: 'looked up' },
  burns: { name: 'American Burn Association, kitchen safety', obtained: 'looked up' },
} as const satisfies Record<string, Publication>;

/** The last word on food, and on fire. */
export const LOCAL_RULES = 'local rules and licensed advice come first';
export const LOCAL_FIRE_RULES = 'local fire rules come first';

/** The `source` of a caution: its publications, how they are known, and who has the last word. */
export function sourceOf(publications: readonly Publication[], lastWord?: string): string {
  const named = publications.map(({ name, obtained }) => (obtained === 'looked up' ? name : `${name}, from memory`));
  return [...named, ...(lastWord === undefined ? [] : [lastWord])].join('; ');
}

/** A temperature as printed: °F, and the whole °C beside it. */
export interface Printed {
  readonly fahrenheit: number;
  readonly celsius: number;
}

/** `63 °C (145 °F)`. */
export const showPrinted = ({ celsius, fahrenheit }: Printed): string => `${celsius} °C (${fahrenheit} °F)`;

/** True where a temperature in °C meets the figure in either of the two degrees in which it is printed. */
export const meets = (celsius: number, figure: Printed): boolean =>
  celsius >= Math.min(figure.celsius, celsiusOfFahrenheit(figure.fahrenheit)) - 1e-6;

export interface CoreFigure extends Printed {
  /** What it is for, in a sentence: `published for poultry`. */
  readonly food: string;
  /** Minutes of rest that the chart asks for. */
  readonly rest: number;
  /** A sign that the chart takes in place of a thermometer, or another case that it knows. */
  readonly or: string | null;
  readonly publication: Publication;
  /** A stricter figure of another authority, told with the source. */
  readonly stricter: string | null;
}

export type CoreKind =
  | 'poultry'
  | 'ground poultry'
  | 'ground meat'
  | 'stuffing'
  | 'leftovers'
  | 'casserole'
  | 'pork'
  | 'raw ham'
  | 'cooked ham'
  | 'red meat'
  | 'meat'
  | 'game'
  | 'fish'
  | 'shellfish'
  | 'eggs';

const at145: Printed = { fahrenheit: 145, celsius: 63 };
const at160: Printed = { fahrenheit: 160, celsius: 71 };
const at165: Printed = { fahrenheit: 165, celsius: 74 };
const plain = { rest: 0, or: null, publication: PUBLICATIONS.coreChart, stricter: null } as const;
const canadaAsks = (figure: string): string => `Health Canada asks ${figure}`;

export const CORE_FIGURES: Readonly<Record<CoreKind, CoreFigure>> = {
  poultry: { ...plain, ...at165, food: 'poultry', stricter: canadaAsks('82 °C (180 °F) for whole birds') },
  'ground poultry': { ...plain, ...at165, food: 'ground poultry' },
  'ground meat': { ...plain, ...at160, food: 'ground meat' },
  stuffing: { ...plain, ...at165, food: 'stuffing and what it fills, at the centre' },
  leftovers: { ...plain, ...at165, food: 'food that is heated again' },
  casserole: { ...plain, ...at165, food: 'casseroles' },
  pork: { ...plain, ...at145, food: 'pork', rest: 3, stricter: canadaAsks('71 °C (160 °F)') },
  'raw ham': { ...plain, ...at145, food: 'raw ham', rest: 3, stricter: canadaAsks('71 °C (160 °F)') },
  'cooked ham': {
    ...plain,
    ...at165,
    food: 'cooked ham that is heated again',
    or: '60 °C (140 °F) where it was packed cooked in an inspected plant',
  },
  'red meat': { ...plain, ...at145, food: 'whole cuts of beef, veal and lamb', rest: 3 },
  meat: { ...plain, ...at145, food: 'whole cuts of beef, veal, lamb and pork', rest: 3 },
  game: { ...plain, ...at165, food: 'game', publication: PUBLICATIONS.canada },
  fish: {
    ...plain,
    ...at145,
    food: 'fish',
    or: 'flesh that is opaque and flakes',
    stricter: canadaAsks('70 °C (158 °F)'),
  },
  shellfish: {
    ...plain,
    ...at145,
    food: 'shellfish',
    or: 'opaque flesh and open shells',
    stricter: canadaAsks('74 °C (165 °F)'),
  },
  eggs: {
    ...plain,
    ...at160,
    food: 'egg dishes',
    or: 'firm white and yolk',
    stricter: canadaAsks('74 °C (165 °F)'),
  },
};

/** The highest figure that any food of the tables asks for: what meets it needs no name. */
export const HIGHEST_CORE: Printed = at165;

/** Between these, perishable food is in the range where germs grow. */
export const DANGER_ZONE = {
  low: { fahrenheit: 40, celsius: 4 },
  high: { fahrenheit: 140, celsius: 60 },
} as const satisfies Record<string, Printed>;

/** The same range for food businesses. */
export const TRADE_ZONE = {
  low: { fahrenheit: 41, celsius: 5 },
  high: { fahrenheit: 135, celsius: 57 },
} as const satisfies Record<string, Printed>;

/** Longest minutes out of the cold and below hot holding, in all; the shorter where the room is at least `hotRoom`. */
export const LONGEST_OUT = { minutes: 120, inHotRoom: 60, hotRoom: { fahrenheit: 90, celsius: 32 } } as const;

/** Longest minutes between these while food heats up (germs that grow then leave poison that heat does not break). */
export const COME_UP = {
  low: { fahrenheit: 50, celsius: 10 },
  high: { fahrenheit: 130, celsius: 54 },
  minutes: 360,
} as const;

/** Longest minutes out of cold and hot holding for food businesses, which then throw the food away. */
export const LONGEST_IN_TRADE = 240;

/** Cooling of cooked food: down to `first` within its minutes, and on to `cold` within its own, both from the beginning. */
export const COOLING = {
  from: { fahrenheit: 135, celsius: 57 },
  first: { fahrenheit: 70, celsius: 21, minutes: 120 },
  cold: { fahrenheit: 41, celsius: 5, minutes: 360 },
} as const;
