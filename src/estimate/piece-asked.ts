/** The piece that is asked about, read from words. °C, metres, kilograms. */
import { COLD } from '../heat/around.js';
import { foodNamed } from '../heat/composition.js';
import type { Joint } from '../heat/joint.js';
import { jointOf } from '../heat/piece-joint.js';
import { sized } from '../problem/body.js';
import { shapeNamed } from '../problem/piece.js';
import type { Piece } from '../problem/problem.js';
import { parseLength } from '../units/length.js';
import { type Parsed, quote, refuse } from '../units/measure.js';
import { parseTemperature } from '../units/temperature.js';
import { parseWeight } from '../units/weight.js';
import { SHAPES, type WordReader } from './words.js';

export interface PieceAsked {
  /** With all sizes that can be known. */
  readonly piece: Piece;
  readonly joint: Joint;
}

/** Null where something is wrong with it, which is then said. */
export function pieceAsked(reader: WordReader): PieceAsked | null {
  const { words } = reader;
  const [thickness, length, width, crust] = (['thickness', 'length', 'width', 'crust'] as const).map((key) =>
    reader.read(key, parseLength),
  );
  const weight = reader.read('weight', parseWeight);
  const from = reader.read('from', startOf);
  const food = foodSaid(reader);
  if (food === null) return null;
  const shape = words.shape ?? shapeNamed(food);
  if (shape === null) {
    reader.add('shape', `${quote(food)} does not say its shape.`, SHAPES.join(', '));
    return null;
  }
  if ([thickness, length, width, crust, weight, from].includes(null)) return null;
  const piece = sized({
    food,
    shape,
    thickness: thickness ?? null,
    length: length ?? null,
    width: width ?? null,
    weight: weight ?? null,
    from: from ?? COLD,
    bone: words.bone ?? false,
    crust: crust ?? 0,
  });
  const joint = piece.ok ? jointOf({ name: food, piece: piece.value }) : piece;
  if (piece.ok && !('say' in joint)) return { piece: piece.value, joint };
  // The hints are those of the meal file: `shape: brick`.
  if ('say' in joint) reader.add(null, joint.say, joint.hint.replace(/^(\w+): /, '--$1 '));
  return null;
}

/** The food's name, or null where there is none or none that the heat model knows, which is then said. */
function foodSaid(reader: WordReader): string | null {
  const { food } = reader.words;
  if (food === undefined || food.trim() === '') {
    reader.add('food', 'Nothing says what it is.', 'pork, leg of lamb, chicken, potato');
    return null;
  }
  if (foodNamed(food) !== null) return food;
  const nothing = { thickness: null, width: null, length: null, weight: null, from: null, bone: false, crust: 0 };
  const unknown = jointOf({ name: food, piece: { food, shape: 'sphere', ...nothing } });
  if ('say' in unknown) reader.add('food', unknown.say, unknown.hint);
  return null;
}

function startOf(text: string): Parsed<number> {
  const parsed = parseTemperature(text);
  if (!parsed.ok) return parsed;
  const { celsius } = parsed.value;
  if (celsius >= 0) return { ok: true, value: celsius };
  return refuse(`At ${quote(text)} it is frozen, and the heat model knows no ice.`, 'thaw it first: 4C or 40F');
}
