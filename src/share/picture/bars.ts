/** What stands in the lanes of a picture: steps as bars, temperatures as hills. */
import type { Bar } from '../../chart/lanes.js';
import { clean } from '../../chart/text.js';
import type { ViewRun } from '../../chart/view.js';
import { shortHeat } from '../../problem/degrees.js';
import { type Markup, tag, together } from '../markup.js';
import { DISH_COLOURS } from '../palette.js';
import { FOLD_WIDTH, type Frame, type Row, WIDTH } from './frame.js';
import { fitted, lengthOf } from './letters.js';

/** Height of the strip of texture at a bar's foot. */
const STRIP = 6;
/** What a label keeps clear of the ends of its bar, both together. */
const EDGES = 6;
/** So wide is even the shortest stretch. */
const LEAST = 3;

export function barOf(frame: Frame, { top, height }: Row, bar: Bar): Markup {
  const x = frame.x(bar.from);
  const width = Math.max(LEAST, frame.x(bar.to) - x);
  if (bar.texture === 'wait') {
    const y = top + height / 2;
    return tag('line', { class: 'wait', x1: x, x2: x + width, y1: y, y2: y });
  }
  const box = { x: x + 0.5, y: top + 2, width: Math.max(2, width - 1), height: height - 4 };
  if (bar.texture === 'lit') {
    return together(
      tag('rect', { class: 'lit', ...box }),
      tag('text', { class: 'small', x: x + 4, y: top + height / 2 + 4 }, fitted(bar.label, roomIn(frame, x, width))),
    );
  }
  const colour = bar.dish === null ? '' : ` d${bar.dish % DISH_COLOURS}`;
  const strip = { x: box.x, y: box.y + box.height - STRIP, width: box.width, height: STRIP };
  return tag(
    'g',
    { class: `bar${colour}` },
    tag('title', {}, titleOf(frame, bar)),
    tag('rect', { class: 'body', ...box, rx: 2 }),
    bar.texture === 'hands' ? null : tag('rect', { class: `strip ${bar.texture}`, ...strip }),
    labelOf(bar, x, top + 14, roomIn(frame, x, width)),
  );
}

/** Up to the bar's end or the next fold. */
function roomIn({ folds }: Frame, x: number, width: number): number {
  const fold = folds.find((at) => at > x && at < x + width);
  return (fold ?? x + width) - x - EDGES;
}

/** Letters of a word below which it says nothing. */
const TELLING = 3;

/** The whole label, or its beginning where that says something; else the letter alone, in the middle. */
function labelOf({ label, short }: Bar, x: number, y: number, room: number): Markup | null {
  const told = fitted(label, room);
  if (told === label || told.length >= `${short} …`.length + TELLING) return tag('text', { x: x + 4, y }, told);
  const middle = x + (room + EDGES) / 2;
  return lengthOf(short) > room + EDGES - 1 ? null : tag('text', { class: 'middle', x: middle, y }, short);
}

function titleOf({ view }: Frame, bar: Bar): string {
  const step = bar.step === null ? undefined : view.steps[bar.step];
  return step === undefined ? bar.label : `${view.dishes[step.dish]!.name}: ${step.name}`;
}

/** The temperature of an appliance: a slope for each changeover, level in each run, with its heat on it. */
export function heatOf(frame: Frame, { lane, top, height }: Row): Markup {
  const { problem, runs } = frame.view;
  const own = runs.filter((run) => run.appliance === lane.heat).sort((a, b) => a.from - b.from);
  const { room, appliances } = problem.kitchen;
  const hottest = Math.max(room + 1, ...own.map((run) => run.row.celsius));
  const foot = top + height - 2;
  const y = (celsius: number) => foot - Math.max(0.05, (celsius - room) / (hottest - room)) * (height - 18);
  const label = (run: ViewRun): Markup => {
    const left = frame.x(run.from);
    const heat = shortHeat(problem, run.row.celsius, appliances[run.appliance]!.dial.unit);
    const space = Math.max(frame.x(run.to) - left, nextAfter(own, run, frame) - left) - 4;
    const whole = `${heat} ${clean(run.row.mode)}`;
    const told = [whole, heat, heat.replace(/ .*/, '')].find((text) => lengthOf(text) <= space) ?? '';
    return tag('text', { class: 'degrees', x: left + 1, y: y(run.row.celsius) - 4 }, told);
  };
  let before = room;
  const hills = own.map((run) => {
    const points = [
      [frame.x(run.ready), foot],
      [frame.x(run.ready), y(run.ready < run.from ? before : run.row.celsius)],
      [frame.x(run.from), y(run.row.celsius)],
      [frame.x(run.to), y(run.row.celsius)],
      [frame.x(run.to), foot],
    ];
    before = run.row.celsius;
    return tag('polygon', { class: 'hill', points: points.map((pair) => pair.map(short).join(',')).join(' ') });
  });
  return together(...hills, ...own.map(label));
}

/** Where the next label begins; the picture's edge after the last. */
const nextAfter = (runs: readonly ViewRun[], run: ViewRun, frame: Frame): number => {
  const next = runs[runs.indexOf(run) + 1];
  return next ? frame.x(next.from) : WIDTH;
};

const short = (value: number): string => String(Math.round(value * 10) / 10);

/** Hours that are left out: a strip of paper over all lanes with its two edges. */
export const foldsOver = ({ folds, bottom }: Frame, top: number): Markup =>
  together(
    ...folds.map((x) =>
      together(
        tag('rect', { class: 'fold', x: x + 3, y: top, width: FOLD_WIDTH - 6, height: bottom - top }),
        ...[x + 3, x + FOLD_WIDTH - 3].map((edge) =>
          tag('line', { class: 'edge', x1: edge, x2: edge, y1: top, y2: bottom }),
        ),
      ),
    ),
  );
