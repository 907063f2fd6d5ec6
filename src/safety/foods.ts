/** What a dish is, as far as cautions go: read from its piece's food and its name. */
import type { Dish } from '../problem/problem.js';
import { CHICKEN, GROUND_MEAT, type LethalityTable, MEAT, TURKEY } from './lethality-tables.js';
import type { CoreKind } from './published.js';
import { headOf, speaksOf, tokensOf, type WordList } from './words.js';

/** When the food must not lie warm: in every state, until it is cooked, or from then on. */
export type Perishable = 'always' | 'raw' | 'cooked';

export interface Food {
  /** Whose published core temperature holds for it when it is cooked first; null: none is known. */
  readonly core: CoreKind | null;
  /** Whose holds when it is cooked food that is heated again. */
  readonly again: CoreKind;
  /** Published times at a temperature that do the same when it is cooked first; null: none are known. */
  readonly times: LethalityTable | null;
  /** A whole muscle whose inside no knife, needle or hand has reached: germs are on its surface only. */
  readonly intact: boolean;
  /** Raw meat, poultry or fish is handled for it before it is cooked. */
  readonly raw: boolean;
  /** Null: not that we know. */
  readonly perishable: Perishable | null;
  /** It says of itself that it is heated again. */
  readonly leftover: boolean;
  /** Bread, biscuits, nuts: nothing that spoils while it is kept warm. */
  readonly dry: boolean;
}

const FLESH: readonly WordList[] = ['poultry', 'red', 'pork', 'ham', 'game', 'streaky', 'fish', 'shellfish', 'meat'];

export function foodOf(dish: Pick<Dish, 'name' | 'piece'>): Food {
  const name = tokensOf(dish.name);
  const piece = dish.piece === null ? [] : tokensOf(dish.piece.food);
  const all = [...piece, ...name];
  // What the piece is goes before what the dish is called: chicken-fried steak is beef.
  const speaking = hasFlesh(piece) || speaksOf(piece, 'egg') ? piece : all;
  const meatless = speaksOf(all, 'meatless');
  const flesh = !meatless && hasFlesh(speaking);
  const head = dish.piece === null ? headOf(dish.name).slice(-1) : [];
  const gravy = speaksOf(head, 'gravy');
  const fluid = gravy || speaksOf(head, 'stock') || speaksOf(head, 'sauce');
  const cooked = speaksOf(all, 'cooked');
  const perishable = perishableOf(all, flesh);
  const core = fluid ? null : coreOf(all, speaking, flesh, meatless, cooked);
  return {
    core,
    times: timesOf(core, all),
    intact: core !== null && WHOLE_CUTS.has(core) && !cooked && !speaksOf(all, 'opened'),
    again: flesh && speaksOf(speaking, 'ham') ? 'cooked ham' : 'leftovers',
    raw: flesh && !gravy && !cooked,
    perishable,
    leftover: speaksOf(all, 'leftover'),
    dry: perishable !== 'always' && perishable !== 'cooked' && speaksOf(all, 'dry'),
  };
}

/** Whole cuts of meat. A bird is none: its inside was open to hands and water. */
const WHOLE_CUTS: ReadonlySet<CoreKind> = new Set<CoreKind>(['red meat', 'pork', 'raw ham', 'meat']);

function timesOf(core: CoreKind | null, all: readonly string[]): LethalityTable | null {
  if (core === 'ground meat') return GROUND_MEAT;
  if (core === 'poultry' || core === 'ground poultry') {
    return speaksOf(all, 'chicken') && !speaksOf(all, 'otherPoultry') ? CHICKEN : TURKEY;
  }
  return core !== null && WHOLE_CUTS.has(core) ? MEAT : null;
}

const hasGround = (tokens: readonly string[]): boolean => speaksOf(tokens, 'ground', 'plants');
const hasFlesh = (tokens: readonly string[]): boolean =>
  FLESH.some((list) => speaksOf(tokens, list)) || speaksOf(tokens, 'cuts', 'plants') || hasGround(tokens);

function coreOf(
  all: readonly string[],
  speaking: readonly string[],
  flesh: boolean,
  meatless: boolean,
  cooked: boolean,
): CoreKind | null {
  const of = (list: WordList): boolean => !meatless && speaksOf(speaking, list);
  const meat =
    of('red') || of('pork') || of('ham') || of('meat') || (!meatless && speaksOf(speaking, 'cuts', 'plants'));
  const fish = of('fish') || of('shellfish');
  // Words like burger and terrine make ground meat by themselves, unless fish is all that is named.
  const ground =
    !meatless &&
    ((hasGround(all) && (meat || of('poultry') || !fish)) || (speaksOf(all, 'groundBy') && flesh && !fish));
  if (speaksOf(all, 'stuffing') || (speaksOf(all, 'stuffed') && flesh)) return 'stuffing';
  if (of('poultry')) return ground ? 'ground poultry' : 'poultry';
  if (of('game')) return 'game';
  if (speaksOf(all, 'casserole')) return 'casserole';
  if (ground) return 'ground meat';
  if (speaksOf(all, 'eggDish')) return 'eggs';
  if (of('ham')) return cooked ? 'cooked ham' : 'raw ham';
  if (of('pork')) return 'pork';
  if (of('red')) return 'red meat';
  if (meat) return 'meat';
  if (of('fish')) return 'fish';
  if (of('shellfish')) return 'shellfish';
  return speaksOf(all, 'egg') ? 'eggs' : null;
}

function perishableOf(all: readonly string[], flesh: boolean): Perishable | null {
  const always: readonly WordList[] = ['egg', 'eggDish', 'gravy', 'stock', 'dairy', 'casserole', 'stuffing'];
  if (flesh || always.some((list) => speaksOf(all, list))) return 'always';
  const raw = speaksOf(all, 'batter');
  const cooked = speaksOf(all, 'starch');
  return raw && cooked ? 'always' : raw ? 'raw' : cooked ? 'cooked' : null;
}
