/**
 * The shapes of cuts of meat, from which a row of a roasting timetable becomes a piece. They were written down before any time was
 * reckoned from them. Every shape is filled to the row's weight, so a source gives proportions or a size that does not grow
 * with the weight. Metres, kilograms.
 */
import type { Body } from '../../src/heat/body.js';
import { FOODS, type FoodRecord, foodNamed } from '../../src/heat/composition.js';
import { type Joint, matterFor } from '../../src/heat/joint.js';

/** FSIS starts its times from meat at 40 °F. */
const FROM = 40 / 1.8 - 32 / 1.8;

/** From a volume in m³. */
type Shape = (volume: number) => Body;

/** `lengths`: as many times longer than thick. */
const cylinder =
  (lengths: number): Shape =>
  (volume) => {
    const thickness = ((4 * volume) / (Math.PI * lengths)) ** (1 / 3);
    return { shape: 'cylinder', thickness, length: lengths * thickness };
  };

/** Cut across a long muscle, whose thickness does not grow with the weight. */
const rod =
  (thickness: number): Shape =>
  (volume) => ({ shape: 'cylinder', thickness, length: (4 * volume) / (Math.PI * thickness * thickness) });

/** A cross-section that does not grow with the weight. */
const section =
  (thickness: number, width: number): Shape =>
  (volume) => ({ shape: 'brick', thickness, width, length: volume / (thickness * width) });

/** So many times wider and longer than thick. */
const block =
  (widths: number, lengths: number): Shape =>
  (volume) => {
    const thickness = (volume / (widths * lengths)) ** (1 / 3);
    return { shape: 'brick', thickness, width: widths * thickness, length: lengths * thickness };
  };

/** 4.25 in from the fat to the chine bone, and 2.5 ribs, 4.7 cm from one to the next (common practice), for every 7 lb: 3.0e-3 m³. */
const ribs: Shape = (volume) => {
  const [thickness, width] = [0.108, (2.5 * 0.047 * volume) / 3.0e-3];
  return { shape: 'brick', thickness, width, length: volume / (thickness * width) };
};

/**
 * A strip bent into a ring. The inside sees itself and, through the two openings, a third of the oven (r/h, 4 cm over 12, by the view factors of a
 * short tube), so the coldest place lies 0.69 of the thickness in from the outside (the first mode of a plate of Biot 1.9 with a third
 * of the transfer on one face), as in a strip 1.38 times as thick that is open on both.
 */
const ring = (thickness: number, width: number): Shape => section(1.38 * thickness, width);

const ball: Shape = (volume) => ({ shape: 'sphere', thickness: ((6 * volume) / Math.PI) ** (1 / 3) });

interface Cut {
  /** What its name says, of the species. */
  readonly species: RegExp;
  readonly cut: RegExp;
  readonly shape: Shape;
  readonly bone: boolean;
  /** Where the shape comes from. */
  readonly source: string;
}

const PRACTICE = 'common practice, no source';
const CLOVEGARDEN = 'measured at clovegarden.com, cuts of';
const BIRDS = /turkey|chicken|capon|hen|duck|goose|pheasant|poultry/;

