/** What to mind with one piece that is cooked to a core temperature, without a meal around it. */
import type { CautionRule } from '../problem/caution-rules.js';
import type { Piece } from '../problem/problem.js';
import { quote } from '../units/measure.js';
import { showMinutes, showTemperature } from '../units/show.js';
import type { Degree } from '../units/temperature.js';
import { type Caution, type CautionRow, rankOf } from './caution.js';
import { lowCaution, restCaution, shortRise, sourceFor, told, unknownCautions } from './core.js';
import type { DishCurve } from './curve.js';
import { FAT_CAUTION, grillCaution, IRON_CAUTION } from './fire.js';
import { type Food, foodOf } from './foods.js';
import { slowCautionsOf } from './lying.js';
import { type CoreKind, LOCAL_RULES, PUBLICATIONS, sourceOf } from './published.js';
import { isLow, type Judgement, judged } from './verdict.js';

export interface SinglePiece {
  readonly piece: Piece;
  /** °C at the core: what it is pulled at, or what it rests up to. */
  readonly goal: number;
  /** What it is predicted to do; give the slowest that is to be reckoned with. */
  readonly curve: DishCurve | null;
  /** Minutes of rest. */
  readonly rest: number;
  /** It is done on a grill, or is seared first, over an open fire or in a skillet. */
  readonly grill: boolean;
  readonly sear: 'grate' | 'pan' | null;
  /** Names of cautions that are accepted. */
  readonly accept: readonly CautionRule[];
  /** In which temperatures are told that were asked for or are predicted. */
  readonly degree: Degree;
}

/** How one piece stands: its judgement, why it is refused (null: it is not), and its cautions, most serious first. */
export interface Standing {
  readonly judgement: Judgement;
  readonly refusal: { readonly say: string; readonly hint: string } | null;
  readonly cautions: readonly CautionRow[];
}

/** @throws RangeError where the curve is none. */
export function standingOf(single: SinglePiece): Standing {
  const { piece, goal, curve, degree } = single;
  const food = foodOf({ name: piece.food, piece });
  // Food that says of itself that it was cooked before.
  const again = food.leftover;
  const judgement = judged(kindOf(food), goal, curve, again ? { times: null, intact: false } : food);
  const cautions = [
    ...coreCautions(single, food, judgement),
    thermometer(judgement),
    ...(curve === null ? [] : slowCautionsOf(curve, food, null)),
    ...(single.grill ? [grillCaution('grill')] : []),
    ...(single.sear === 'pan' ? [FAT_CAUTION] : []),
    ...(single.sear === null ? [] : [IRON_CAUTION]),
  ];
  return { judgement, refusal: refusalOf(single, judgement, degree), cautions: cautions.sort(bySeriousness) };
}

/** Which published figure a piece goes by; null: none is known. */
const kindOf = (food: Food): CoreKind | null => (food.leftover ? food.again : food.core);

const bySeriousness = (a: Caution, b: Caution): number => rankOf(a) - rankOf(b);

function coreCautions({ goal, rest, degree }: SinglePiece, food: Food, judgement: Judgement): Caution[] {
  const { figure, met } = judgement;
  if (figure === null) return unknownCautions(food, goal, null, degree);
  if (!met) return [lowCaution(judgement, figure, rest > 0, null, degree)];
  const short = shortRise(judgement, figure, null, degree);
  return rest >= figure.rest ? short : [...short, restCaution(`It rests ${showMinutes(rest)}`, figure, null)];
}

/** Always said; with the published figure where no other caution gives it. */
function thermometer({ figure, met }: Judgement): Caution {
  const how =
    'Minutes say when to look, never that it is done: a thermometer does, in the thickest part and clear of bone.';
  const published = figure === null || !met ? '' : ` Published for ${figure.food}: ${told(figure)}.`;
  const source = figure === null ? sourceOf([PUBLICATIONS.coreChart], LOCAL_RULES) : sourceFor(figure);
  return { rule: 'thermometer', source, dish: null, say: `${how}${published}` };
}

function refusalOf({ piece, accept }: SinglePiece, judgement: Judgement, degree: Degree): Standing['refusal'] {
  const { figure, strict, celsius } = judgement;
  if (figure === null || !strict || !isLow(judgement) || accept.includes('core-unsafe')) return null;
  return {
    say: `The core of ${quote(piece.food)} is set to ${showTemperature(celsius, degree)}; published for ${figure.food}: ${told(figure)} (${sourceFor(figure)}).`,
    hint: `a core of ${figure.celsius}C or ${figure.fahrenheit}F; \`--accept core-unsafe\` lets it pass, with the caution`,
  };
}
