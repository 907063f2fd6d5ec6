/** What `check` prints about a meal that could be read. */
import { longDayAt } from '../../src/chart/clock.js';
import { type Glyphs, inGlyphs } from '../../src/chart/glyphs.js';
import { type Line, plainLine, type Role, segment } from '../../src/chart/line.js';
import { clean, cut, wrap } from '../../src/chart/text.js';
import { clockAt } from '../../src/problem/hours.js';
import type { Problem } from '../../src/problem/problem.js';
import { clashWords, panClashes } from './pan-clashes.js';

export interface Checked {
  readonly lines: readonly Line[];
  /** False where something cannot be done at all. */
  readonly fits: boolean;
}

export function checkLines(problem: Problem, width: number, glyphs: Glyphs): Checked {
  const clashes = panClashes(problem);
  const notes = clashes.flatMap((clash) =>
    note(clashWords(problem, clash), width, glyphs, clash.certain ? 'warn' : 'plain'),
  );
  return {
    lines: [
      ...overview(problem, width, glyphs),
      ...(notes.length === 0 ? [] : [[], plainLine('Pans', 'strong'), ...notes]),
    ],
    fits: clashes.every((clash) => !clash.certain),
  };
}

function overview(problem: Problem, width: number, glyphs: Glyphs): Line[] {
  const components = problem.dishes.filter((dish) => !dish.served).length;
  const counts = [
    counted(problem.dishes.length - components, 'dish', 'dishes'),
    ...(components > 0 ? [counted(components, 'component', 'components')] : []),
    counted(problem.steps.length, 'step', 'steps'),
    counted(problem.cooks.length, 'cook', 'cooks'),
  ];
  const serve = `${longDayAt(problem, problem.serve)}, ${clockAt(problem, problem.serve)}, ${problem.zone}`;
  return [
    plainLine(cut(clean(problem.title), width, glyphs.ellipsis), 'title'),
    ...wrap(`Served ${serve}.`, width).map((line) => plainLine(line)),
    ...wrap(`${counts.join(', ')}; ${clean(problem.kitchen.name)}.`, width).map((line) => plainLine(line)),
  ];
}

const counted = (count: number, one: string, many: string) => `${count} ${count === 1 ? one : many}`;

export function note(text: string, width: number, glyphs: Glyphs, role: Role): Line[] {
  return wrap(inGlyphs(clean(text), glyphs), width - 4).map((line, index) => [
    segment(index === 0 ? `  ${glyphs.caution} ` : '    ', role),
    segment(line),
  ]);
}
