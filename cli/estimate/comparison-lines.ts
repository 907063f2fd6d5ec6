/** Several temperatures of the air beside each other. */
import { type LetteredTrace, traceLines } from '../../src/chart/curve.js';
import type { FrameSize } from '../../src/chart/curve-frame.js';
import { type Glyphs, inGlyphs } from '../../src/chart/glyphs.js';
import { letterOf } from '../../src/chart/letters.js';
import { type Line, plainLine, type Role, segment } from '../../src/chart/line.js';
import { wrap } from '../../src/chart/text.js';
import type { Units } from '../../src/estimate/asked.js';
import type { Estimate, EstimateAnswer } from '../../src/estimate/document.js';
import { showMinutes, showTemperature } from '../../src/units/show.js';
import { coreWords, lethalityWords, neverWords, publishedWords, riseWords, spreadWords } from './estimate-words.js';

/** One row's cells, by the heads of the columns. */
const COLUMNS: readonly {
  readonly head: string;
  readonly role: Role;
  readonly tell: (answer: EstimateAnswer, units: Units, glyphs: Glyphs) => string;
}[] = [
  { head: 'Air', role: 'heat', tell: ({ celsius }, { air }) => showTemperature(celsius, air) },
  { head: 'Minutes', role: 'strong', tell: ({ minutes }) => showMinutes(minutes.likely) },
  { head: 'Range', role: 'plain', tell: ({ minutes }, _, glyphs) => rangeWords(minutes, glyphs) },
  { head: 'Pull', role: 'strong', tell: ({ pull }, units) => coreWords(pull, units) },
  { head: 'Rise', role: 'plain', tell: ({ rise }, units) => riseWords(rise, units) },
  {
    head: 'Peak',
    role: 'plain',
    tell: ({ peak, peakAfter }, units) => `${coreWords(peak, units)} after ${showMinutes(peakAfter)}`,
  },
  { head: 'Rest', role: 'plain', tell: ({ rest }) => showMinutes(rest) },
  {
    head: 'Lethality',
    role: 'plain',
    tell: ({ lethality }) => (lethality === null ? '' : shareWords(lethality.share)),
  },
];

/** Columns between two of the table. */
const BETWEEN = 2;

const rangeWords = ({ low, high }: EstimateAnswer['minutes'], { range }: Glyphs): string =>
  `${showMinutes(Math.floor(low))}${range}${high === null ? 'perhaps never' : showMinutes(Math.ceil(high))}`;

const shareWords = (share: number): string => (share >= 1 ? 'all' : `${Math.floor(share * 100)} %`);

/** A row for each air, as many columns as there is room for; where there is hardly any, a paragraph for each. */
export function comparisonLines(estimate: Estimate, units: Units, width: number, glyphs: Glyphs): Line[] {
  const { answers, never } = estimate;
  const rows = answers.map((answer) => COLUMNS.map(({ tell }) => inGlyphs(tell(answer, units, glyphs), glyphs)));
  const widths = COLUMNS.map(({ head }, at) => Math.max(head.length, ...rows.map((row) => row[at]!.length)));
  const fits = (count: number): boolean =>
    widths.slice(0, count).reduce((sum, one) => sum + one + BETWEEN, BETWEEN) <= width + BETWEEN;
  const count = COLUMNS.findLastIndex((_, at) => fits(at + 1)) + 1;
  // Without the peak it is no comparison.
  const table = count > COLUMNS.findIndex(({ head }) => head === 'Peak');
  const colder = never === null ? [] : wrap(inGlyphs(neverWords(estimate, never, units), glyphs), width);
  return [
    ...(table ? tableLines(rows, widths, count) : paragraphs(rows, width)),
    ...colder.map((line) => plainLine(line, 'warn')),
    [],
    ...notes(estimate, units, width, glyphs),
  ];
}

function tableLines(rows: readonly (readonly string[])[], widths: readonly number[], count: number): Line[] {
  const lead = (letter: string) => letter.padEnd(BETWEEN);
  const pad = (text: string, at: number) => (at === count - 1 ? text : text.padEnd(widths[at]! + BETWEEN));
  const heads = COLUMNS.slice(0, count).map(({ head }, at) => segment(pad(head, at), 'dim'));
  return [
    [segment(lead('')), ...heads],
    ...rows.map((row, index): Line => {
      const cells = row.slice(0, count).map((cell, at) => segment(pad(cell, at), COLUMNS[at]!.role));
      return [segment(lead(letterOf(index)), `dish ${index}`), ...cells];
    }),
  ];
}

function paragraphs(rows: readonly (readonly string[])[], width: number): Line[] {
  return rows.flatMap((row, index): Line[] => {
    const told = row
      .flatMap((cell, at) => (cell === '' ? [] : [`${COLUMNS[at]!.head.toLowerCase()} ${cell}`]))
      .join(', ');
    return wrap(told, width - BETWEEN).map((line, at) => [
      segment((at === 0 ? letterOf(index) : '').padEnd(BETWEEN), `dish ${index}`),
      segment(line),
    ]);
  });
}

/** What holds for all of them. */
function notes(estimate: Estimate, units: Units, width: number, glyphs: Glyphs): Line[] {
  const [first] = estimate.answers;
  if (first === undefined) return [];
  const told = [
    `Range at ${showTemperature(first.celsius, units.air)}, ${spreadWords(estimate, units)}.`,
    `Lethality at ${showTemperature(first.celsius, units.air)}: ${lethalityWords(first, units)}.`,
    `Published for ${publishedWords(estimate, first)}.`,
  ];
  return told.flatMap((text) => wrap(inGlyphs(text, glyphs), width).map((line) => plainLine(line)));
}

/** The cores of all, with their letters. */
export function comparisonPicture({ answers, goal }: Estimate, units: Units, size: FrameSize, glyphs: Glyphs): Line[] {
  if (answers.length === 0) return [];
  const traces = answers.map(({ course, parts }, index): LetteredTrace => {
    const heat = parts.find(({ part }) => part === 'heat')!;
    return {
      letter: letterOf(index),
      number: index,
      core: { minutes: course.minutes, celsius: course.core },
      pull: heat.to,
      to: parts.at(-1)!.to,
    };
  });
  const level =
    goal.kind === 'target' ? { celsius: goal.celsius, name: 'target' } : { celsius: goal.celsius, name: 'pull' };
  return traceLines(traces, level, units.core, size, glyphs);
}
