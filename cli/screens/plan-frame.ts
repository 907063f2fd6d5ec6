/** One frame of the plan's screen as lines: as many as the window has rows, none wider than its columns. */

import { busyStretches } from '../../src/chart/busy.js';
import { chanceInShort, chanceLines } from '../../src/chart/chances.js';
import { type Chart, chartOf, letterKey } from '../../src/chart/chart.js';
import { dayAt } from '../../src/chart/clock.js';
import { type Glyphs, inGlyphs } from '../../src/chart/glyphs.js';
import { clip, type Line, lineWidth, plainLine, type Role, segment } from '../../src/chart/line.js';
import { agendaLines, callLines, cautionLines, firstWords, landingWords, statusWords } from '../../src/chart/report.js';
import { evenScale, foldedScale } from '../../src/chart/scale.js';
import { clean, cut, widthOf } from '../../src/chart/text.js';
import type { View } from '../../src/chart/view.js';
import { clockAt } from '../../src/problem/hours.js';
import { keyTable } from './keys.js';
import { fitted, hint, hintsWithin, keyLines, listed, type Size, spread } from './parts.js';
import type { PlanState } from './plan-state.js';
import { detailLines, detailTitle } from './step-detail.js';

const SMALLEST: Size = { columns: 60, rows: 16 };
/** Rows of the detail pane at least, its title counted. */
const DETAIL = 7;
/** Columns from which the calls stand beside the detail. */
const WIDE = 110;

export function planFrame(view: View, state: PlanState, size: Size, glyphs: Glyphs): Line[] {
  return fitted(framed(view, state, size, glyphs), size);
}

function framed(view: View, state: PlanState, size: Size, glyphs: Glyphs): Line[] {
  const { columns, rows } = size;
  const head = headLines(view, size, glyphs);
  const hints = hintLine(state, columns, glyphs);
  const room = rows - head.length - 1;
  if (state.pane === 'help') return [...head, ...listed(helpLines(glyphs), state.scroll, room, glyphs), hints];
  if (state.pane === 'calls') {
    const calls = [callLines, chanceLines, cautionLines].flatMap((lines) => lines(view, columns - 1, glyphs));
    return [...head, ...listed(calls.slice(1), state.scroll, room, glyphs), hints];
  }
  if (columns < SMALLEST.columns || rows < SMALLEST.rows) {
    return [...head, ...listed(agendaLines(view, columns, glyphs), callOfCursor(view, state), room, glyphs), hints];
  }
  const { axis, lanes } = chartPart(view, state, size, room, glyphs);
  const below = room - axis.length - lanes.length;
  return [...head, ...axis, ...lanes, ...lowerPart(view, state, columns, below, glyphs), hints];
}

/** In a window too small for a chart the list begins near the step under the cursor. */
const callOfCursor = (view: View, state: PlanState): number =>
  state.cursor === null ? 0 : Math.max(0, view.byClock.indexOf(state.cursor));

function headLines(view: View, { columns, rows }: Size, glyphs: Glyphs): Line[] {
  const { problem } = view;
  const courses = landingWords(view);
  const serve = inGlyphs(courses === '' ? `serve ${clockAt(problem, problem.serve)}` : courses, glyphs);
  const when = ` ${dayAt(problem, problem.serve)}, ${cut(serve, Math.floor(columns * 0.55), glyphs.ellipsis)} `;
  const title = cut(clean(problem.title), columns - widthOf(when) - 3, glyphs.ellipsis);
  const status = statusWords(view);
  const first = inGlyphs(firstWords(view), glyphs);
  const says = cut(inGlyphs(status.say, glyphs), columns - 2, glyphs.ellipsis);
  const room = columns - widthOf(says) - 12;
  const start: Line = room < 12 ? [] : [segment('first ', 'dim'), segment(`${cut(first, room, glyphs.ellipsis)} `)];
  const lines: Line[] = [
    spread([segment(` ${title}`, 'title')], [segment(when, 'landing')], columns),
    spread([segment(` ${says}`, status.role)], start, columns),
  ];
  if (rows < 30) return lines;
  const chance = chanceInShort(view);
  if (chance !== '') lines.push([segment(` ${cut(chance, columns - 2, glyphs.ellipsis)}`, 'dim')]);
  const letters = letterKey(view, columns - 2, glyphs).slice(0, Math.floor(rows / 12));
  return [...lines, [], ...letters.map((line): Line => [segment(' '), ...line]), []];
}

