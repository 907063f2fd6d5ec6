/** What a new plan changes, as lines. */
import { type Glyphs, inGlyphs } from '../../../src/chart/glyphs.js';
import { type Line, plainLine, segment } from '../../../src/chart/line.js';
import { clean, pad, wrap } from '../../../src/chart/text.js';
import type { Change } from '../../../src/live/reshuffle/changes.js';
import { showHeat } from '../../../src/problem/degrees.js';
import { clockAt, minuteAt } from '../../../src/problem/hours.js';
import type { Problem } from '../../../src/problem/problem.js';
import { showMinutes } from '../../../src/units/show.js';
import type { Answer } from '../../cooking/new-plan.js';

/** Columns of a step's name. */
const NAME = 32;

export function changeLines(problem: Problem, answer: Answer | null, columns: number, glyphs: Glyphs): Line[] {
  if (answer === null) return [plainLine(' The plan is as it was: nothing new is offered.', 'dim')];
  const said = answer.say.flatMap((text) => wrap(inGlyphs(clean(text), glyphs), columns - 2));
  const moved = new Set(answer.changes.filter(({ kind }) => kind === 'start').map(nameOf));
  // Where a step begins at another time it also ends at one, which says nothing more.
  const told = answer.changes.filter((change) => change.kind !== 'end' || !moved.has(nameOf(change)));
  const rows = told.map((change): Line => {
    const name = pad(clean(nameOf(change)), Math.min(NAME, Math.floor(columns * 0.4)), glyphs.ellipsis);
    return [segment(` ${name} `), segment(inGlyphs(changeWords(problem, change), glyphs), 'strong')];
  });
  return [...said.map((text) => plainLine(` ${text}`)), [], ...rows];
}

const nameOf = ({ dish, step }: Change): string => `${dish}/${step}`;

export function changeWords(problem: Problem, { kind, from, to, minutes }: Change): string {
  const clock = (iso: string | null): string =>
    iso === null ? 'never' : clockAt(problem, Math.round(minuteAt(problem, iso)));
  const heat = (text: string | null): string => (text === null ? 'none' : showHeat(problem, Number(text)));
  switch (kind) {
    case 'start':
    case 'end': {
      const by = `${showMinutes(Math.abs(minutes))} ${minutes < 0 ? 'sooner' : 'later'}`;
      return `${kind === 'start' ? 'begins' : 'ends'} ${clock(to)}, was ${clock(from)}: ${by}`;
    }
    case 'heat':
      return `at ${heat(to)} instead of ${heat(from)}`;
    case 'cook':
      return `by ${clean(to ?? 'nobody')} instead of ${clean(from ?? 'nobody')}`;
    case 'place':
      return `${clean(to ?? 'nowhere')} instead of ${clean(from ?? 'nowhere')}`;
    case 'new':
      return `new, at ${clock(to)}`;
    case 'gone':
      return 'falls away';
  }
}
