/** A piece of food as the heat meets it. Metres, °C. */
import type { Body } from './body.js';
import type { FoodRecord } from './composition.js';
import { type Matter, matterOf } from './properties.js';

export interface Joint {
  readonly food: FoodRecord;
  readonly body: Body;
  /** °C at the beginning, the same throughout. */
  readonly from: number;
  readonly bone: boolean;
  /** Of a dry layer around it (dough, salt, crumbs), m. */
  readonly crust: number;
}

const matters = new WeakMap<FoodRecord, Matter>();

/** The thermal properties of a joint. */
export function matterFor({ food }: Joint): Matter {
  let matter = matters.get(food);
  if (matter === undefined) {
    matter = matterOf(food.composition);
    matters.set(food, matter);
  }
  return matter;
}
