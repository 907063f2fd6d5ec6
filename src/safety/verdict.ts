/** How the core targets of a dish stand to the figures published for its food; what is said and what is refused go by this. */
import type { Step } from '../problem/problem.js';
import { isHeatedAgain } from './again.js';
import { type DishCurve, peakOf } from './curve.js';
import { comeUpOf } from './exposure.js';
import type { Food } from './foods.js';
import { type Lethality, lethalityOf } from './lethality.js';
import type { LethalityTable } from './lethality-tables.js';
import { isHeat, type Meal } from './meal.js';
import { COME_UP, CORE_FIGURES, type CoreFigure, type CoreKind, meets } from './published.js';

/** Below their figure these have made many people ill; the others are eaten pink or soft by choice. */
const UNSAFE_BELOW: ReadonlySet<CoreKind> = new Set<CoreKind>([
  'poultry',
  'ground poultry',
  'ground meat',
  'stuffing',
  'leftovers',
  'casserole',
  'cooked ham',
  'game',
]);

/** A core temperature for which the file asks. */
export interface Target {
  readonly step: Step;
  /** °C: the lowest of the step's ways, since any of them may be taken. */
  readonly celsius: number;
  /** The entry of `on` that asks for it. */
  readonly entry: number;
}

/** What of a food decides how a curve is judged. */
type Lethal = Pick<Food, 'times' | 'intact'>;

/** What the core does as predicted. */
export interface Predicted {
  /** °C. */
  readonly peak: number;
  /** Null where no times are published for the food. */
  readonly held: { readonly lethality: Lethality; readonly times: LethalityTable } | null;
  /** It satisfies the figure by its peak, or by the published times. */
  readonly satisfies: 'peak' | 'times' | null;
}

/** How a core temperature stands to the figure for a food. */
export interface Judgement {
  /** °C. */
  readonly celsius: number;
  /** Null: none goes with the name. */
  readonly figure: CoreFigure | null;
  /** The target itself meets the figure. */
  readonly met: boolean;
  /** Food for which less is refused, unless the dish accepts it. */
  readonly strict: boolean;
  /** Null where no curve is known. */
  readonly predicted: Predicted | null;
}

export interface Verdict extends Judgement {
  readonly target: Target;
}

/** Below the figure, and nothing predicts that the food gets safe all the same; whether that is refused, `strict` says. */
export const isLow = ({ figure, met, predicted }: Judgement): boolean =>
  figure !== null && !met && (predicted === null || predicted.satisfies === null);

/**
 * One verdict on the dish's cooking and one on its heating again, as far as each has targets; of several the hottest counts,
 * since all are done. Where no curve is known the target alone decides.
 */
export function verdictsOf(meal: Meal, at: number): Verdict[] {
  const food = meal.foods[at]!;
  const steps = meal.problem.dishes[at]!.steps.map((id) => meal.problem.steps[id]!);
  const again = steps.filter((step) => isHeatedAgain(meal, step));
  const first = steps.filter((step) => !again.includes(step));
  const curve = meal.curves.get(at) ?? null;
  // A curve begins with the first heat: it tells nothing of what is heated again later.
  const ofAgain = first.some(({ work }) => isHeat(work)) ? null : curve;
  return [
    ...verdict(hottestOf(first), food.core, curve, food),
    ...verdict(hottestOf(again), food.again, ofAgain, { times: null, intact: false }),
  ];
}

function verdict(target: Target | null, kind: CoreKind | null, curve: DishCurve | null, food: Lethal): Verdict[] {
  return target === null ? [] : [{ target, ...judged(kind, target.celsius, curve, food) }];
}

/**
 * A core target in °C, judged by the published figure for a kind of food and, where a curve of the core is known, by what that
 * is predicted to do. For food that is cooked first, `kind` is its `core`.
 */
export function judged(kind: CoreKind | null, celsius: number, curve: DishCurve | null, food: Lethal): Judgement {
  const figure = kind === null ? null : CORE_FIGURES[kind];
  return {
    celsius,
    figure,
    met: figure !== null && meets(celsius, figure),
    strict: kind !== null && UNSAFE_BELOW.has(kind),
    predicted: curve === null || figure === null ? null : predictedBy(curve, figure, food),
  };
}

function hottestOf(steps: readonly Step[]): Target | null {
  const targets = steps.flatMap((step) => lowestOf(step) ?? []);
  return targets.reduce<Target | null>((most, one) => (most && most.celsius > one.celsius ? most : one), null);
}

function lowestOf(step: Step): Target | null {
  const asked = step.options.flatMap(({ core, entry }) => (core === null ? [] : [{ step, celsius: core, entry }]));
  return asked.reduce<Target | null>((least, one) => (least && least.celsius <= one.celsius ? least : one), null);
}

/**
 * What a predicted core does for a food: it satisfies where its peak meets the figure, or where the published time is held
 * and it did not come up to heat too slowly for the times to hold (FSIS, Cooking Guideline).
 */
function predictedBy(curve: DishCurve, figure: CoreFigure, { times, intact }: Lethal): Predicted {
  const peak = peakOf(curve);
  const held = times === null ? null : { times, lethality: lethalityOf(curve, times) };
  if (meets(peak, figure)) return { peak, held, satisfies: 'peak' };
  const enough = held !== null && held.lethality.reached !== null && comeUpOf(curve, intact) <= COME_UP.minutes;
  return { peak, held, satisfies: enough ? 'times' : null };
}
