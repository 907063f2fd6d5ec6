/** The words after `hearthtable note FILE` as entries. */
import { readFileSync } from 'node:fs';
import type { Day } from '../../src/live/journal/day.js';
import type { Body, Entry } from '../../src/live/journal/entries.js';
import { dishNamed, isRefusal, type Refusal, refuse, thingNamed } from '../../src/live/journal/names.js';
import { readable } from '../../src/live/journal/reading.js';
import { instantSaid } from '../../src/live/journal/when.js';
import { minuteAt, stepKey } from '../../src/problem/hours.js';
import { nearest } from '../../src/problem/nearest.js';
import { showIso } from '../../src/units/clock.js';
import { quote } from '../../src/units/measure.js';
import { showList } from '../../src/units/show.js';
import { parseTemperature } from '../../src/units/temperature.js';

/** How each entry is written, for help and for messages. */
export const FORMS = {
  started: 'started "Roast roots/roast"',
  done: 'done "Roast roots/roast"',
  reading: 'reading [STEP] 54C',
  serve: 'serve 19:15',
  guests: 'guests "Roast roots" 8 instead of 6',
  lost: 'lost "half sheet" [COUNT]',
  found: 'found "half sheet" [COUNT]',
  gone: 'gone Ines',
  back: 'back Ines',
  dropped: 'dropped "Roast roots"',
  added: 'added dish.yaml',
  text: 'text "the oven smokes"',
  undo: 'undo [NUMBER]',
} as const;

export type Word = keyof typeof FORMS;
export const WORDS = Object.keys(FORMS) as Word[];

export interface Manner {
  readonly place?: string;
  readonly heat?: string;
  readonly cooks?: readonly string[];
}

/** The entries that the words mean on this day, at an instant; or why they mean none. */
export function bodiesOf(
  day: Day,
  inForce: readonly Entry[],
  words: readonly string[],
  when: number,
  manner: Manner,
): readonly Body[] | Refusal {
  const [first = '', ...rest] = words;
  const word = WORDS.find((one) => one === first.toLowerCase());
  if (word === undefined) {
    const near = nearest(first, WORDS);
    return refuse(`There is no entry ${quote(first)}.`, near === null ? showList(WORDS) : FORMS[near as Word]);
  }
  const text = rest.join(' ').trim();
  const lacks = refuse(`${word}: what is meant is missing.`, FORMS[word]);
  if ((manner.place ?? manner.heat ?? manner.cooks) !== undefined && word !== 'started' && word !== 'done')
    return refuse('Place, heat and cooks go with `started` and `done`.', FORMS.started);
  if (text === '' && word !== 'undo') return lacks;
  switch (word) {
    case 'started':
    case 'done':
      return stepBodies(word, text, manner);
    case 'reading':
      return readingBody(day, rest, when);
    case 'serve': {
      const { problem } = day;
      const instant = instantSaid(text, problem.origin + day.serve * 60_000, problem.zone);
      return isRefusal(instant) ? instant : [{ kind: 'serve', serve: showIso(instant, problem.zone) }];
    }
    case 'guests':
      return guestBodies(day, text);
    case 'lost':
    case 'found': {
      const last = rest.at(-1)!;
      const counted = rest.length > 1 && /^\d{1,3}$/.test(last) && Number(last) > 0;
      const thing = thingNamed(day.problem, (counted ? rest.slice(0, -1) : rest).join(' '), counted ? Number(last) : 1);
      return isRefusal(thing) ? thing : [{ kind: word, what: thing }];
    }
    case 'gone':
    case 'back':
      return [{ kind: word, cook: text }];
    case 'dropped':
      return [{ kind: 'dropped', dish: text }];
    case 'added':
      return addedBody(text);
    case 'text':
      return [{ kind: 'note', text: text.slice(0, 2000) }];
    case 'undo':
      return undoBody(inForce, text);
  }
}

function stepBodies(kind: 'started' | 'done', step: string, { place, heat, cooks }: Manner): readonly Body[] | Refusal {
  const celsius = heat === undefined ? null : parseTemperature(heat);
  if (celsius !== null && !celsius.ok) return refuse(celsius.say, celsius.hint);
  const said = {
    ...(place !== undefined && { place }),
    ...(celsius !== null && { celsius: celsius.value.celsius }),
    ...(cooks !== undefined && { cooks: [...cooks] }),
  };
  return [kind === 'done' ? { kind, step, ...said } : { kind, step, ...said }];
}

/** With nothing but a temperature it is the only piece on the heat; a dish's name does where one step of it is. */
function readingBody(day: Day, words: readonly string[], when: number): readonly Body[] | Refusal {
  const { problem } = day;
  const [heat, name] = [words.at(-1)!, words.slice(0, -1).join(' ').trim()];
  const celsius = parseTemperature(heat);
  if (!celsius.ok) return refuse(celsius.say, celsius.hint);
  const minute = Math.floor(minuteAt(problem, showIso(when, problem.zone)));
  const hot = readable(day, minute);
  const keys = (ids: readonly number[]): string => showList(ids.map((id) => stepKey(problem, id)));
  const dish = name === '' ? null : dishNamed(problem, name);
  if (name !== '' && (dish === null || isRefusal(dish)))
    return [{ kind: 'reading', step: name, celsius: celsius.value.celsius }];
  const fits = hot.filter((id) => dish === null || problem.steps[id]!.dish === dish);
  if (fits.length === 1) return [{ kind: 'reading', step: stepKey(problem, fits[0]!), celsius: celsius.value.celsius }];
  if (fits.length > 1) return refuse('Several pieces are on the heat.', keys(fits));
  return refuse(
    'No piece whose core can be read is on the heat.',
    hot.length > 0 ? keys(hot) : 'first: started "Dish/step"',
  );
}

const GUESTS = /^(.*\S)\s+(\d{1,4})\s*(?:instead\s+of|for|of|\/)\s*(\d{1,4})$/i;

function guestBodies(day: Day, text: string): readonly Body[] | Refusal {
  const match = GUESTS.exec(text);
  if (!match)
    return refuse(`${quote(text)} does not say which dish is for how many instead of how many.`, FORMS.guests);
  const [now, before] = [Number(match[2]), Number(match[3])];
  if (now === 0 || before === 0) return refuse('There is at least one guest.', 'dropped "Roast roots"');
  const name = match[1]!;
  if (name.toLowerCase() !== 'all') return [{ kind: 'guests', dish: name, now, before }];
  const open = day.problem.dishes.filter(({ steps }) => !steps.some((id) => day.steps.has(id)));
  if (open.length === 0) return refuse('Every dish is begun: how much there is of each is settled.');
  return open.map((dish) => ({ kind: 'guests', dish: dish.name, now, before }));
}

function addedBody(path: string): readonly Body[] | Refusal {
  try {
    return [{ kind: 'added', dish: readFileSync(path === '-' ? 0 : path, 'utf8') }];
  } catch {
    return refuse(
      `${path}: there is no such file, or it cannot be read.`,
      'a file with one dish: `dish: ...` and its `steps:`',
    );
  }
}

function undoBody(inForce: readonly Entry[], text: string): readonly Body[] | Refusal {
  if (text !== '' && !/^\d{1,6}$/.test(text))
    return refuse(`${quote(text)} is not the number of an entry.`, FORMS.undo);
  const last = inForce.findLast(({ kind }) => kind !== 'begin' && kind !== 'plan');
  if (text === '' && last === undefined) return refuse('There is nothing to take back.');
  return [{ kind: 'undo', of: text === '' ? last!.seq : Number(text) }];
}
