/**
 * Where a piece's temperatures are kept: nodes along each direction, finer at the surface, one in the middle and one on each surface.
 * Round each node lies a cell that reaches half way to its neighbours. Metres, m², m³.
 */
import type { Body } from './body.js';

/** `flat`: along a straight line; `round`: out from the axis of a cylinder; `ball`: out from the middle of a sphere. */
export type Form = 'flat' | 'round' | 'ball';

/** One direction of a grid. A cell of the whole grid is the product of the cells of its directions. */
export interface Axis {
  readonly nodes: Float64Array;
  /** Of each cell: length, area per metre or volume, by form. */
  readonly sizes: Float64Array;
  /** Between each node and the next: area over distance. */
  readonly links: Float64Array;
  /** Area at the low end; 0 where the low end is the middle of the piece, which nothing crosses. */
  readonly low: number;
  /** Area at the high end; 0 where nothing may cross there either. */
  readonly high: number;
  /** The node in the middle of the piece. */
  readonly core: number;
  /** How often the axis is in the piece: 2 where it reaches from the middle to one of two like ends. */
  readonly copies: number;
}

/** How much of a flat direction is kept: `one` cell where no heat crosses its ends, `half` where both ends are alike, or the `whole`. */
export type Extent = 'one' | 'half' | 'whole';

/** Sides as a cook sees them: a cylinder's `bottom` and `top` are its ends, whichever way it lies; a sphere is all `side`. */
export const SIDES = ['bottom', 'top', 'side'] as const;
export type Side = (typeof SIDES)[number];

/** An end of an axis that meets the surroundings. */
export interface End {
  readonly axis: number;
  readonly end: 'low' | 'high';
  readonly side: Side;
}

/** Number of cells, and how fine they are. */
export interface Fineness {
  /** From the middle to the surface in the direction of the thickness. */
  readonly cells: number;
  /** The same in the other directions. */
  readonly across: number;
}

/** The distance from the surface to the first node inside, over that of an even grid. */
const FINER = 0.6;

/** Nodes from 0 to reach, closer and closer by one ratio. */
function graded(reach: number, cells: number): Float64Array {
  const last = (FINER * reach) / cells;
  const sum = (ratio: number): number => {
    let total = 0;
    for (let i = 0; i < cells; i++) total = total * ratio + 1;
    return total;
  };
  let [low, high] = [1, 16];
  for (let i = 0; i < 50; i++) {
    const ratio = (low + high) / 2;
    if (last * sum(ratio) < reach) low = ratio;
    else high = ratio;
  }
  const nodes = new Float64Array(cells + 1);
  let distance = last;
  nodes[cells] = reach;
  for (let i = cells - 1; i > 0; i--) {
    nodes[i] = nodes[i + 1]! - distance;
    distance *= low;
  }
  return nodes;
}

/** Size of what lies within x of the middle, and the area there. */
const SIZE: Readonly<Record<Form, (x: number) => number>> = {
  flat: (x) => x,
  round: (x) => Math.PI * x * x,
  ball: (x) => (4 / 3) * Math.PI * x * x * x,
};
const AREA: Readonly<Record<Form, (x: number) => number>> = {
  flat: () => 1,
  round: (x) => 2 * Math.PI * x,
  ball: (x) => 4 * Math.PI * x * x,
};

function axisOn(form: Form, nodes: Float64Array, core: number, copies: number, lowOpen: boolean): Axis {
  const n = nodes.length;
  const sizes = new Float64Array(n);
  const links = new Float64Array(n - 1);
  let inner = SIZE[form](nodes[0]!);
  for (let i = 0; i < n; i++) {
    const edge = i === n - 1 ? nodes[i]! : (nodes[i]! + nodes[i + 1]!) / 2;
    const outer = SIZE[form](edge);
    sizes[i] = outer - inner;
    inner = outer;
    if (i < n - 1) links[i] = AREA[form](edge) / (nodes[i + 1]! - nodes[i]!);
  }
  return {
    nodes,
    sizes,
    links,
    low: lowOpen ? AREA[form](nodes[0]!) : 0,
    high: AREA[form](nodes[n - 1]!),
    core,
    copies,
  };
}

