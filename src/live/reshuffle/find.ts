/** The schedule of what is left: searched for with a fixed amount of work from the plan in force, then given room for what may take longer. */
import { asOrder } from '../../chance/orders.js';
import { priceOf } from '../../kernel/cost.js';
import { holds } from '../../kernel/holds.js';
import type { Model } from '../../kernel/model.js';
import type { State } from '../../kernel/state.js';
import { swerveOf } from '../../kernel/swerve.js';
import type { Compiled } from '../../solve/compile.js';
import { earliestStarts, pathsOf } from '../../solve/paths.js';
import { Reorder } from '../../solve/reorder.js';
import { search } from '../../solve/search.js';
import { polish } from '../../solve/timing.js';
import type { Happened } from '../happened.js';
import { beginWith } from './begin.js';
import type { PlanAsRead } from './doing.js';
import type { Expected } from './facts.js';
import { heldUpSteadily } from './held-up.js';
import type { Left } from './left.js';
import { compileLeft, STEADY, type Stability } from './progress.js';
import { lengthened, withRoom } from './room.js';
import type { Untangled } from './untangle.js';

export interface FindOptions extends Expected {
  readonly seed: number;
  readonly stability?: Stability;
  /** Minutes of rows that may be filled, the measure of effort; absent: what a cook does not notice. */
  readonly work?: number | undefined;
  /** So many times that. */
  readonly times?: number;
  /** Orders are also looked for in which unsure steps take so many deviations longer. */
  readonly longer?: readonly number[];
}

export interface Found {
  readonly compiled: Compiled;
  readonly state: State;
  /** Jobs that have no place in it. */
  readonly unplaced: readonly number[];
  readonly rounds: number;
  /** Steps of what is left that come well before the times that would be best if all went as is likely. */
  readonly early: readonly number[];
  /** Points with those for the lateness that is to be expected; null where that was not reckoned. */
  readonly expected: number | null;
}

/** Minutes of rows for each activity that is left. */
const WORK_EACH = 9000;
const MOST_WORK = 1.2e6;
/**
 * Where the meal lands so many minutes later than before, or something finds no place, the search goes on for so many times its work; where it
 * lands so late as before, for some.
 */
const LATER = 3;
const MUCH_MORE = 16;
const MORE = 4;
/** Orders are also looked for in which unsure steps take so many deviations longer, with a share of the work. */
const LONGER = [0.8];
const ASIDE = 0.5;
/** Of more steps that are left those orders are not begun with care: a cook waits. */
const MANY = 60;
/** Minutes from which on a step counts as early. */
export const EARLY = 3;

/** @param before minutes by which the plan in force, `known`, lands late. */
export function find(left: Left, known: PlanAsRead, before: number, happened: Happened, options: FindOptions): Found {
  const compiledOf = (some: Left, soft: boolean): Compiled =>
    compileLeft(some, known, happened, options.stability ?? STEADY, soft);
  const begin = (overruns: boolean): Start[] =>
    beginWith(compiledOf(left, overruns), left, known).map((each) => ({ ...each, soft: overruns }));
  let soft: Start[] | null = null;
  const softly = (): Start[] => {
    soft ??= begin(true);
    return soft;
  };
  const starts = begin(false);
  // Where not all of the plan in force can be kept, a gap may be better overrun than dishes made much later.
  if (starts.length > 1 || !isWhole(starts[0]!)) {
    const whole = starts.find(isWhole);
    const least = whole === undefined ? Number.POSITIVE_INFINITY : priceOf(whole.state) - 1e-6;
    starts.push(...softly().filter((start) => isWhole(start) && priceOf(start.state) < least));
  }
  let best = bestOf(starts, options);
  if (best === null || best.found.unplaced.length > 0) best = bestOf(softly(), options) ?? best;
  if (best === null) throw new Error('what is left has no earliest times');
  const { start } = best;
  const { compiled } = start;
  const { model } = compiled;
  let { found } = best;
  const more = isLater(found, before) ? MUCH_MORE : isLater(found, 0) ? MORE : 0;
  // Not in the way in which nothing better was found before.
  const seed = options.seed + 1 + happened.now;
  if (more > 0) found = searched(compiled, found.state, { ...options, seed }, more) ?? found;
  if (found.unplaced.length > 0) return found;
  const orders = [found.state];
  if (isWhole(start)) orders.push(heldUpSteadily(compiled, left, known) ?? start.state);
  for (const deviations of options.longer ?? LONGER) {
    const long = lengthened(left, deviations);
    const slow = beginWith(withHandsOf(compiledOf(long, start.soft), compiled), long, known, openIn(model) > MANY)[0]!;
    const aside = searched(slow.compiled, slow.state, options, ASIDE);
    if (aside !== null && aside.unplaced.length === 0) orders.push(asOrder(model, aside.state));
  }
  const roomy = orders.flatMap((order) => withRoom(compiled, left, order, options, happened.now) ?? []);
  const least = Math.min(...roomy.map(({ price }) => price));
  const chosen = roomy.find(({ price }) => price < least + 1e-6);
  return chosen === undefined
    ? found
    : {
        ...found,
        state: chosen.state,
        early: earlyIn(compiled, chosen.state),
        expected: chosen.price - swerveOf(chosen.state),
      };
}

