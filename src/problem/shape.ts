/** Holds a tree to its shape, says every mistake at its place, and takes the broken parts out so that reading can go on. */
import type * as z from 'zod';
import { quote } from '../units/measure.js';
import { nearest } from './nearest.js';
import { listed, type Reading } from './reading.js';
import { KEYS } from './schema-parts.js';

type Issue = z.core.$ZodIssue;
type Tree = Record<string | number, unknown>;

/** How often broken parts are taken out before the rest is given up. */
const ROUNDS = 20;

/**
 * The same tree without its broken parts, or undefined where nothing is left to read. Root keys may be missing from it.
 */
export function fitted<T extends z.ZodObject>(
  reading: Reading,
  schema: T,
  tree: object,
): Partial<z.infer<T>> | undefined {
  const first = schema.safeParse(tree);
  if (first.success) return tree as z.infer<T>;
  const issues = plain(first.error.issues, tree as Tree);
  for (const issue of issues) if (!isMisspelt(tree as Tree, issue, issues)) say(reading, tree as Tree, issue);
  take(reading, tree as Tree, issues);
  const loose = schema.partial() as z.ZodType;
  for (let round = 0; round < ROUNDS; round++) {
    const next = loose.safeParse(tree);
    if (next.success) return tree as Partial<z.infer<T>>;
    if (!take(reading, tree as Tree, plain(next.error.issues, tree as Tree))) return undefined;
  }
  return undefined;
}

/** Issues of unions give way to those of the branch that was meant. */
function plain(issues: readonly Issue[], root: Tree): Issue[] {
  return issues.flatMap((issue) => {
    if (issue.code !== 'invalid_union') return [issue];
    const meant = issue.errors
      .filter((branch) => branch.length > 0 && branch.every(isWithin))
      .map((branch) => branch.map((one) => ({ ...one, path: [...issue.path, ...one.path] }) as Issue))
      .map((branch) => plain(branch, root))
      .sort((a, b) => a.length - b.length)[0];
    return meant ?? [issue];
  });
}

/** Whether a branch of a union fails for what is inside of the value, or for its word, not for being another kind of thing. */
const isWithin = (issue: Issue): boolean =>
  issue.path.length > 0 || ['unrecognized_keys', 'invalid_union', 'invalid_value'].includes(issue.code);

/** Whether a key is missing only because another one beside it is it, misspelt, which is said. */
function isMisspelt(root: Tree, issue: Issue, issues: readonly Issue[]): boolean {
  if (issue.path.length === 0 || valueAt(root, issue.path) !== undefined) return false;
  const holder = valueAt(root, issue.path.slice(0, -1));
  return issues.some(
    (other) =>
      other.code === 'unrecognized_keys' &&
      valueAt(root, other.path) === holder &&
      other.keys.some((key) => nearest(key, KEYS.get(other.message) ?? []) === issue.path.at(-1)),
  );
}

function valueAt(root: Tree, path: readonly PropertyKey[]): unknown {
  let value: unknown = root;
  for (const key of path) value = (value as Tree | undefined | null)?.[key as string];
  return value;
}

/** Takes out what the issues name; false where there is nothing to take. */
function take(reading: Reading, root: Tree, issues: readonly Issue[]): boolean {
  let taken = false;
  const lists = new Map<unknown[], Set<number>>();
  const drop = (path: readonly PropertyKey[], hurts = true): void => {
    if (path.length === 0) return;
    const parent = valueAt(root, path.slice(0, -1)) as Tree | unknown[];
    const key = path.at(-1) as string | number;
    if (typeof parent !== 'object' || parent === null) return;
    if (hurts) reading.breakAt(parent, key);
    taken = true;
    if (Array.isArray(parent)) lists.set(parent, (lists.get(parent) ?? new Set()).add(Number(key)));
    else delete parent[key];
  };
  for (const issue of issues) {
    if (issue.code === 'unrecognized_keys') {
      // A key that is like none that is known is no other one misspelt: nothing is lost with it.
      const known = KEYS.get(issue.message) ?? [];
      for (const key of issue.keys) drop([...issue.path, key], nearest(key, known) !== null);
    } else if (valueAt(root, issue.path) !== undefined) drop(issue.path);
    else {
      const whole = valueAt(root, issue.path.slice(0, -1));
      if (typeof whole === 'object' && whole !== null) reading.breakAt(whole, issue.path.at(-1) as string);
      drop(issue.path.slice(0, -1));
    }
  }
  for (const [list, indices] of lists) compact(reading, list, indices);
  return taken;
}