/** From the middle out to the surface. */
function outward(form: Form, reach: number, cells: number): Axis {
  return axisOn(form, graded(reach, cells), 0, form === 'flat' ? 2 : 1, false);
}

function flat(size: number, extent: Extent, cells: number): Axis {
  if (extent === 'half') return outward('flat', size / 2, cells);
  if (extent === 'one') {
    const [nodes, sizes] = [new Float64Array([size / 2]), new Float64Array([size])];
    return { nodes, sizes, links: new Float64Array(0), low: 0, high: 0, core: 0, copies: 1 };
  }
  const half = graded(size / 2, cells);
  const nodes = new Float64Array(2 * cells + 1);
  for (let i = 0; i <= cells; i++) {
    nodes[cells + i] = size / 2 + half[i]!;
    nodes[cells - i] = size / 2 - half[i]!;
  }
  return axisOn('flat', nodes, cells, 1, true);
}

/** A piece's grid: the product of its axes, the first of which runs along the thickness. */
export interface Grid {
  readonly body: Body;
  readonly fineness: Fineness;
  readonly axes: readonly Axis[];
  readonly extents: Extents;
  readonly ends: readonly End[];
  /** Of nodes. */
  readonly count: number;
  /** Nodes to skip from one to the next along each axis. */
  readonly strides: readonly number[];
  readonly core: number;
  /** How many times the grid is in the piece; of a slab, times its area. */
  readonly copies: number;
}

/** From bottom to top, and from side to side. */
export interface Extents {
  readonly upright: Extent;
  readonly across: Extent;
}

/** The last ones asked for: pieces of one size are gone through many times, and share their grid. */
const recent = new Map<string, Grid>();
const MOST = 16;

export function gridOf(body: Body, { cells, across }: Fineness, extents: Extents): Grid {
  const key = JSON.stringify([body, cells, across, extents.upright, extents.across]);
  const grid = recent.get(key) ?? newGrid(body, { cells, across }, extents);
  recent.delete(key);
  recent.set(key, grid);
  if (recent.size > MOST) recent.delete(recent.keys().next().value!);
  return grid;
}

function newGrid(body: Body, fineness: Fineness, extents: Extents): Grid {
  const axes = axesOf(body, fineness, extents);
  const strides: number[] = [];
  let [count, core, copies] = [1, 0, body.shape === 'slab' ? (body.width ?? 1) * (body.length ?? 1) : 1];
  for (const axis of axes) {
    strides.push(count);
    core += axis.core * count;
    count *= axis.nodes.length;
    copies *= axis.copies;
  }
  return { body, fineness, axes, extents, ends: endsOf(body, axes), count, strides, core, copies };
}

/** Which axis stands upright; of a sphere none. */
export function uprightAxis({ shape }: Body): number | null {
  return shape === 'sphere' ? null : shape === 'cylinder' ? 1 : 0;
}

function axesOf(body: Body, { cells, across: cellsAcross }: Fineness, { upright, across }: Extents): Axis[] {
  const reach = body.thickness / 2;
  switch (body.shape) {
    case 'sphere':
      return [outward('ball', reach, cells)];
    case 'slab':
      return [flat(body.thickness, upright, cells)];
    case 'cylinder':
      return [outward('round', reach, cells), flat(body.length, upright, cellsAcross)];
    case 'brick':
      return [
        flat(body.thickness, upright, cells),
        flat(body.width, across, cellsAcross),
        flat(body.length, across, cellsAcross),
      ];
  }
}

/** Where the axes meet the surroundings, in the order of the axes, low before high. */
function endsOf(body: Body, axes: readonly Axis[]): End[] {
  return axes.flatMap(({ low, high }, axis) => {
    const upright = axis === uprightAxis(body);
    return [
      ...(low > 0 ? [{ axis, end: 'low', side: upright ? 'bottom' : 'side' } as const] : []),
      ...(high > 0 ? [{ axis, end: 'high', side: upright ? 'top' : 'side' } as const] : []),
    ];
  });
}