interface Start extends Untangled {
  readonly soft: boolean;
}

interface Best {
  readonly start: Start;
  readonly found: Found;
}

/** What is found from each with its part of the work; null where what is left has no earliest times. */
function bestOf(starts: readonly Start[], options: FindOptions): Best | null {
  let best: Best | null = null;
  for (const start of starts) {
    const found = searched(start.compiled, start.state, options, 1 / starts.length);
    if (found !== null && (best === null || isBetter(found, best.found))) best = { start, found };
  }
  return best;
}

const isWhole = ({ compiled, state }: Untangled): boolean =>
  compiled.model.jobs.every((job) => state.jobIsPlaced(job.id));

function isBetter(one: Found, two: Found): boolean {
  const out = one.unplaced.length - two.unplaced.length;
  return out === 0 ? priceOf(one.state) < priceOf(two.state) : out < 0;
}

/** The same with those on what has begun who are on it in `other`. */
function withHandsOf(compiled: Compiled, other: Compiled): Compiled {
  const { settled } = other.model.progress!;
  return { ...compiled, model: { ...compiled.model, progress: { ...compiled.model.progress!, settled } } };
}

function isLater({ compiled, state, unplaced }: Found, before: number): boolean {
  const late = compiled.model.groups.map((group, g) => state.landing(g) - group.due);
  return unplaced.length > 0 || Math.max(0, ...late) > before + LATER;
}

/** Activities that may still be moved. */
const openIn = ({ activities, progress }: Model): number =>
  activities.filter(({ id }) => progress!.settled[id]! === null).length;

/** Null where what is left has no earliest times. */
function searched(compiled: Compiled, start: State, { seed, work, times }: FindOptions, share: number): Found | null {
  const { model } = compiled;
  const earliest = earliestStarts(model);
  if (earliest === null) return null;
  const { state, cost, unplaced, rounds } = search(model, {
    seed,
    work: share * (times ?? 1) * (work ?? Math.min(MOST_WORK, WORK_EACH * openIn(model))),
    earliest,
    paths: pathsOf(model),
    start,
    polish: (each) => polish(compiled, each, false),
    reorder: (each) => new Reorder(compiled, each),
    bound: 0,
  });
  const timed = unplaced.length > 0 ? state : polish(compiled, state, false);
  const isCheaper = unplaced.length === 0 && holds(timed) && priceOf(timed) < cost;
  return { compiled, state: isCheaper ? timed : state, unplaced, rounds, early: [], expected: null };
}

function earlyIn(compiled: Compiled, state: State): number[] {
  const likely = polish(compiled, state, false);
  return compiled.model.activities.map(({ id }) => id).filter((id) => likely.start[id]! >= state.start[id]! + EARLY);
}
