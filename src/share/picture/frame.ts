/** Where minutes and lanes lie in a picture. Lengths are the units of its `viewBox`. */
import { busyStretches } from '../../chart/busy.js';
import type { Lane } from '../../chart/lanes.js';
import { FOLD, foldedScale, foldsOf, type Scale } from '../../chart/scale.js';
import type { View } from '../../chart/view.js';
import { lengthOf } from './letters.js';

export const WIDTH = 880;
/** A cell of the chart's scale. */
const CELL = 8;
const LANE = 24;
const HEAT_LANE = 36;
const GAP = 10;
const GUTTER = { least: 70, most: 170 };

export interface Row {
  readonly lane: Lane;
  readonly top: number;
  readonly height: number;
}

export interface Frame {
  readonly view: View;
  readonly scale: Scale;
  readonly gutter: number;
  readonly rows: readonly Row[];
  /** Under the last row. */
  readonly bottom: number;
  /** Of a minute; one within a fold lies on the fold. */
  readonly x: (minute: number) => number;
  /** Left edges of the folds, which are `fold` wide. */
  readonly folds: readonly number[];
}

export const FOLD_WIDTH = FOLD * CELL;

/** `top`: where the first lane begins. */
export function frameOf(view: View, lanes: readonly Lane[], top: number): Frame {
  const longest = Math.max(0, ...lanes.map(({ indent, mark, label }) => 8 * indent + lengthOf(mark + label)));
  const wanted = Math.min(GUTTER.most, Math.max(GUTTER.least, longest + 12));
  const columns = Math.floor((WIDTH - wanted) / CELL);
  const gutter = WIDTH - columns * CELL;
  const scale = foldedScale(view.problem, busyStretches(view), columns);
  let y = top;
  const rows = lanes.map((lane, index): Row => {
    if (lane.opens && index > 0) y += GAP;
    const height = view.runs.some(({ appliance }) => appliance === lane.heat) ? HEAT_LANE : LANE;
    const row = { lane, top: y, height };
    y += height;
    return row;
  });
  return {
    view,
    scale,
    gutter,
    rows,
    bottom: y,
    x: (minute) => gutter + CELL * columnsBefore(scale, minute),
    folds: foldsOf(scale).map((column) => gutter + CELL * column),
  };
}

/** As `columnOf`, without rounding. */
function columnsBefore({ pieces, perColumn, columns }: Scale, minute: number): number {
  const piece = pieces.findLast(({ from }) => minute >= from) ?? pieces[0]!;
  const into = Math.max(0, (minute - piece.from) / perColumn);
  const most = piece === pieces.at(-1) ? columns - piece.column : piece.columns + FOLD / 2;
  return piece.column + Math.min(into, most);
}
