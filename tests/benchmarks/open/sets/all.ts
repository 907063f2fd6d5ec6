/** All families that have a reader; to plug in another, write its file here beside the others and add it to the list. */
import type { Family } from '../family.js';
import { ovenScheduling } from './ovens.js';
import { multiMode, single, withMaximumLags } from './projects.js';
import { flexibleShop, jobShop } from './shops.js';

const FAMILIES: readonly Family[] = [single, multiMode, withMaximumLags, jobShop, flexibleShop, ovenScheduling];

/** The first family that knows the set. */
export function familyOf(set: string): Family | null {
  return FAMILIES.find(({ sets }) => sets.test(set)) ?? null;
}
