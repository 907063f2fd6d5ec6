/** What every schedule of a model must claim, whatever modes it chooses, so that a contradiction among claims is one of the model. */
import type { Activity, Model } from '../../kernel/model.js';
import { popcount } from '../profiles.js';
import { type Claim, during, endOf, landingOf, type Moment, moment, type Pool, type Stay, startOf } from './claim.js';
import { machinePools, type Scene } from './machine-claims.js';

export function claimsOf(scene: Scene, model: Model): { readonly pools: Pool[]; readonly stays: Stay[] } {
  const hands = handClaims(model);
  const pools = [...machinePools(scene, model), unitPool(model), ...renewablePools(model), hands.pool];
  return { pools: pools.filter((pool) => pool.claims.length > 0), stays: hands.stays };
}

const none = (): number => 0;

/** Some things that would do for a claim, and how many of them it needs. */
interface Need {
  readonly things: readonly number[];
  readonly count: number;
}

/** Largest sets that are looked through when a whole set does not clash: see `smallest` in `order-search.ts`. */
const LOOKED_THROUGH = 3;

/** Claims clash where they need more than all that would do for any of them. */
function needsPool(needs: ReadonlyMap<Claim, Need>): Pool {
  const words = Math.max(0, ...[...needs.values()].flatMap((need) => need.things)) >> 5;
  const masks = new Map(
    [...needs].map(([claim, need]) => [claim, { bits: bitsOf(need.things, words), count: need.count }]),
  );
  const union = new Int32Array(words + 1);
  const clash = (set: readonly Claim[]): boolean => {
    let asked = 0;
    union.fill(0);
    for (const claim of set) {
      const { bits, count } = masks.get(claim)!;
      asked += count;
      for (let w = 0; w <= words; w++) union[w]! |= bits[w]!;
    }
    let there = 0;
    for (let w = 0; w <= words; w++) there += popcount(union[w]!);
    return asked > there;
  };
  const most = Math.max(0, ...[...needs.values()].map((need) => need.count));
  const narrow = (claim: Claim): boolean => needs.get(claim)!.things.length < LOOKED_THROUGH * most;
  return { claims: [...needs.keys()], clash, narrow, spaced: false, apart: none };
}

function bitsOf(things: readonly number[], words: number): Int32Array {
  const bits = new Int32Array(words + 1);
  for (const thing of things) bits[thing >> 5]! |= 1 << (thing & 31);
  return bits;
}

function unitPool(model: Model): Pool {
  const needs = new Map<Claim, Need>();
  for (const { id, modes } of model.activities) {
    const count = Math.min(...modes.map((mode) => mode.unitCount));
    if (count > 0) needs.set(during(id), { things: modes.flatMap((mode) => mode.units), count });
  }
  return needsPool(needs);
}

function renewablePools(model: Model): Pool[] {
  return model.renewables.map(({ capacity }, r) => {
    const amounts = new Map<Claim, number>();
    for (const activity of model.activities) {
      const { modes } = activity;
      if (modes.every((mode) => mode.bench === r)) amounts.set(during(activity.id), 1);
      if (modes.every((mode) => mode.vessel === r))
        amounts.set(custody(model, activity, r), Math.min(...modes.map((mode) => mode.vessels)));
    }
    const clash = (set: readonly Claim[]): boolean => set.reduce((sum, one) => sum + amounts.get(one)!, 0) > capacity;
    return { claims: [...amounts.keys()], clash, narrow: null, spaced: false, apart: none };
  });
}

/** As `kernel/custody.ts`, for what holds in all modes. */
function custody(model: Model, first: Activity, renewable: number): Claim {
  const to: Moment[] = [];
  let goesOn = false;
  const walk = (activity: Activity): void => {
    to.push(moment(endOf(activity.id)));
    if (activity.empties) return;
    for (const b of activity.nexts) {
      const next = model.activities[b]!;
      if (next.modes.every((mode) => mode.transparent)) walk(next);
      else {
        if (next.modes.some((mode) => mode.transparent || mode.vessel === renewable)) goesOn = true;
        if (!next.modes.some((mode) => mode.transparent)) to.push(moment(startOf(b)));
      }
    }
    const job = model.jobs[activity.job]!;
    if (job.group >= 0) {
      if (activity.sink) to.push(moment(landingOf(model, job.group)));
      return;
    }
    let users = activity.outs.filter((lag) => model.activities[lag.to]!.job !== activity.job).map((lag) => lag.to);
    if (users.length === 0 && activity.sink) users = [...job.users];
    for (const user of users) to.push(moment(startOf(user)));
  };
  walk(first);
  const tail = goesOn ? 0 : model.renewables[renewable]!.tail;
  return { activity: first.id, from: moment(startOf(first.id)), to: to.map(({ node }) => ({ node, offset: tail })) };
}

function handClaims(model: Model): { pool: Pool; stays: Stay[] } {
  const needs = new Map<Claim, Need>();
  const stays: Stay[] = [];
  for (const activity of model.activities) {
    let able = 0;
    for (const mode of activity.modes) able |= mode.able;
    const count = Math.min(...activity.modes.map((mode) => mode.attention.crew));
    if (count === 0) continue;
    const things = [...model.workers.keys()].filter((w) => (able >>> w) & 1);
    const windows = windowsOf(model, things);
    for (const claim of stretchClaims(activity)) {
      needs.set(claim, { things, count });
      stays.push({ claim, windows });
    }
  }
  return { pool: needsPool(needs), stays };
}

/** The stays of some workers, each once. */
function windowsOf(model: Model, workers: readonly number[]): Stay['windows'] {
  const windows = workers.flatMap((w) => model.workers[w]!.stays);
  const keys = windows.map(({ from, to }) => `${from} ${to}`);
  return windows.filter((_, i) => keys.indexOf(keys[i]!) === i);
}

/** Stretches of attention that every mode has, of the least length that any has. */
function stretchClaims({ id, modes, shortest }: Activity): Claim[] {
  if (modes.every((mode) => mode.attention.all)) return [during(id)];
  const least = (part: 'start' | 'end'): number =>
    Math.min(shortest, ...modes.map(({ attention }) => (attention.all ? shortest : attention[part])));
  const start = least('start');
  const end = Math.min(least('end'), shortest - start);
  const claims: Claim[] = [];
  if (start > 0) claims.push({ activity: id, from: moment(startOf(id), 0), to: [moment(startOf(id), start)] });
  const { every, look } = modes[0]!.attention;
  if (every > 0 && modes.every(({ attention }) => attention.every === every && attention.look === look)) {
    for (let t = every; t + look <= shortest - end; t += every) {
      if (t >= start) claims.push({ activity: id, from: moment(startOf(id), t), to: [moment(startOf(id), t + look)] });
    }
  }
  if (end > 0) claims.push({ activity: id, from: moment(endOf(id), -end), to: [moment(endOf(id), 0)] });
  return claims;
}
