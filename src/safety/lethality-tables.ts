/**
 * Published times for which all parts of a food must be at a temperature, by food. They are for trained cooks with good
 * thermometers; a consumer's chart prints only the temperature that does it at once. Figures as printed, source beside them.
 */
import { celsiusOfFahrenheit } from '../units/temperature.js';
import { PUBLICATIONS, type Publication } from './published.js';

export interface LethalityTable {
  /** What it is for, in a sentence. */
  readonly food: string;
  readonly publication: Publication;
  /** log10 reduction of Salmonella that the times stand for. */
  readonly logs: number;
  /** By rising temperature, falling seconds; between two rows the time's logarithm is linear in the temperature. */
  readonly rows: readonly LethalityRow[];
  /** °F from which the reduction is reached at once; between the last row and this the last row's time holds. */
  readonly atOnce: number;
  /** °C at which times are told where no other temperature is asked for. */
  readonly reference: number;
}

export interface LethalityRow {
  readonly fahrenheit: number;
  readonly seconds: number;
}

/** °C. */
export const celsiusOf = ({ fahrenheit }: LethalityRow): number => celsiusOfFahrenheit(fahrenheit);

type Column = readonly (readonly [fahrenheit: number, seconds: number])[];
const rowsOf = (column: Column): LethalityRow[] => column.map(([fahrenheit, seconds]) => ({ fahrenheit, seconds }));
const MIN = 60;

/**
 * Meat: the times of FSIS's first Appendix A (cooked, roast and corned beef), and of the FDA Food Code 3-401.11(B) for whole
 * roasts of beef, veal, lamb, pork and ham. FSIS's Cooking Guideline (2021) has a table for meat products of all kinds; that its
 * figures are these is from memory. McMinn and others (Meat and Muscle Biology 2, 2018) found the times enough at 60 °C and
 * above, but not at 54.4 °C.
 */
export const MEAT: LethalityTable = {
  food: 'meat',
  publication: PUBLICATIONS.appendixA,
  logs: 6.5,
  rows: rowsOf([
    [130, 112 * MIN],
    [131, 89 * MIN],
    [132, 71 * MIN],
    [133, 56 * MIN],
    [134, 45 * MIN],
    [135, 36 * MIN],
    [136, 28 * MIN],
    [137, 23 * MIN],
    [138, 18 * MIN],
    [139, 15 * MIN],
    [140, 12 * MIN],
    [141, 9 * MIN],
    [142, 8 * MIN],
    [143, 6 * MIN],
    [144, 5 * MIN],
    [145, 4 * MIN],
    [146, 169],
    [147, 134],
    [148, 107],
    [149, 85],
    [150, 67],
    [151, 54],
    [152, 43],
    [153, 34],
    [154, 27],
    [155, 22],
    [156, 17],
    [157, 14],
  ]),
  atOnce: 158,
  reference: 60,
};

/** The same table's stricter column. It is not for poultry, FSIS says, in spite of its 7. */
export const MEAT_7: LethalityTable = {
  ...MEAT,
  logs: 7,
  rows: rowsOf([
    [130, 121 * MIN],
    [131, 97 * MIN],
    [132, 77 * MIN],
    [133, 62 * MIN],
    [134, 47 * MIN],
    [135, 37 * MIN],
    [136, 32 * MIN],
    [137, 24 * MIN],
    [138, 19 * MIN],
    [139, 15 * MIN],
    [140, 12 * MIN],
    [141, 10 * MIN],
    [142, 8 * MIN],
    [143, 6 * MIN],
    [144, 5 * MIN],
    [145, 4 * MIN],
    [146, 182],
    [147, 144],
    [148, 115],
    [149, 91],
    [150, 72],
    [151, 58],
    [152, 46],
    [153, 37],
    [154, 29],
    [155, 23],
    [156, 19],
    [157, 15],
  ]),
};

/**
 * Ground and pierced meat: the stricter column from 145 °F up. Below that the FDA Food Code 3-401.11(A)(2) has no time for it,
 * and from there on its times (145 °F 3 min, 150 °F 1 min, 155 °F 17 s, 158 °F at once) are shorter than these.
 */
export const GROUND_MEAT: LethalityTable = {
  ...MEAT_7,
  food: 'ground meat',
  rows: MEAT_7.rows.filter((row) => row.fahrenheit >= 145),
  reference: 65,
};

const POULTRY = {
  publication: PUBLICATIONS.poultryTables,
  logs: 7,
  // 165 °F takes less than 10 s whatever the species and the fat; the consumer's chart takes it as at once.
  atOnce: 165,
  reference: 60,
} as const;

/** With 1 % of fat; the rows that we have of a table that goes by single degrees. */
export const LEAN_CHICKEN: LethalityTable = {
  ...POULTRY,
  food: 'chicken with 1 % of fat',
  rows: rowsOf([
    [136, 63.3 * MIN],
    [140, 25.2 * MIN],
    [145, 8.4 * MIN],
    [150, 2.7 * MIN],
    [155, 44.2],
    [160, 13.7],
  ]),
};

/** With 1 % of fat, likewise. */
export const LEAN_TURKEY: LethalityTable = {
  ...POULTRY,
  food: 'turkey with 1 % of fat',
  rows: rowsOf([
    [136, 64 * MIN],
    [140, 28.1 * MIN],
    [145, 10.5 * MIN],
    [150, 3.8 * MIN],
    [155, 1.2 * MIN],
    [160, 25.6],
  ]),
};

/** Chicken with 12 % of fat at 140 °F: FSIS's row for the fattest birds, and for those of which nobody knows. */
export const FAT_CHICKEN_140: LethalityRow = { fahrenheit: 140, seconds: 35 * MIN };

/**
 * Fat shields germs, and who roasts a bird does not know how much of it is in it: FSIS then asks for the rows of 12 %. We have
 * one of them; its ratio to the lean one, 1.39, stretches all rows. That is our own safe side: at 160 °F the guideline's
 * longest time of all is 26.9 s, which is less than what comes out here for turkey.
 */
const FAT_MARGIN = FAT_CHICKEN_140.seconds / (25.2 * MIN);

const ofUnknownFat = (lean: LethalityTable, food: string): LethalityTable => ({
  ...lean,
  food,
  rows: lean.rows.map((row) => ({ ...row, seconds: row.seconds * FAT_MARGIN })),
});

export const CHICKEN: LethalityTable = ofUnknownFat(LEAN_CHICKEN, 'chicken');

/** Also for all other poultry: FSIS asks for the longer of the two birds' times, which is the turkey's in every row. */
export const TURKEY: LethalityTable = ofUnknownFat(LEAN_TURKEY, 'poultry');