/** The first that fits holds. */
const CUTS: readonly Cut[] = [
  {
    species: BIRDS,
    cut: /breast.*boneless|boneless.*breast/,
    // 1 to 1.5 in thick where it weighs 4 to 6 oz, twice as long as wide.
    shape: (volume) => ({
      shape: 'brick',
      thickness: 0.032,
      width: Math.sqrt(volume / 0.064),
      length: 2 * Math.sqrt(volume / 0.064),
    }),
    bone: false,
    source: 'cooking pages on the thickness of chicken breasts agree on 1 to 1.5 in at 4 to 6 oz',
  },
  { species: BIRDS, cut: /leg|thigh|drumstick|wing/, shape: cylinder(2.5), bone: true, source: PRACTICE },
  { species: BIRDS, cut: /./, shape: ball, bone: true, source: 'a whole bird, or its breasts on the bone, as a ball' },
  {
    species: /beef/,
    cut: /tenderloin.*half|half.*tenderloin/,
    shape: cylinder(3.1),
    bone: false,
    source: 'half of a whole tenderloin',
  },
  {
    species: /beef/,
    cut: /tenderloin|fillet/,
    shape: cylinder(6.25),
    bone: false,
    source: 'butchers: 20 to 30 in long, 3 to 5 in at its thickest, 4 to 6 lb',
  },
  {
    species: /pork|veal|lamb/,
    cut: /tenderloin|fillet/,
    shape: cylinder(5.6),
    bone: false,
    source: 'butchers: 12 to 16 in long, 2 to 3 in thick, 1 to 1.5 lb',
  },
  {
    species: /lamb/,
    cut: /crown/,
    shape: ring(0.05, 0.09),
    bone: true,
    source: 'racks, bent into a ring',
  },
  { species: /lamb/, cut: /rack|rib/, shape: section(0.05, 0.09), bone: true, source: PRACTICE },
  {
    species: /pork|veal/,
    cut: /crown/,
    shape: ring(0.058, 0.12),
    bone: true,
    source: 'a loin without its backbone, bent into a ring',
  },
  { species: /beef/, cut: /ribeye.*large/, shape: section(0.11, 0.165), bone: false, source: PRACTICE },
  {
    species: /beef/,
    cut: /ribeye/,
    shape: section(0.1, 0.15),
    bone: false,
    source: 'a rib without its bones, half as wide again as thick (common practice)',
  },
  { species: /beef/, cut: /strip|top loin/, shape: section(0.07, 0.19), bone: false, source: PRACTICE },
  { species: /beef/, cut: /tri-tip/, shape: section(0.055, 0.1), bone: false, source: PRACTICE },
  {
    species: /beef/,
    cut: /eye.*round/,
    shape: rod(0.095),
    bone: false,
    source: 'a part of a whole eye of 2.2 kg, three times as long as thick (common practice)',
  },
  { species: /beef/, cut: /petite tender/, shape: cylinder(3.6), bone: false, source: PRACTICE },
  { species: /beef/, cut: /round tip|sirloin tip/, shape: cylinder(1.1), bone: false, source: PRACTICE },
  { species: /beef/, cut: /rolled|rib.*boneless/, shape: cylinder(1), bone: false, source: PRACTICE },
  {
    species: /beef/,
    cut: /rib/,
    shape: ribs,
    bone: true,
    source:
      "Lowe, Experimental Cookery: 4 to 4.5 in from the fat to the chine bone; National Live Stock and Meat Board, Let's Cook Meat: 2 to 3 ribs are 6 to 8 lb",
  },
  {
    species: /pork|veal/,
    cut: /loin.*boneless|boneless.*loin/,
    shape: section(0.07, 0.12),
    bone: false,
    source: PRACTICE,
  },
  {
    species: /veal/,
    cut: /loin|rib|rack/,
    shape: section(0.067, 0.134),
    bone: true,
    source:
      'a double rack of 7 ribs, 3.7 cm from one to the next, weighs 10 to 12 lb (US meat buyers, item 306, from memory); twice as wide as thick, as of pork',
  },
  {
    species: /pork|veal/,
    cut: /loin|rib|rack/,
    shape: section(0.076, 0.152),
    bone: true,
    source: `${CLOVEGARDEN} pork: 12.5 lb in 18 in, twice as wide as thick`,
  },
  { species: /lamb/, cut: /leg(?!.*bone-in).*boneless|rolled/, shape: cylinder(1.5), bone: false, source: PRACTICE },
  {
    species: /lamb/,
    cut: /leg/,
    shape: block(1.31, 2.49),
    bone: true,
    source: `${CLOVEGARDEN} lamb: 4.5 in thick, 11 wide, 21 long at 11.5 lb; a tapered piece keeps its thickness`,
  },
  {
    species: /ham|pork/,
    cut: /half|spiral/,
    shape: cylinder(0.64),
    bone: true,
    source: 'half of a whole ham',
  },
  { species: /ham|pork/, cut: /portion/, shape: cylinder(1), bone: true, source: PRACTICE },
  {
    species: /ham|pork|veal/,
    cut: /boneless.*leg|leg.*boneless/,
    shape: cylinder(1.25),
    bone: false,
    source: 'a leg without its bone keeps its proportions when it is tied',
  },
  {
    species: /ham|pork|veal/,
    cut: /^(?!.*boneless).*\b(whole|leg)\b/,
    shape: cylinder(1.25),
    bone: true,
    source: `${CLOVEGARDEN} pork: a leg of 13.5 lb is 7 in thick`,
  },
  { species: /./, cut: /bone-in|bone in/, shape: cylinder(1.25), bone: true, source: PRACTICE },
  { species: /./, cut: /./, shape: cylinder(1.5), bone: false, source: PRACTICE },
];

const OF_SPECIES: readonly (readonly [RegExp, FoodRecord])[] = [
  [/ham/, FOODS.ham],
  [/hen|capon/, FOODS.chicken],
];

export interface Cutting {
  readonly joint: Joint;
  readonly source: string;
}

/** The piece of so many kilograms, cold from the refrigerator; null where the food is not known. */
export function cutOf(species: string, cut: string, weight: number): Cutting | null {
  const [name, which] = [species.toLowerCase(), cut.toLowerCase()];
  const food = OF_SPECIES.find(([words]) => words.test(name))?.[1] ?? foodNamed(name);
  if (food === null) return null;
  const { shape, bone, source } = CUTS.find((one) => one.species.test(name) && one.cut.test(which))!;
  const joint = { food, from: FROM, bone, crust: 0, body: ball(1) };
  return { joint: { ...joint, body: shape(weight / matterFor(joint).density) }, source };
}
