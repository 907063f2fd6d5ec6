/** Simulated annealing over the neighbourhoods, from hot to cold at a steady rate. */
import type { Rng } from '../kernel/rng.js';
import type { Rows } from './evaluate.js';
import { NEIGHBOURHOODS } from './neighbours.js';
import type { State } from './state.js';

/** The best schedule with all jobs so far; null: none. */
export interface Best {
  cost: number;
  rows: Rows | null;
}

export interface Cooling {
  readonly hot: number;
  readonly cold: number;
  /** Changes tried. */
  readonly changes: number;
}

/** Changes between two temperatures. */
const STEP = 256;

const CHOICES: readonly (typeof NEIGHBOURHOODS)[number][] = NEIGHBOURHOODS.flatMap((entry) =>
  Array.from({ length: entry[1] }, () => entry),
);

/** Goes on from the state as it is; `best` gets every better schedule with all jobs done. `floor`: none costs less. */
export function anneal(state: State, rng: Rng, cooling: Cooling, best: Best, floor: number): number {
  const { hot, cold, changes } = cooling;
  let tried = 0;
  while (tried < changes && best.cost > floor) {
    const temperature = hot * (cold / hot) ** (tried / changes);
    for (let k = 0; k < STEP; k++) {
      const limit = -temperature * Math.log(1 - rng.real());
      state.begin();
      const neighbourhood = CHOICES[rng.below(CHOICES.length)]![2];
      if (!neighbourhood(state, rng)) {
        state.reject();
        continue;
      }
      const price = state.priceOf(limit);
      if (price > limit) {
        state.reject();
        continue;
      }
      state.commit();
      state.cost += price;
      if (state.undone === 0 && state.cost < best.cost) {
        best.cost = state.cost;
        best.rows = state.toRows();
      }
    }
    tried += STEP;
  }
  return tried;
}

/** The price of typical changes for the worse, from small to large. */
export function pricesOf(state: State, rng: Rng, samples: number): number[] {
  const prices: number[] = [];
  for (let k = 0; k < samples; k++) {
    state.begin();
    if (CHOICES[rng.below(CHOICES.length)]![2](state, rng)) {
      const price = state.priceOf(Number.POSITIVE_INFINITY);
      if (price > 0) prices.push(price);
    }
    state.reject();
  }
  return prices.sort((x, y) => x - y);
}
