/** What `estimate` prints about one piece. */
import { type CurvePicture, curveLines, type Stage } from '../../src/chart/curve.js';
import { type Glyphs, inGlyphs } from '../../src/chart/glyphs.js';
import { type Line, plainLine, type Role, segment } from '../../src/chart/line.js';
import { noteLines } from '../../src/chart/note.js';
import { clean, wrap } from '../../src/chart/text.js';
import type { Units } from '../../src/estimate/asked.js';
import type { Estimate, EstimateAnswer } from '../../src/estimate/document.js';
import { showMinutes } from '../../src/units/show.js';
import { comparisonLines, comparisonPicture } from './comparison-lines.js';
import {
  airWords,
  both,
  coreWords,
  headWords,
  lethalityWords,
  publishedWords,
  riseWords,
  spreadWords,
  timeWords,
} from './estimate-words.js';

/** Columns of the fields' names. */
const NAMES = 11;
/** Columns under which nothing is drawn and a field's name has a line of its own; rows of a curve by the columns that it has. */
const DRAWN = 40;
const rowsFor = (width: number): number => (width < 100 ? 13 : width < 160 ? 16 : 26);

export function estimateLines(estimate: Estimate, units: Units, width: number, glyphs: Glyphs): Line[] {
  const { answers, cautions } = estimate;
  const [answer] = answers;
  const one = answers.length === 1 && estimate.never === null && answer !== undefined;
  const say = (text: string, role: Role = 'plain'): Line[] =>
    wrap(inGlyphs(clean(text), glyphs), width).map((line) => plainLine(line, role));
  const head = headWords(estimate, units);
  const size = { columns: Math.min(width, 200), rows: rowsFor(width) };
  const picture = one
    ? curveLines(pictureOf(estimate, answer, units), size, glyphs)
    : comparisonPicture(estimate, units, size, glyphs);
  return [
    ...say(head.piece, 'title'),
    ...say(head.way),
    [],
    ...(one ? fieldsOf(estimate, answer, units, width, glyphs) : comparisonLines(estimate, units, width, glyphs)),
    [],
    plainLine('Cautions', 'strong'),
    ...cautions.flatMap((caution) => noteLines(`${caution.say} (${caution.source})`, width, glyphs, 'warn')),
    ...(width < DRAWN ? [] : [[], ...picture]),
  ];
}

function fieldsOf(estimate: Estimate, answer: EstimateAnswer, units: Units, width: number, glyphs: Glyphs): Line[] {
  const { pull, peak, rise, peakAfter, rest, atEnd } = answer;
  const field = (name: string, text: string, role: Role = 'plain'): Line[] => {
    const beside = width >= DRAWN;
    const lines = wrap(inGlyphs(text, glyphs), beside ? width - NAMES : width - 2);
    const rows = lines.map((line, at): Line => {
      const lead = beside ? (at === 0 ? name : '').padEnd(NAMES) : '  ';
      return [segment(lead, 'dim'), segment(line, role)];
    });
    return beside ? rows : [plainLine(name, 'dim'), ...rows];
  };
  const risen =
    rise < 0.5
      ? 'hardly any'
      : `${riseWords(rise, units)}, to ${both(peak, units)} ${showMinutes(peakAfter)} after the pull${atEnd.rising ? ', and still rising' : ''}`;
  const ends = `${coreWords(atEnd.core, units)} in the core, ${coreWords(atEnd.surface, units)} at the surface`;
  return [
    ...field('Minutes', timeWords(answer), 'strong'),
    ...field('Range', spreadWords(estimate, units)),
    ...field('Pull', `at ${both(pull, units)} in the core`, 'strong'),
    ...field('Rise', risen),
    ...field('Rest', rest === 0 ? `none; ${ends}` : `${showMinutes(rest)}; at its end ${ends}`),
    ...field('Lethality', lethalityWords(answer, units)),
    ...field('Published', publishedWords(estimate, answer)),
  ];
}

function pictureOf(estimate: Estimate, answer: EstimateAnswer, units: Units): CurvePicture {
  const { parts, course, pull, peak, peakAfter, celsius } = answer;
  const heat = parts.find(({ part }) => part === 'heat')!;
  const stages = parts.flatMap(({ part, from, to }): Stage[] => {
    // The minute on the way to the rest is drawn with it.
    if (part === 'moving')
      return parts.some((other) => other.part === 'rest') ? [] : [{ name: '', texture: 'rest', from, to }];
    if (part === 'rest') return [{ name: 'rest', texture: 'rest', from: heat.to, to }];
    const name = part === 'sear' ? 'sear' : airWords(estimate, celsius, units);
    return [{ name, texture: 'heat', from, to }];
  });
  const { kind, celsius: goal } = estimate.goal;
  const peaks =
    peak - pull >= 0.5 && kind === 'pull'
      ? [{ minute: heat.to + peakAfter, say: `peak ${coreWords(peak, units)}` }]
      : [];
  return {
    core: { minutes: course.minutes, celsius: course.core },
    surface: { minutes: course.minutes, celsius: course.hottest },
    stages,
    marks: [
      { minute: heat.to, say: `pull ${coreWords(pull, units)}` },
      ...(kind === 'target' ? [{ minute: heat.to + peakAfter, say: `peak ${coreWords(peak, units)}` }] : peaks),
    ],
    level: kind === 'target' ? { celsius: goal, name: 'target' } : null,
    degree: units.core,
  };
}
