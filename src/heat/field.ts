/** A piece in the middle of its history, and how it is carried to a grid that keeps more of it. */
import type { Body } from './body.js';
import { type Extent, type Extents, type Fineness, type Grid, gridOf, uprightAxis } from './grid.js';
import { heatAt, type Matter } from './properties.js';

/** A piece at one temperature, before anything has happened to it. */
export interface Piece {
  readonly body: Body;
  readonly matter: Matter;
  /** °C, -40 to 400. */
  readonly celsius: number;
}

/** What another stretch goes on from. */
export interface Field {
  readonly grid: Grid;
  readonly matter: Matter;
  /** J/m³ above 0 °C of each node. */
  readonly heat: Float64Array;
  /** kg/m² of water that the surface lacks at each node, for each of the grid's ends. */
  readonly lacks: readonly Float64Array[];
  /** Share of its juice that has been pressed out so far. */
  readonly pressed: number;
}

export function fieldOf({ body, matter, celsius }: Piece, fineness: Fineness, extents: Extents): Field {
  if (!(celsius >= -40 && celsius <= 400))
    throw new RangeError(`A piece begins between -40 and 400 °C, not at ${celsius}`);
  const grid = gridOf(body, fineness, extents);
  const heat = new Float64Array(grid.count).fill(heatAt(matter, celsius));
  return { grid, matter, heat, lacks: grid.ends.map(() => new Float64Array(grid.count)), pressed: 0 };
}

const KEEPS: Readonly<Record<Extent, number>> = { one: 0, half: 1, whole: 2 };
const wider = (a: Extent, b: Extent): Extent => (KEEPS[a] >= KEEPS[b] ? a : b);

/** The same piece on a grid that keeps at least these extents: what was mirrored or even is written out. */
export function widened(field: Field, extents: Extents): Field {
  const { grid, matter, heat, lacks, pressed } = field;
  const upright = wider(grid.extents.upright, extents.upright);
  const across = wider(grid.extents.across, extents.across);
  if (upright === grid.extents.upright && across === grid.extents.across) return field;
  const next = gridOf(grid.body, grid.fineness, { upright, across });
  const source = sources(grid, next);
  const moved = (values: Float64Array): Float64Array => Float64Array.from(source, (i) => values[i]!);
  const lacksAt = (axis: number, end: 'low' | 'high'): Float64Array => {
    const same = grid.ends.findIndex((each) => each.axis === axis && each.end === end);
    // A half shows its other end in its only one.
    const from = same >= 0 ? same : grid.ends.findIndex((each) => each.axis === axis);
    return from < 0 ? new Float64Array(next.count) : moved(lacks[from]!);
  };
  return {
    grid: next,
    matter,
    heat: moved(heat),
    lacks: next.ends.map(({ axis, end }) => lacksAt(axis, end)),
    pressed,
  };
}

/**
 * The same piece with what its top and bottom differ by evened out, so that half of it stands for the whole. As long as both meet the
 * same, the core hardly notices: what heat conducts linearly cancels out there.
 */
export function evened(field: Field): Field {
  const before = evens.get(field);
  if (before !== undefined) return before;
  const even = halved(field);
  evens.set(field, even);
  return even;
}

/** A piece is evened once, and then goes on in many ways. */
const evens = new WeakMap<Field, Field>();

function halved(field: Field): Field {
  const { grid, matter, heat, lacks, pressed } = field;
  const axis = uprightAxis(grid.body);
  if (axis === null || grid.extents.upright !== 'whole') return field;
  const next = gridOf(grid.body, grid.fineness, { ...grid.extents, upright: 'half' });
  const { length } = grid.axes[axis]!.nodes;
  const stride = grid.strides[axis]!;
  const kept = (length + 1) / 2;
  const [upper, lower] = [new Int32Array(next.count), new Int32Array(next.count)];
  for (let i = 0; i < next.count; i++) {
    const place = Math.floor(i / stride) % kept;
    const base = (Math.floor(i / (stride * kept)) * length + kept - 1) * stride + (i % stride);
    upper[i] = base + place * stride;
    lower[i] = base - place * stride;
  }
  const mean = (a: Float64Array, b: Float64Array): Float64Array =>
    Float64Array.from(upper, (from, i) => (a[from]! + b[lower[i]!]!) / 2);
  const lacksAt = (of: number, end: 'low' | 'high'): Float64Array =>
    lacks[grid.ends.findIndex((each) => each.axis === of && each.end === end)]!;
  return {
    grid: next,
    matter,
    heat: mean(heat, heat),
    lacks: next.ends.map(({ axis: of, end }) =>
      of === axis ? mean(lacksAt(of, 'high'), lacksAt(of, 'low')) : mean(lacksAt(of, end), lacksAt(of, end)),
    ),
    pressed,
  };
}

/** For each node of `next`, the node of `grid` that it comes from. */
function sources(grid: Grid, next: Grid): Int32Array {
  return new Int32Array(next.count).map((_, i) =>
    next.axes.reduce((source, { nodes: { length } }, a) => {
      const place = Math.floor(i / next.strides[a]!) % length;
      const before = grid.axes[a]!.nodes.length;
      const from = before === length ? place : before === 1 ? 0 : Math.abs(place - (before - 1));
      return source + from * grid.strides[a]!;
    }, 0),
  );
}
