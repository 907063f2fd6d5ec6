/** Job shops and flexible job shops. */
import { sequenceShop } from '../../../../src/sequence/shop-search.js';
import { checkShop } from '../check/shop.js';
import { type Engine, family } from '../family.js';
import { meanGap } from '../figures.js';
import type { ShopData, ShopSchedule } from '../instances.js';
import { readFlexibleShop, readJobShop } from '../read/shops.js';
import { shopsAfter } from './constraints.js';

const machineOrders: Engine<ShopData, ShopSchedule> = {
  name: 'machine orders',
  solve: ({ machines, jobs }, effort) => {
    const modes = jobs.map((job) =>
      job.map((all) => all.map(({ machine, duration }) => ({ machine, minutes: duration }))),
    );
    const plan = sequenceShop({ machines, jobs: modes }, effort);
    let at = 0;
    const schedule = jobs.map((job) =>
      job.map(() => {
        const row = { start: plan.starts[at]!, machine: plan.machines[at]! };
        at++;
        return row;
      }),
    );
    return { schedule, lower: plan.lower, infeasible: false, generated: plan.made };
  },
};

export const jobShop = family<ShopData, ShopSchedule>({
  sets: /^jobshop$/,
  read: readJobShop,
  check: checkShop,
  engines: [machineOrders, shopsAfter(machineOrders)],
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
  engines: [machineOrders],
  aims: () => [],
});