/** Takes items out of a list; what stays keeps its place in the file. */
function compact(reading: Reading, list: unknown[], out: ReadonlySet<number>): void {
  const kept = [...list.keys()].filter((index) => !out.has(index));
  const place = reading.placeOf(list);
  if (place) {
    const spots = kept.map((index) => place.keys.get(String(index)));
    place.keys.clear();
    for (const [index, spot] of spots.entries()) if (spot) place.keys.set(String(index), spot);
  }
  list.splice(0, list.length, ...kept.map((index) => list[index]));
}

/** `dishes`, `dish 2`, `keeps`: how the last part of a path is called. */
const nameOf = (path: readonly PropertyKey[]): string => {
  const key = path.at(-1);
  return typeof key === 'number'
    ? `Entry ${key + 1} of \`${String(path.at(-2) ?? 'the list')}\``
    : `\`${String(key ?? 'the file')}\``;
};

/** What could stand where a key is missing. */
const EXAMPLES: Readonly<Record<string, string>> = {
  format: 'format: hearthtable/1',
  title: 'title: Sunday lunch',
  serve: 'serve: 2026-10-03 18:30',
  zone: 'zone: Europe/Lisbon',
  kitchen: 'kitchen: ./kitchen.yaml',
  dishes: 'dishes: [ ... ]',
  dish: 'dish: Roast roots',
  steps: 'steps: [ ... ]',
  step: 'step: roast',
  work: 'work: roast',
  place: 'place: oven',
  name: 'name: Ines',
  kind: 'kind: oven',
  size: 'size: 30 x 41 cm',
  height: 'height: 9 cm',
  count: 'count: 2',
};

const WANTED: Readonly<Record<string, string>> = {
  string: 'text',
  number: 'a number',
  int: 'a whole number',
  boolean: 'yes or no',
  array: 'a list',
  object: 'a map of keys and values',
  record: 'a map of keys and values',
};

function kindOf(value: unknown): string {
  if (value === null) return 'empty';
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a map of keys and values';
  if (typeof value === 'number') return Number.isFinite(value) ? `the number ${value}` : 'no finite number';
  return typeof value === 'string' ? 'text' : String(value);
}

function say(reading: Reading, root: Tree, issue: Issue): void {
  const parent = valueAt(root, issue.path.slice(0, -1)) as Tree;
  const key = issue.path.at(-1) as string | number | undefined;
  const value = valueAt(root, issue.path);
  const spot = key === undefined ? reading.at(root) : reading.at(parent, key);
  const name = nameOf(issue.path);
  if (issue.code === 'unrecognized_keys') {
    const known = KEYS.get(issue.message) ?? [];
    for (const unknown of issue.keys) {
      const free = known.filter((one) => !((value as Tree)[one] !== undefined));
      const hint = nearest(unknown, free) ?? nearest(unknown, known) ?? listed(known);
      reading.error(
        'unknown-key',
        reading.keyAt(value as object, unknown),
        `${quote(unknown)} is not a key of ${issue.message}.`,
        hint,
      );
    }
  } else if (value === undefined && key !== undefined) {
    reading.error('missing', spot, `${name} is missing here.`, EXAMPLES[String(key)]);
  } else if (issue.code === 'invalid_key') {
    const hint = nearest(String(key), ['low', 'likely', 'high']) ?? '{ "160C": 47 min, "185C": 37 min }';
    reading.error('unknown-key', reading.keyAt(parent, String(key)), `${quote(String(key))} is no temperature.`, hint);
  } else if (value === null) {
    reading.error('shape', spot, `${name} is empty.`, 'write a value, or leave the key out');
  } else if (issue.code === 'invalid_value') {
    const words = issue.values.map(String);
    const hint = (typeof value === 'string' && nearest(value, words)) || listed(words);
    const shown = typeof value === 'string' ? quote(value) : kindOf(value);
    reading.error(
      'word',
      spot,
      words.length === 1 ? `${name} is ${shown}, but this program reads ${words[0]}.` : `${name} cannot be ${shown}.`,
      hint,
    );
  } else if (issue.code === 'invalid_type') {
    const quoted = issue.expected === 'string' && typeof value !== 'object' ? `"${String(value)}"` : null;
    reading.error(
      'shape',
      spot,
      `${name} should be ${WANTED[issue.expected] ?? issue.expected}, but is ${kindOf(value)}.`,
      quoted,
    );
  } else if (issue.code === 'too_small' || issue.code === 'too_big') {
    const bound = issue.code === 'too_small' ? `at least ${issue.minimum}` : `at most ${issue.maximum}`;
    reading.error(
      'bounds',
      spot,
      issue.origin === 'array' ? `${name} needs ${bound} entry.` : `${name} should be ${bound}.`,
    );
  } else {
    reading.error('shape', spot, `${name} cannot be ${kindOf(value)}.`);
  }
}
