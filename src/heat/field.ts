/** A piece in the middle of its history, and how it is carried to a grid that keeps more of it. */
import type { Body } from './body.js';
import { type Extent, type Extents, type Fineness, type Grid, gridOf } from './grid.js';
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
  /** kg/m² of water lost at each node, for each of the grid's ends. */
  readonly lost: readonly Float64Array[];
}

export function fieldOf({ body, matter, celsius }: Piece, fineness: Fineness, extents: Extents): Field {
  if (!(celsius >= -40 && celsius <= 400))
    throw new RangeError(`A piece begins between -40 and 400 °C, not at ${celsius}`);
  const grid = gridOf(body, fineness, extents);
  const heat = new Float64Array(grid.count).fill(heatAt(matter, celsius));
  return { grid, matter, heat, lost: grid.ends.map(() => new Float64Array(grid.count)) };
}

const KEEPS: Readonly<Record<Extent, number>> = { one: 0, half: 1, whole: 2 };
const wider = (a: Extent, b: Extent): Extent => (KEEPS[a] >= KEEPS[b] ? a : b);

/** The same piece on a grid that keeps at least these extents: what was mirrored or even is written out. */
export function widened(field: Field, extents: Extents): Field {
  const { grid, matter, heat, lost } = field;
  const upright = wider(grid.extents.upright, extents.upright);
  const across = wider(grid.extents.across, extents.across);
  if (upright === grid.extents.upright && across === grid.extents.across) return field;
  const next = gridOf(grid.body, grid.fineness, { upright, across });
  const source = sources(grid, next);
  const moved = (values: Float64Array): Float64Array => Float64Array.from(source, (i) => values[i]!);
  const lostAt = (axis: number, end: 'low' | 'high'): Float64Array => {
    const same = grid.ends.findIndex((each) => each.axis === axis && each.end === end);
    // A half shows its other end in its only one.
    const from = same >= 0 ? same : grid.ends.findIndex((each) => each.axis === axis);
    return from < 0 ? new Float64Array(next.count) : moved(lost[from]!);
  };
  return { grid: next, matter, heat: moved(heat), lost: next.ends.map(({ axis, end }) => lostAt(axis, end)) };
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
