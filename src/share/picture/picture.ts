/** The chart of a plan as a picture: the lanes of `src/chart`, drawn with lines instead of characters. */
import { type Look, lanesOf } from '../../chart/lanes.js';
import { clean } from '../../chart/text.js';
import type { View } from '../../chart/view.js';
import { asIs, type Markup, tag, together } from '../markup.js';
import { DAY } from '../palette.js';
import { SIGNATURE, servingWords } from '../words.js';
import { axisOf, type Bands } from './axis.js';
import { barOf, foldsOver, heatOf } from './bars.js';
import { type Frame, frameOf, type Row, WIDTH } from './frame.js';
import { keyOf } from './key.js';
import { fitted } from './letters.js';
import { pictureStyle } from './style.js';

const MARGIN = 16;

/** A file of its own, by day: for a message, a document or a sheet of paper. */
export function pictureFile(view: View, title: string = clean(view.problem.title)): string {
  const { drawn, height } = pictureParts(view, 'place', 44);
  const attributes = {
    xmlns: 'http://www.w3.org/2000/svg',
    viewBox: `${-MARGIN} ${-MARGIN} ${WIDTH + 2 * MARGIN} ${height + 2 * MARGIN}`,
    width: WIDTH + 2 * MARGIN,
    height: height + 2 * MARGIN,
    role: 'img',
    class: 'picture',
  };
  const paper = { class: 'paper', x: -MARGIN, y: -MARGIN, width: WIDTH + 2 * MARGIN, height: height + 2 * MARGIN };
  const svg = tag(
    'svg',
    attributes,
    tag('title', {}, title),
    tag('desc', {}, `${servingWords(view)}. ${SIGNATURE}`),
    tag('style', {}, asIs(pictureStyle(DAY))),
    tag('rect', paper),
    tag('text', { class: 'heading', x: 0, y: 12 }, title),
    tag('text', { class: 'small', x: 0, y: 30 }, servingWords(view)),
    drawn,
  );
  return `<?xml version="1.0" encoding="UTF-8"?>\n${svg.markup}\n`;
}

/** The same within a page, whose style draws it. */
export function pictureWithin(view: View, look: Look, describedBy: string): Markup {
  const { drawn, height } = pictureParts(view, look, 0);
  const label = `Chart of ${clean(view.problem.title)}; the table has the same`;
  return tag(
    'svg',
    {
      viewBox: `0 0 ${WIDTH} ${height}`,
      role: 'img',
      class: 'picture',
      'aria-label': label,
      'aria-describedby': describedBy,
    },
    drawn,
  );
}

function pictureParts(view: View, look: Look, top: number): { readonly drawn: Markup; readonly height: number } {
  const bands: Bands = { days: top + 12, times: top + 28, top: top + 34 };
  // Of a part of the plan, places where nothing of it happens say nothing.
  const isPart = view.steps.length < view.plan.steps.length;
  const lanes = lanesOf(view, look).filter(({ bars, indent }) => !isPart || bars.length > 0 || indent === 0);
  const frame = frameOf(view, lanes, bands.top + 4);
  const key = keyOf(view, frame.bottom + 14);
  const drawn = together(
    PATTERNS,
    axisOf(frame, bands),
    ...frame.rows.map((row) => laneOf(frame, row)),
    foldsOver(frame, bands.top),
    key.drawn,
  );
  return { drawn, height: key.bottom };
}

function laneOf(frame: Frame, row: Row): Markup {
  const { lane, top, height } = row;
  const indent = 8 * lane.indent;
  const bars = [...lane.bars].sort((a, b) => Number(a.step !== null) - Number(b.step !== null) || a.from - b.from);
  const name = fitted(lane.mark + lane.label, frame.gutter - indent - 8);
  // Beside the foot of a hill of heat, else in the middle.
  const y = top + height - 8;
  return tag(
    'g',
    {},
    tag('text', { class: lane.indent === 0 ? 'lane strong' : 'lane', x: indent, y }, name),
    lane.heat === null ? null : heatOf(frame, row),
    ...bars.map((bar) => barOf(frame, row, bar)),
  );
}

/** Textures in ink, so that they stay when colours are gone. */
const PATTERNS: Markup = tag(
  'defs',
  {},
  pattern('hold', 4, tag('rect', { x: 0, y: 0, width: 2, height: 6 })),
  pattern('rest', 6, tag('path', { d: 'M-1,7 L7,-1 M-1,1 L1,-1 M5,7 L7,5' })),
  pattern('chill', 6, tag('circle', { cx: 3, cy: 3, r: 1.1 })),
  pattern('lit', 9, tag('path', { d: 'M1.5,5 L4.5,1 L7.5,5' })),
);

function pattern(name: string, size: number, mark: Markup): Markup {
  return tag(
    'pattern',
    {
      id: `texture-${name}`,
      class: 'texture',
      width: size,
      height: name === 'lit' ? 9 : 6,
      patternUnits: 'userSpaceOnUse',
    },
    mark,
  );
}
