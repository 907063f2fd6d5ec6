/** Sizes of a piece of food as the heat sees it, and what is not said of them. Metres, kilograms, kg/m3. */
import type { Parsed } from '../units/measure.js';
import { showLength, showList, showWeight } from '../units/show.js';
import type { Piece } from './problem.js';

/**
 * `thickness` is the diameter of a cylinder and a sphere. A slab is heated through its two faces only, so that its width and
 * length matter for nothing but its weight.
 */
export type Body =
  | {
      readonly shape: 'slab';
      readonly thickness: number;
      readonly width: number | null;
      readonly length: number | null;
    }
  | { readonly shape: 'cylinder'; readonly thickness: number; readonly length: number }
  | { readonly shape: 'sphere'; readonly thickness: number }
  | { readonly shape: 'brick'; readonly thickness: number; readonly width: number; readonly length: number };

/** What is known of a piece: any part of `Piece` that says its sizes. */
export type Sizes = Pick<Piece, 'shape' | 'thickness' | 'width' | 'length' | 'weight'>;

const ALL_SIDES = ['thickness', 'width', 'length'] as const;
type Side = (typeof ALL_SIDES)[number];

const IN_WORDS: Readonly<Record<Side, string>> = { thickness: 'thick', width: 'wide', length: 'long' };

const NEEDS: Readonly<Record<Body['shape'], string>> = {
  slab: 'its thickness',
  brick: 'three of thickness, width, length and weight',
  cylinder: 'two of thickness, length and weight',
  sphere: 'its thickness or its weight',
};

/**
 * kg/m³ by which a file's pieces are weighed: raw lean meat, poultry and fish lie between 1,030 and 1,080 (by composition, with the
 * densities of Choi and Okos), which is little beside what a weight may differ by.
 */
export const USUAL_DENSITY = 1050;

/** Parts of a metre to which a size that is worked out is rounded. */
const GRAINS = 1e4;

/** A written weight may differ by this much, over the weight by the sizes: food is no solid of geometry. */
const TOLERANCE = 0.15;

/** A size that was worked out is taken for a mistake in the others beyond these, metres. */
const SHORTEST = 0.002;
const LONGEST = 2;

/** A volume is this, times the product of the shape's sides. */
const FILL: Readonly<Record<Body['shape'], number>> = {
  slab: 1,
  brick: 1,
  cylinder: Math.PI / 4,
  sphere: Math.PI / 6,
};

const SIDES: Readonly<Record<Body['shape'], readonly Side[]>> = {
  slab: ['thickness', 'width', 'length'],
  brick: ['thickness', 'width', 'length'],
  cylinder: ['thickness', 'thickness', 'length'],
  sphere: ['thickness', 'thickness', 'thickness'],
};

/** Volume in m3; null for a slab whose width or length is not known. */
export function volumeOf(body: Body): number | null {
  const sizes: Readonly<Record<Side, number | null>> = { width: null, length: null, ...body };
  let volume = FILL[body.shape];
  for (const side of SIDES[body.shape]) {
    const size = sizes[side];
    if (size === null) return null;
    volume *= size;
  }
  return volume;
}

/** The surface through which heat comes, m2: all of it, but a slab's two faces only; null for a slab whose width or length is not known. */
export function surfaceOf(body: Body): number | null {
  const { thickness } = body;
  switch (body.shape) {
    case 'slab':
      return body.width === null || body.length === null ? null : 2 * body.width * body.length;
    case 'cylinder':
      return Math.PI * thickness * (body.length + thickness / 2);
    case 'sphere':
      return Math.PI * thickness * thickness;
    case 'brick':
      return 2 * (thickness * body.width + body.width * body.length + body.length * thickness);
  }
}

/**
 * The body of a piece, a missing size worked out from its weight at `density` (kg/m3). A cylinder needs two of thickness, length
 * and weight; a sphere one of thickness and weight; a brick three of thickness, width, length and weight; a slab its thickness, or
 * width, length and weight. Where all is said the sizes hold, and the weight must agree with theirs within 15 %.
 * What is wrong comes back in a cook's words: too little known, a contradiction (with both figures), an absurd size.
 */
export function bodyOf(piece: Sizes, density: number): Parsed<Body> {
  if (!(density > 0)) throw new RangeError(`A density is more than 0 kg/m3, not ${density}`);
  const { shape, weight } = piece;
  const missing = sidesOf(shape).filter((side) => piece[side] === null);
  if (weight !== null && missing.length === 1) return sizedByWeight(piece, missing[0]!, weight, density);
  if (!isEnough(piece)) return tooLittle(piece, missing);
  const body = bodyWith(piece, {});
  const volume = volumeOf(body);
  if (weight !== null && volume !== null) {
    const bySizes = volume * density;
    if (Math.abs(weight - bySizes) > TOLERANCE * bySizes) return disagreement(piece, weight, bySizes);
  }
  return roundEnough(piece, body);
}

