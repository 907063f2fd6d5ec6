/** The whole chart: axis above, lanes below, and the key to its letters and fills. */
import { axisRows } from './axis.js';
import { busyStretches } from './busy.js';
import { type Drawing, drawLane, fitLabels, gutterFor } from './draw.js';
import { type Glyphs, type Texture, textureOf } from './glyphs.js';
import { type Lane, type Look, lanesOf } from './lanes.js';
import { type Line, lineWidth, segment } from './line.js';
import { foldedScale, type Scale } from './scale.js';
import { cut } from './text.js';
import type { View } from './view.js';

export interface ChartOptions {
  readonly look: Look;
  readonly width: number;
  readonly glyphs: Glyphs;
  /** Index of the step under the cursor; null: none. */
  readonly cursor: number | null;
  /** The present minute, where the chart is shown on the day. */
  readonly now?: number;
  /** What the columns after the gutter show; called with their number. */
  readonly scale: (columns: number) => Scale;
}

export interface Chart {
  readonly axis: readonly Line[];
  /** From top to bottom. */
  readonly lanes: readonly Lane[];
  readonly draw: (lane: Lane) => Line;
  readonly scale: Scale;
}

export function chartOf(view: View, options: ChartOptions): Chart {
  const { width, glyphs, cursor } = options;
  const whole = lanesOf(view, options.look);
  const gutter = gutterFor(whole, width);
  const lanes = fitLabels(whole, gutter, glyphs);
  const scale = options.scale(width - gutter);
  const now = options.now ?? null;
  const drawing: Drawing = { view, scale, glyphs, gutter, cursor, now };
  const blank = segment(' '.repeat(gutter));
  return {
    axis: axisRows(view, scale, glyphs).map((line) => [blank, ...line]),
    lanes,
    draw: (lane) => drawLane(drawing, lane),
    scale,
  };
}

/** The chart of a plan in full, long empty hours folded away. */
export function wholeChart(view: View, look: Look, width: number, glyphs: Glyphs): Line[] {
  const scale = (columns: number) => foldedScale(view.problem, busyStretches(view), columns);
  const chart = chartOf(view, { look, width, glyphs, cursor: null, scale });
  const lanes = chart.lanes.flatMap((lane, index): Line[] => {
    return lane.opens && index > 0 ? [[], chart.draw(lane)] : [chart.draw(lane)];
  });
  return [...chart.axis, ...lanes];
}

/** `A Brined pork loin   B Roast roots`, on as many lines as it takes. */
export function letterKey(view: View, width: number, glyphs: Glyphs): Line[] {
  const entries = view.dishes.map((dish): Line => {
    const name = cut(dish.name, Math.max(8, Math.min(36, width - 4)), glyphs.ellipsis);
    const component = view.problem.dishes[dish.index]?.served ? '' : ' (component)';
    return [segment(dish.letter, `dish ${dish.index}`), segment(` ${name}`), segment(component, 'dim')];
  });
  return flow(entries, width);
}

const KEY: readonly [Texture, string][] = [
  ['heat', 'on the heat'],
  ['hold', 'held warm'],
  ['rest', 'rest'],
  ['chill', 'chill'],
  ['hands', 'hands'],
];

/** What the fills and marks mean, as far as the plan has them. */
export function fillKey(view: View, width: number, glyphs: Glyphs): Line[] {
  const used = new Set<Texture>(view.steps.map((step) => textureOf(step.work)));
  if (view.steps.some((step) => step.hands.length > 0)) used.add('hands');
  const entries = KEY.filter(([texture]) => used.has(texture)).map(
    ([texture, words]): Line => [segment(glyphs.fill[texture].repeat(2)), segment(` ${words}`, 'dim')],
  );
  entries.push([segment(glyphs.landed, 'landing'), segment(' served', 'dim')]);
  if (view.runs.length > 0) {
    const ramp = glyphs.rises === null ? glyphs.levels.slice(0, 4).join('') : `${glyphs.rises}${glyphs.falls}`;
    entries.push([segment(ramp, 'heat'), segment(' changeover', 'dim')]);
  }
  entries.push([segment(glyphs.several), segment(' several at once', 'dim')]);
  return flow(entries, width);
}

/** Entries side by side, three columns between, broken between entries. */
export function flow(entries: readonly Line[], width: number): Line[] {
  const lines: Line[] = [];
  let line: Line = [];
  for (const entry of entries) {
    if (line.length > 0 && lineWidth(line) + 3 + lineWidth(entry) > width) {
      lines.push(line);
      line = [];
    }
    line = line.length === 0 ? entry : [...line, segment('   '), ...entry];
  }
  return line.length === 0 ? lines : [...lines, line];
}
