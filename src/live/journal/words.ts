/** Entries in a cook's words. */

import { showHeat } from '../../problem/degrees.js';
import { clockAt, minuteAt } from '../../problem/hours.js';
import type { Problem } from '../../problem/problem.js';

import type { Body, Entry } from './entries.js';
import { showThing } from './names.js';

/** What an entry says: `Roast roots/roast started`. */
export function bodyWords(problem: Problem, body: Body): string {
  switch (body.kind) {
    case 'begin':
      return `journal of ${body.title} begun`;
    case 'plan':
      return ['plan taken', ...body.say].join(': ');
    case 'started':
    case 'done':
      return `${body.step} ${body.kind}${mannerWords(problem, body)}`;
    case 'reading':
      return `${body.step} reads ${showHeat(problem, body.celsius)}`;
    case 'serve':
      return `serve at ${clockAt(problem, Math.round(minuteAt(problem, body.serve)))}`;
    case 'guests':
      return `${body.dish} for ${body.now} instead of ${body.before}`;
    case 'lost':
    case 'found': {
      const { what } = body;
      const count = 'count' in what && what.count > 1 ? ` × ${what.count}` : '';
      return `${showThing(what)}${count} ${body.kind}`;
    }
    case 'gone':
      return `${body.cook} gone`;
    case 'back':
      return `${body.cook} back`;
    case 'dropped':
      return `${body.dish} dropped`;
    case 'added':
      return 'a dish added';
    case 'heeded':
      return `heeded: ${body.call}`;
    case 'note':
      return `“${body.text}”`;
    case 'undo':
      return `entry ${body.of} taken back`;
  }
}

function mannerWords(problem: Problem, { place, celsius, cooks }: Extract<Body, { kind: 'started' | 'done' }>): string {
  const parts = [
    ...(place === undefined ? [] : [`at ${place}`]),
    ...(celsius === undefined ? [] : [showHeat(problem, celsius)]),
    ...(cooks === undefined ? [] : [`by ${cooks.join(' and ')}`]),
  ];
  return parts.length === 0 ? '' : ` (${parts.join(', ')})`;
}

/** `17:05  Ines  Roast roots/roast started`. */
export function entryWords(problem: Problem, entry: Entry): string {
  const clock = clockAt(problem, Math.floor(minuteAt(problem, entry.when)));
  const who = entry.who === null ? '' : `${entry.who}: `;
  return `${clock} ${who}${bodyWords(problem, entry)}`;
}
