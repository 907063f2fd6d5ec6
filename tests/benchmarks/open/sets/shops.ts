/** Job shops and flexible job shops. */
import { checkShop } from '../check/shop.js';
import { family } from '../family.js';
import { meanGap } from '../figures.js';
import type { ShopData, ShopSchedule } from '../instances.js';
import { readFlexibleShop, readJobShop } from '../read/shops.js';

export const jobShop = family<ShopData, ShopSchedule>({
  sets: /^jobshop$/,
  read: readJobShop,
  check: checkShop,
  engines: [],
  aims: () => [
    {
      what: 'mean gap of la01 to la20',
      of: (trials) => meanGap(trials.filter(({ instance }) => /^la(0[1-9]|1\d|20)$/.test(instance.name))),
      atMost: 0.5,
      unit: '%',
    },
  ],
});

export const flexibleShop = family<ShopData, ShopSchedule>({
  sets: /^fjsp-/,
  read: readFlexibleShop,
  check: checkShop,
  engines: [],
  aims: () => [],
});