/** The keys that matter most; where they do not all fit, those that explain themselves go first. */
function hintLine(state: PlanState, columns: number, glyphs: Glyphs): Line {
  const { look, pane } = state;
  const scroll = hint(`${glyphs.up}${glyphs.down}`, 'scroll');
  const leave = hint('q', 'leave');
  if (pane !== 'chart') return [...scroll, ...hint('Esc', 'back to the chart'), ...leave];
  const hints = [
    hint(`${glyphs.left}${glyphs.right}`, 'step'),
    hint(`${glyphs.up} ${glyphs.down}`, 'lane'),
    hint('+ -', 'zoom'),
    hint('l', 'calls'),
    hint('p', 'place', look === 'place'),
    hint('d', 'dish', look === 'dish'),
    hint('c', 'cook', look === 'cook'),
    hint('?', 'help'),
    leave,
  ];
  return hintsWithin(hints, columns);
}

function helpLines(glyphs: Glyphs): Line[] {
  const marks: [string, string][] = [
    [glyphs.fill.heat.repeat(2), 'on the heat'],
    [glyphs.fill.hold.repeat(2), 'held warm'],
    [glyphs.fill.rest.repeat(2), 'rest'],
    [glyphs.fill.chill.repeat(2), 'chill'],
    [glyphs.fill.hands.repeat(2), 'work of the hands alone'],
    [glyphs.fill.wait.repeat(2), 'waiting'],
    [glyphs.fill.cursor.repeat(2), 'the step under the cursor'],
    [glyphs.several, 'several short things: go closer'],
    [glyphs.landed, 'a course is served'],
    [`${glyphs.tight} ${glyphs.loose}`, 'no minute to spare; some minutes to spare'],
  ];
  return keyLines(keyTable(glyphs), marks);
}

function chartPart(view: View, state: PlanState, { columns, rows }: Size, room: number, glyphs: Glyphs) {
  const chart = chartOf(view, {
    look: state.look,
    width: columns,
    glyphs,
    cursor: state.cursor,
    scale: (width) =>
      state.window === 'whole'
        ? foldedScale(view.problem, busyStretches(view), width)
        : evenScale(view.problem, state.window, width),
  });
  const space = room - chart.axis.length - Math.max(DETAIL, Math.floor(rows / 5));
  return { axis: chart.axis, lanes: visibleLanes(chart, state, space, glyphs) };
}

/** The lanes that fit, with the cursor's lane among them. */
function visibleLanes(chart: Chart, state: PlanState, space: number, glyphs: Glyphs): Line[] {
  const { draw } = chart;
  const airy = chart.lanes.flatMap((lane, index) => (lane.opens && index > 0 ? [null, lane] : [lane]));
  const lanes = airy.length <= space ? airy : chart.lanes;
  if (lanes.length <= space) return lanes.map((lane) => (lane === null ? [] : draw(lane)));
  const top = Math.max(0, Math.min(lanes.length - space, state.lane - Math.floor(space / 2)));
  const shown = chart.lanes.slice(top, top + space).map(draw);
  const mark = (line: Line, glyph: string): Line => [segment(glyph, 'strong'), ...clipStart(line)];
  if (top > 0) shown[0] = mark(shown[0]!, glyphs.above);
  if (top + space < lanes.length) shown[space - 1] = mark(shown[space - 1]!, glyphs.below);
  return shown;
}

/** A lane's first column holds the pointer alone: it gives way to the mark of more lanes. */
const clipStart = (line: Line): Line => line.slice(1);

function lowerPart(view: View, state: PlanState, columns: number, rows: number, glyphs: Glyphs): Line[] {
  if (rows <= 0) return [];
  if (state.cursor === null) return [plainLine(' No step to show.', 'dim')];
  const title = detailTitle(view, state.cursor, columns, glyphs);
  if (columns < WIDE) return [title, ...detailRows(view, state.cursor, columns, rows - 1, glyphs)];
  const left = Math.floor(columns / 2);
  const detail = detailRows(view, state.cursor, left - 2, rows - 1, glyphs);
  const calls = callsFrom(view, view.steps[state.cursor]!.from, columns - left - 1, rows - 1, glyphs);
  const joined = Array.from({ length: rows - 1 }, (_, row): Line => {
    const one = clip(detail[row] ?? [], left - 2);
    return [...one, segment(' '.repeat(left - lineWidth(one))), ...(calls[row] ?? [])];
  });
  return [title, ...joined];
}

function detailRows(view: View, cursor: number, columns: number, rows: number, glyphs: Glyphs): Line[] {
  const lines = detailLines(view, cursor, columns, rows, glyphs);
  return [...lines, ...Array.from({ length: Math.max(0, rows - lines.length) }, (): Line => [])];
}

/** The calls from a minute on, as many rows as there are. */
function callsFrom(view: View, minute: number, columns: number, rows: number, glyphs: Glyphs): Line[] {
  const heading: Line = plainLine(`  Calls from ${clockAt(view.problem, minute)}`, 'strong' satisfies Role);
  const from = view.problem.origin + minute * 60_000;
  const calls = view.plan.calls.filter((call) => Date.parse(call.at) >= from).slice(0, rows);
  const lines = callLines({ ...view, plan: { ...view.plan, calls } }, columns, glyphs).slice(2);
  return [heading, ...lines].slice(0, rows);
}
