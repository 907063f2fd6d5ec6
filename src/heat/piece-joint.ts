/** The piece of a dish as the heat meets it. */
import { bodyOf, USUAL_DENSITY } from '../problem/body.js';
import { nearest } from '../problem/nearest.js';
import type { Dish, Piece } from '../problem/problem.js';
import { quote } from '../units/measure.js';
import { COLD } from './around.js';
import type { Refusal } from './asking.js';
import { FOODS, foodNamed } from './composition.js';
import type { Joint } from './joint.js';

/** The joint of a dish, or why it cannot be reckoned with. */
export function jointOf({ piece, name }: Pick<Dish, 'piece' | 'name'>): Joint | Refusal {
  // Where a core is asked for without a piece, the reader has said so.
  if (piece === null) return { say: `${quote(name)} has no piece.`, hint: 'piece: { ... }' };
  const food = foodNamed(piece.food) ?? foodNamed(name);
  if (food === null)
    return { say: `The heat model does not know the food ${quote(piece.food)}.`, hint: foodLike(piece) };
  const body = bodyOf(piece, USUAL_DENSITY);
  if (!body.ok) return body;
  const { from, bone, crust } = piece;
  return { food, body: body.value, from: from ?? COLD, bone, crust };
}

function foodLike({ food }: Piece): string {
  const known = Object.values(FOODS).flatMap(({ words }) => words);
  const words = food.toLowerCase().match(/[a-z]+/g) ?? [];
  const near = words.map((word) => nearest(word, known)).find((word) => word !== null);
  return (
    near ??
    `${Object.values(FOODS)
      .map(({ words: [first] }) => first)
      .join(', ')}, or what it is most like`
  );
}
