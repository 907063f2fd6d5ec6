/** A piece of food as the heat meets it. Metres, °C. */
import type { Body } from './body.js';
import type { Calibration } from './calibration.js';
import { type Composition, FOODS, type FoodRecord } from './composition.js';
import type { Piece } from './field.js';
import { type Matter, matterOf } from './properties.js';

export interface Joint {
  readonly food: FoodRecord;
  /** A ball of poultry is a whole bird: hollow. */
  readonly body: Body;
  /** °C at the beginning, the same throughout. */
  readonly from: number;
  readonly bone: boolean;
  /** Thickness of a dry layer around it (dough, salt, crumbs), m. */
  readonly crust: number;
}

const POULTRY: ReadonlySet<FoodRecord> = new Set<FoodRecord>([FOODS.chicken, FOODS.turkey, FOODS.duck]);

/**
 * Share of bone in the weight of a piece with its bone: 10 % of a leg of pork, 15 % of a leg of lamb and 22 % of a loin of pork were
 * weighed at one household (clovegarden.com, cuts of meat).
 */
const BONE = 0.15;

/** Fresh bone with its marrow (from memory). */
const OF_BONE: Composition = { water: 0.5, protein: 0.12, fat: 0.16, carbohydrate: 0, fibre: 0, ash: 0.22 };

/**
 * Share of its weight that meat and fish lose as juice by 80 °C, part of it as drip: losses of 20 to 30 % are measured at a core of 70 to 80 °C
 * (from memory; Bengtsson, Jakobsson and Dagerskog, 1976, have the drip begin about 65 °C).
 */
const JUICE = 0.2;
const KEEPS_ITS_JUICE: ReadonlySet<FoodRecord> = new Set<FoodRecord>([FOODS.egg, FOODS.carrot, FOODS.potato]);

/** Whether it presses out juice as it is heated. */
export const givesJuice = ({ food }: Joint): boolean => !KEEPS_ITS_JUICE.has(food);

const matters = new Map<boolean, WeakMap<FoodRecord, Matter>>([
  [false, new WeakMap()],
  [true, new WeakMap()],
]);

/** Thermal properties of a joint: bone is mixed in evenly, since where it lies is not known. */
export function matterFor(joint: Joint): Matter {
  const { food, bone } = joint;
  const kept = matters.get(bone)!;
  let matter = kept.get(food);
  if (matter === undefined) {
    const juice = givesJuice(joint) ? JUICE : 0;
    matter = bone ? matterOf(withBone(food.composition), (1 - BONE) * juice) : matterOf(food.composition, juice);
    kept.set(food, matter);
  }
  return matter;
}

function withBone(meat: Composition): Composition {
  const mixed = (name: keyof Composition): number => (1 - BONE) * meat[name] + BONE * OF_BONE[name];
  return {
    water: mixed('water'),
    protein: mixed('protein'),
    fat: mixed('fat'),
    carbohydrate: mixed('carbohydrate'),
    fibre: mixed('fibre'),
    ash: mixed('ash'),
  };
}

/** Seconds in which all but 1/e of it comes to the surface. Our estimate: from 2 to 10 minutes the published times and rises hardly care. */
const SEEPS = 420;

/** The piece that the solver takes for a joint; `thicker`: all its sizes times this. */
export function pieceOf(joint: Joint, { bird, wets }: Calibration, thicker = 1): Piece {
  const { food, body } = joint;
  const matter = matterFor(joint);
  const hollow = body.shape === 'sphere' && POULTRY.has(food) ? bird : 1;
  return {
    body: enlarged(body, thicker * hollow),
    matter: { ...matter, juice: wets * matter.juice, seeps: SEEPS },
    celsius: joint.from,
  };
}

function enlarged(body: Body, times: number): Body {
  if (times === 1) return body;
  const thickness = times * body.thickness;
  switch (body.shape) {
    case 'sphere':
      return { ...body, thickness };
    case 'cylinder':
      return { ...body, thickness, length: times * body.length };
    case 'brick':
      return { ...body, thickness, width: times * body.width, length: times * body.length };
    case 'slab':
      return { ...body, thickness };
  }
}
