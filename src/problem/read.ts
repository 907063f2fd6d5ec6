/** Reads a problem file: text in; an immutable problem, or every mistake with its place, out. */
import { createHash } from 'node:crypto';
import { type OtherTimes, readClock } from './clock.js';
import { readCooks, readCourses, readRates, readUnits } from './company.js';
import { readDishes } from './dishes.js';
import { decode, type FileReader, nearestFile, readFromDisk } from './files.js';
import { readKitchen } from './kitchen.js';
import type { Message, StepSpots } from './message.js';
import type { ProblemAsRead } from './problem.js';
import { Reading } from './reading.js';
import { mealShape } from './schema.js';
import { fitted } from './shape.js';
import { readTree } from './source.js';
import { checkName } from './words.js';

/**
 * `texts`: what was read, by the names that messages give; `showMessage` takes a line from it. `spots`: where the problem's
 * steps stand, by their ids.
 */
export type ReadResult<P = ProblemAsRead> =
  | {
      readonly ok: true;
      readonly problem: P;
      readonly warnings: readonly Message[];
      readonly texts: Texts;
      readonly spots: readonly StepSpots[];
    }
  | { readonly ok: false; readonly messages: readonly Message[]; readonly texts: Texts };

type Texts = ReadonlyMap<string, string>;

export interface ReadOptions extends OtherTimes {
  /** The file's name as messages show it; paths in the file are seen from its folder. */
  readonly name: string;
  /** Gives the content of a path, or throws; without it, a kitchen cannot be a path. */
  readonly readFile?: FileReader;
  /** Dishes beyond those of the meal's own text, each a map as one of its `dishes`; they come last. */
  readonly more?: readonly MoreText[];
}

/** A text with the name that messages give it. */
export interface MoreText {
  readonly name: string;
  readonly text: string;
}

/**
 * Reads a meal from its text. Never throws for what the text holds. Messages are sorted by place, errors and warnings
 * together; a problem comes out only where there is no error.
 */
export function readProblem(content: string | Uint8Array, options: ReadOptions): ReadResult {
  const reading = new Reading({ file: options.name, line: 1, column: 1 });
  const whole = read(reading, content, options);
  const messages = reading.notes.sorted(options.name);
  const { texts } = reading;
  return whole && reading.notes.errors === 0
    ? { ok: true, problem: frozen(whole.problem), warnings: messages, texts, spots: whole.spots }
    : { ok: false, messages, texts };
}

/** Reads a meal from a file, with its kitchen where that is a path. */
export function readProblemFile(path: string, times: OtherTimes & Pick<ReadOptions, 'more'> = {}): ReadResult {
  let content: string | Uint8Array;
  try {
    content = readFromDisk(path);
  } catch (problem) {
    const missing = (problem as NodeJS.ErrnoException).code === 'ENOENT';
    const say = missing ? 'There is no such file.' : 'The file cannot be read.';
    const near = missing ? nearestFile(path) : null;
    const hint = near === null ? {} : { hint: near };
    const message: Message = { code: 'file', severity: 'error', file: path, line: 1, column: 1, say, ...hint };
    return { ok: false, messages: [message], texts: new Map() };
  }
  return readProblem(content, { name: path, readFile: readFromDisk, ...times });
}

interface Whole {
  readonly problem: ProblemAsRead;
  readonly spots: readonly StepSpots[];
}

function read(reading: Reading, content: string | Uint8Array, options: ReadOptions): Whole | undefined {
  const text = decode(reading, options.name, content);
  const tree = text === undefined ? undefined : readTree(reading, options.name, text);
  if (text === undefined || !tree) return undefined;
  if ('appliances' in tree && !('dishes' in tree)) {
    reading.error(
      'shape',
      reading.at(tree),
      'This file is a kitchen, not a meal.',
      'name it as the `kitchen` of a meal',
    );
    return undefined;
  }
  for (const { name, text: dish } of options.more ?? []) {
    const entry = readTree(reading, name, dish);
    if (!entry) return undefined;
    if ('dishes' in tree && Array.isArray(tree.dishes)) tree.dishes.push(entry);
  }
  const meal = fitted(reading, mealShape, tree);
  if (!meal) return undefined;
  if (meal.title !== undefined) checkName(reading, meal as { title: string }, 'title');
  const clock = readClock(reading, meal, options);
  const kitchen = readKitchen(reading, meal, options.name, options.readFile);
  const cooks = readCooks(reading, meal, kitchen.names);
  const cooksLost = reading.isBroken(meal, 'cooks') || (meal.cooks !== undefined && reading.isHurt(meal.cooks));
  const courses = readCourses(reading, meal);
  const { dishes, steps, spots } = readDishes(reading, meal, courses, cooksLost ? null : cooks, kitchen);
  if (!clock || !kitchen.kitchen || !courses || meal.title === undefined) return undefined;
  const digest = createHash('sha256').update(text).digest('hex');
  const rates = readRates(meal);
  const { title } = meal;
  const units = readUnits(meal);
  const problem = { title, digest, ...clock, courses, kitchen: kitchen.kitchen, cooks, dishes, steps, rates, units };
  return { problem, spots };
}

/** Freezes a tree through and through. */
export function frozen<T>(thing: T): T {
  if (typeof thing === 'object' && thing !== null && !Object.isFrozen(thing)) {
    Object.freeze(thing);
    for (const part of Object.values(thing)) frozen(part);
  }
  return thing;
}
