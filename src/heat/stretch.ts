/**
 * One piece through one stretch after another: seared on one side, then on the other, in the oven's air, at rest. The history is
 * continuous; what surrounds the piece changes at exact instants. °C, seconds (not minutes: these are the solver's), metres, J, kg.
 */
import { Exchange, isInsulated, type Surroundings } from './exchange.js';
import { evened, type Field, fieldOf, type Piece, widened } from './field.js';
import type { Extent, Extents, Side } from './grid.js';
import { Highest, type History, Recorder } from './history.js';
import { type Volume, volumeOf } from './volume.js';
import { type Accuracy, type Rows, type StretchEnd, type Until, Walk } from './walk.js';

export type { Accuracy, StretchEnd, Until } from './walk.js';

/** What is round the piece on every side. A slab has no `side`, a sphere nothing else. */
export type Around = Readonly<Record<Side, Surroundings>>;

/** The same on every side. */
export function everywhere(surroundings: Surroundings): Around {
  return { bottom: surroundings, top: surroundings, side: surroundings };
}

export interface Stretch {
  readonly around: Around;
  /** `most`: seconds after which it ends in any case. */
  readonly until: Until;
}

/** For tables and plans: the core within 0.5 °C of a much finer grid, the quickest that is. */
export const TABLE: Accuracy = { cells: 10, across: 8, tolerance: 0.4 };
/** For checks. */
export const FINE: Accuracy = { cells: 40, across: 24, tolerance: 0.02 };

export interface Run {
  readonly history: History;
  /** One for each stretch. */
  readonly ends: readonly StretchEnd[];
  readonly field: Field;
}

/** What is left of a run without its history. */
export interface Brief {
  readonly ends: readonly StretchEnd[];
  /** Where it has come to; asked before anything else is gone through, or it is lost. */
  readonly field: () => Field;
  /** The highest °C at the core, and when. */
  readonly highest: { readonly core: number; readonly seconds: number };
}

/**
 * Takes a fresh piece, or one in the middle of its history, through the stretches in turn. The grid keeps no more of the piece than
 * differs: an eighth of a brick that has the same on all sides. RangeError where a number is out of its range.
 */
export function goThrough(piece: Piece | Field, stretches: readonly Stretch[], accuracy: Accuracy = TABLE): Run {
  const { rows, ends, field } = gone(piece, stretches, accuracy, (volume) => new Recorder(volume));
  return { history: rows.history(), ends, field: field() };
}

/** The same, with nothing taken down but the highest core: for whoever tries many. */
export function goBriefly(piece: Piece | Field, stretches: readonly Stretch[], accuracy: Accuracy = TABLE): Brief {
  const { rows, ...rest } = gone(piece, stretches, accuracy, (volume) => new Highest(volume));
  return { highest: { core: rows.core, seconds: rows.seconds }, ...rest };
}

interface Gone<Kind extends Rows> extends Omit<Brief, 'highest'> {
  readonly rows: Kind;
}

function gone<Kind extends Rows>(
  piece: Piece | Field,
  stretches: readonly Stretch[],
  accuracy: Accuracy,
  rowsOf: (volume: Volume) => Kind,
): Gone<Kind> {
  const extents = extentsFor(stretches);
  const even = accuracy.evens === true && extents.upright === 'half';
  const field = 'grid' in piece ? widened(even ? evened(piece) : piece, extents) : fieldOf(piece, accuracy, extents);
  const volume = volumeOf(field, exchangesOf(stretches[0]?.around ?? everywhere({ air: 20, coefficient: 0 })));
  const rows = rowsOf(volume);
  const walk = new Walk(volume, rows, accuracy);
  const ends = stretches.map(({ around, until }, i) => {
    if (i > 0) volume.surround(exchangesOf(around));
    return walk.through(until);
  });
  return { rows, ends, field: () => volume.field() };
}

function extentsFor(stretches: readonly Stretch[]): Extents {
  const all = (test: (around: Around) => boolean): boolean => stretches.every(({ around }) => test(around));
  const upright: Extent = all(({ bottom, top }) => isInsulated(bottom) && isInsulated(top))
    ? 'one'
    : all(({ bottom, top }) => alike(bottom, top))
      ? 'half'
      : 'whole';
  return { upright, across: all(({ side }) => isInsulated(side)) ? 'one' : 'half' };
}

function alike(a: Surroundings, b: Surroundings): boolean {
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}

function exchangesOf(around: Around): (side: Side) => Exchange {
  const bottom = new Exchange(around.bottom);
  const top = around.top === around.bottom ? bottom : new Exchange(around.top);
  const side = around.side === around.top ? top : new Exchange(around.side);
  const exchanges = { bottom, top, side };
  return (of) => exchanges[of];
}
