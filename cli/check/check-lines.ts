/** What `check` prints about a meal that could be read. */
import { longDayAt } from '../../src/chart/clock.js';
import { ASCII, type Glyphs, inGlyphs } from '../../src/chart/glyphs.js';
import { letterOf } from '../../src/chart/letters.js';
import { type Line, plainLine, type Role } from '../../src/chart/line.js';
import { noteLines } from '../../src/chart/note.js';
import { clean, cut, wrap } from '../../src/chart/text.js';
import { drawLoad } from '../../src/kitchen/draw-load.js';
import { type HeaviestLoad, heaviestLoads } from '../../src/kitchen/heaviest-loads.js';
import { showHeat } from '../../src/problem/degrees.js';
import { clockAt } from '../../src/problem/hours.js';
import type { Problem } from '../../src/problem/problem.js';
import { cautionsOf } from '../../src/safety/cautions.js';
import type { Meal } from '../commands/problem-file.js';
import { clashWords, type PanClash, panClashes } from './pan-clashes.js';

export interface Checked {
  readonly lines: readonly Line[];
  /** False where it is certain that no plan fits. */
  readonly fits: boolean;
}

/** Rows of the highest drawing of a rack or grate. */
const HIGHEST = 9;

export function checkLines({ problem, curves }: Meal, width: number, glyphs: Glyphs): Checked {
  const clashes = panClashes(problem);
  const pans = clashes.flatMap((clash) =>
    noteLines(clashWords(problem, clash), width, glyphs, clash.certain ? 'warn' : 'plain'),
  );
  const loads = heaviestLoads(problem);
  const cautions = cautionsOf(problem, null, curves()).flatMap(({ dish, say, source }) =>
    noteLines(`${dish === null ? '' : `${dish}: `}${say} (${source})`, width, glyphs, 'warn'),
  );
  return {
    lines: [
      ...overview(problem, width, glyphs),
      ...loads.flatMap((load) => loadLines(problem, load, width, glyphs)),
      ...(pans.length === 0 ? [] : [[], plainLine('Pans', 'strong'), ...pans]),
      ...(cautions.length === 0 ? [] : [[], plainLine('Cautions', 'strong'), ...cautions]),
      [],
      ...verdict(loads, clashes, width),
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

/** The heaviest load of one appliance, drawn, and what of it does not fit. */
function loadLines(problem: Problem, load: HeaviestLoad, width: number, glyphs: Glyphs): Line[] {
  const appliance = problem.kitchen.appliances[load.appliance]!;
  const mode = appliance.modes[load.mode]!;
  const heat = inGlyphs(showHeat(problem, load.celsius, appliance.dial.unit), glyphs);
  const course = problem.courses.length > 1 ? `, for ${clean(problem.courses[load.course]!.name)}` : '';
  const title = `${clean(appliance.name)}, ${mode.name} at ${heat}${course}: the most that may be in it at once`;
  const look = { columns: width - 4, rows: HIGHEST, ascii: glyphs === ASCII };
  const drawings = drawLoad(problem, load, letterOf, look).flatMap((drawing): Line[] => [
    ...(drawing.title === null ? [] : [plainLine(`  ${drawing.title}`, 'dim')]),
    ...drawing.lines.map((line) => plainLine(`  ${line}`)),
  ]);
  const misfit = load.misfit === null ? [] : noteLines(`${upper(load.misfit)}.`, width, glyphs, 'warn');
  return [[], ...wrap(title, width).map((line) => plainLine(line, 'strong')), ...drawings, ...misfit];
}

const upper = (text: string) => text.charAt(0).toUpperCase() + text.slice(1);

function verdict(loads: readonly HeaviestLoad[], clashes: readonly PanClash[], width: number): Line[] {
  const say = (text: string, role: Role) => wrap(text, width).map((line) => plainLine(line, role));
  if (clashes.some((clash) => clash.certain)) return say('As it stands, no plan fits.', 'warn');
  if (clashes.length === 0 && loads.every((load) => load.misfit === null))
    return say('All of it fits at once.', 'good');
  return say('What does not fit at once may still be done in turn: `hearthtable plan` works that out.', 'plain');
}
