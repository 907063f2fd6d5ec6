/**
 * Room for what may take longer: of a new plan's order, the times that cost fewest points on the average of drawn evenings, lateness as the
 * meal rates it. Only times move; rules and points of the plan itself are those of any plan.
 */
import { latenessOn } from '../../chance/chances.js';
import { cushionTiming } from '../../chance/cushion-timing.js';
import { deviates, minutesAt, minutesBeyond, type Spread } from '../../chance/draws.js';
import { longer } from '../../chance/orders.js';
import { priceOf } from '../../kernel/cost.js';
import { holds } from '../../kernel/holds.js';
import type { State } from '../../kernel/state.js';
import type { Option } from '../../problem/problem.js';
import type { Compiled } from '../../solve/compile.js';
import { spreadOf } from '../spread.js';
import type { Expected } from './facts.js';
import type { Left } from './left.js';

/** Evenings that are drawn, the same for each new plan of a meal; fewer where many steps are left. */
const EVENINGS = 24;
const FEWEST = 4;
const STEPS = 6000;
const SEED = 1;

export interface Roomy {
  readonly state: State;
  /** Points of the plan, for leaving the one before it, and for the lateness to be expected. */
  readonly price: number;
}

/** The same order with room, or as it is where that is better; null where it has no times. */
export function withRoom(
  compiled: Compiled,
  left: Left,
  order: State,
  { expected }: Expected,
  now: number,
): Roomy | null {
  const { model } = compiled;
  const open = model.activities.filter(({ id }) => !(left.steps[id]!.fact?.ended ?? false)).length;
  const count = Math.max(FEWEST, Math.min(EVENINGS, Math.floor(STEPS / open)));
  const rows = new Map<number, Float64Array>();
  for (const { id } of model.activities) {
    const { fact, origin } = left.steps[id]!;
    // What a reading tells is as good as sure.
    const spread = fact !== null && (fact.ended || expected?.has(origin)) ? null : spreadIn(compiled, left, order, id);
    if (spread === null) continue;
    const been = fact === null ? 0 : now - fact.doing.start;
    const drawn = (z: number): number => (fact === null ? minutesAt(spread, z) : minutesBeyond(spread, been, z));
    rows.set(
      id,
      deviates(count, SEED, origin).map((z) => Math.max(been + 1, Math.round(drawn(z)))),
    );
  }
  const days = Array.from({ length: count }, (_, k) => new Map([...rows].map(([id, row]) => [id, row[k]!])));
  const priced = (state: State): Roomy => {
    const planned = Math.max(0, ...model.groups.map((group, g) => state.landing(g) - group.due));
    const late = latenessOn({ compiled, state }, rows, count).reduce((sum, one) => sum + Math.max(0, one - planned), 0);
    return { state, price: priceOf(state) + (model.rates.late * late) / count };
  };
  const roomy = cushionTiming(compiled, order, { days, within: 0, rate: model.rates.late });
  const found = roomy === null ? [] : [priced(roomy)];
  // What has room already may have it in a better way than one that is reckoned on so few evenings.
  if (isInTime(order)) found.push(priced(order));
  return found.sort((one, two) => one.price - two.price)[0] ?? null;
}

/** Whether an order is a schedule too, with the minutes that its steps take. */
function isInTime(order: State): boolean {
  const asLong = order.model.activities.every(({ id }) => {
    const { range, settings } = order.modeOf(id);
    return range !== null || settings[order.setting[id]!]!.minutes === order.minutes[id];
  });
  return asLong && holds(order);
}

/** Of a step that has not ended; null where its length is the cook's choice. */
function spreadIn({ model }: Compiled, left: Left, state: State, id: number): Spread | null {
  const { fact, usual } = left.steps[id]!;
  const option = fact === null ? left.problem.steps[id]!.options[state.mode[id]!]! : usual!.option;
  if (option.duration.kind === 'range') return null;
  const machine = model.machines[state.modeOf(id).machine];
  return spreadOf(option, fact === null ? (machine?.states[state.stateOf(id)]?.level ?? null) : fact.doing.celsius);
}

/** What is left with every unsure step so many deviations longer. */
export function lengthened(left: Left, deviations: number): Left {
  const by = (option: Option, celsius: number | null): number => {
    const spread = spreadOf(option, celsius);
    return Math.round((deviations * (spread.high - spread.likely)) / spread.deviations);
  };
  const steps = left.problem.steps.map((step, id) =>
    left.steps[id]!.fact !== null ? step : { ...step, options: step.options.map((option) => longer(option, by)) },
  );
  return { ...left, problem: { ...left.problem, steps } };
}
