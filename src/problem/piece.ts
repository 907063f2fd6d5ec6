/** The piece of a dish: its shape where only its name says it, and the size that follows from the others. */
import { parseLength } from '../units/length.js';
import { quote } from '../units/measure.js';
import { parseTemperature } from '../units/temperature.js';
import { parseWeight } from '../units/weight.js';
import { sized } from './body.js';
import type { Piece } from './problem.js';
import type { Reading } from './reading.js';
import type { PieceEntry } from './schema.js';
import { isYes } from './schema-parts.js';

/** Words of a food, singular. The first list that speaks decides; `null`: the name does not say the shape. */
const SHAPES: readonly (readonly [shape: Piece['shape'] | null, words: string])[] = [
  ['slab', 'steak chop cutlet escalope schnitzel'],
  [null, 'belly ground mince minced burger breast thigh wing drumstick crown half'],
  [
    'cylinder',
    'beef veal lamb mutton hogget goat pork boar venison ham gammon roast joint loin tenderloin sirloin saddle rump round brisket roulade',
  ],
  [null, 'leg fillet part piece'],
  ['sphere', 'chicken turkey duck duckling goose hen capon cockerel poussin pheasant partridge quail'],
];

/** The shape that a food's name says: a roast is a cylinder, a whole bird a sphere, a steak or a chop a slab; null where it says none. */
export function shapeNamed(food: string): Piece['shape'] | null {
  const words = (food.toLowerCase().match(/[a-z]+/g) ?? []).flatMap((word) => [word, word.replace(/s$/, '')]);
  const found = SHAPES.find(([, list]) => list.split(' ').some((word) => words.includes(word)));
  return found?.[0] ?? null;
}

/** The piece with whatever of its sizes can be known; what is wrong with it is said. */
export function pieceOf(reading: Reading, entry: PieceEntry): Piece {
  const [thickness, width, length, crust] = (['thickness', 'width', 'length', 'crust'] as const).map(
    (key) => reading.quantity(entry, key, parseLength) ?? null,
  );
  const piece: Piece = {
    food: entry.food,
    shape: entry.shape ?? shapeNamed(entry.food) ?? 'cylinder',
    thickness: thickness ?? null,
    width: width ?? null,
    length: length ?? null,
    weight: reading.quantity(entry, 'weight', parseWeight) ?? null,
    from: reading.quantity(entry, 'from', parseTemperature)?.celsius ?? null,
    bone: isYes(entry.bone),
    crust: crust ?? 0,
  };
  if (reading.isHurt(entry)) return piece;
  if (entry.shape === undefined && shapeNamed(entry.food) === null) {
    // What lies there only to be named needs no shape.
    if (entry.thickness === undefined && entry.weight === undefined) return piece;
    const say = `${quote(entry.food)} does not say its shape.`;
    reading.error('missing', reading.at(entry, 'food'), say, 'shape: cylinder, sphere, slab or brick');
    return piece;
  }
  const whole = sized(piece);
  if (!whole.ok) {
    const spot = entry.weight === undefined ? reading.at(entry) : reading.at(entry, 'weight');
    reading.error('piece', spot, whole.say, whole.hint);
    return piece;
  }
  return whole.value;
}