/** Whether a body can be made of what is said. */
function isEnough(piece: Sizes): boolean {
  const missing = sidesOf(piece.shape).filter((side) => piece[side] === null);
  if (missing.length === 0 || (piece.weight !== null && missing.length === 1)) return true;
  // A slab's width and length need not be known.
  return piece.shape === 'slab' && piece.thickness !== null;
}

/** The piece with the size that follows from the others, or as it is where too little is said; what does not go together is told. */
export function sized<T extends Sizes>(piece: T): Parsed<T> {
  if (!isEnough(piece)) return { ok: true, value: piece };
  const body = bodyOf(piece, USUAL_DENSITY);
  if (!body.ok) return body;
  const sizes: Sizes = { ...piece, ...body.value };
  const filled = ALL_SIDES.filter((side) => piece[side] === null && sizes[side] !== null);
  const rounded = filled.map((side) => [side, Math.round(sizes[side]! * GRAINS) / GRAINS] as const);
  return { ok: true, value: { ...piece, ...Object.fromEntries(rounded) } };
}

/** A cylinder and a sphere are as wide as they are thick, and a sphere as long: another size, where it is written, must say so too. */
function roundEnough(piece: Sizes, body: Body): Parsed<Body> {
  const { shape, thickness } = body;
  const odd = ALL_SIDES.find((side) => {
    const size = piece[side];
    return !SIDES[shape].includes(side) && size !== null && Math.abs(size - thickness) > TOLERANCE * thickness;
  });
  if (odd === undefined) return { ok: true, value: body };
  return {
    ok: false,
    say: `A ${shape} cannot be ${showLength(piece[odd]!)} ${IN_WORDS[odd]} and ${showLength(thickness)} thick: it is round.`,
    hint: shape === 'sphere' ? 'shape: cylinder or brick' : 'shape: brick',
  };
}

function sizedByWeight(piece: Sizes, missing: Side, weight: number, density: number): Parsed<Body> {
  const { shape } = piece;
  const others = SIDES[shape].filter((side) => side !== missing);
  const left = others.reduce((volume, side) => volume / piece[side]!, weight / density / FILL[shape]);
  const size = left ** (1 / (SIDES[shape].length - others.length));
  if (size >= SHORTEST && size <= LONGEST) return roundEnough(piece, bodyWith(piece, { [missing]: size }));
  const known = [showWeight(weight), ...sizesInWords(piece)];
  return {
    ok: false,
    say: `A ${shape} of ${showList(known)} would be ${showLength(size)} ${IN_WORDS[missing]}.`,
    hint: `look at ${known.length > 1 ? 'the sizes and the weight' : 'the weight'} again, or give its ${missing}`,
  };
}

function disagreement(piece: Sizes, weight: number, bySizes: number): Parsed<Body> {
  return {
    ok: false,
    say: `A ${piece.shape} ${showList(sizesInWords(piece))} weighs about ${showWeight(bySizes)}, but the piece says ${showWeight(weight)}.`,
    hint: 'leave out what you are least sure of: it is worked out from the rest',
  };
}

function tooLittle(piece: Sizes, missing: readonly Side[]): Parsed<Body> {
  const { shape, weight } = piece;
  const known = [...sizesInWords(piece), ...(weight === null ? [] : [showWeight(weight)])];
  const lead =
    known.length === 0 ? 'Nothing says how big the piece is' : `${showList(known)} does not say how big the piece is`;
  const wanted = [...missing, ...(weight === null ? (['weight'] as const) : [])];
  const hint =
    shape === 'slab'
      ? 'give its thickness'
      : wanted.length === 2
        ? `give its ${wanted.join(' or ')}`
        : `give ${wanted.length === 3 ? 'two' : 'three'} of ${showList(wanted)}`;
  return { ok: false, say: `${lead}: a ${shape} needs ${NEEDS[shape]}.`, hint };
}

function bodyWith(piece: Sizes, found: Partial<Record<Side, number>>): Body {
  const { shape, thickness, width, length } = { ...piece, ...found };
  switch (shape) {
    case 'slab':
      return { shape, thickness: thickness!, width, length };
    case 'brick':
      return { shape, thickness: thickness!, width: width!, length: length! };
    case 'cylinder':
      return { shape, thickness: thickness!, length: length! };
    case 'sphere':
      return { shape, thickness: thickness! };
  }
}

const sidesOf = (shape: Body['shape']): Side[] => ALL_SIDES.filter((side) => SIDES[shape].includes(side));

/** `10 cm thick`, `34 cm long`: those of the shape's sizes that are said. */
const sizesInWords = (piece: Sizes): string[] =>
  sidesOf(piece.shape).flatMap((side) => {
    const size = piece[side];
    return size === null ? [] : [`${showLength(size)} ${IN_WORDS[side]}`];
  });
