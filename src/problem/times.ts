/** How long a step takes, as written: one duration, a range, or minutes by temperature. No kitchen is needed to read it. */
import { parseDuration, parseDurationSpan } from '../units/duration.js';
import type { Parsed, Written } from '../units/measure.js';
import { refuse } from '../units/measure.js';
import { showMinutes } from '../units/show.js';
import { parseTemperature } from '../units/temperature.js';
import type { Spot } from './message.js';
import type { Duration } from './problem.js';
import type { Reading } from './reading.js';
import type { PlaceEntry, StepEntry } from './schema.js';

export type Fixed = Extract<Duration, { kind: 'fixed' }>;
export type Range = Extract<Duration, { kind: 'range' }>;
export type Table = Extract<Duration, { kind: 'table' }>;

/** `until` and `target` without minutes for them have `duration: null`. */
export interface Time {
  readonly duration: Fixed | Range | Table | null;
  /** The core temperature of `until` or `target`, °C. */
  readonly core: number | null;
  /** It is that of a `target`. */
  readonly atPeak: boolean;
  readonly spot: Spot;
}

type Holder = StepEntry | PlaceEntry;
const GOALS = ['until', 'target'] as const;
type Goal = (typeof GOALS)[number];

/** Which of `until` and `target` a step or an entry of `on` itself says. */
export const goalOf = (holder: Holder): Goal | undefined => GOALS.find((goal) => holder[goal] !== undefined);

/** Where the core temperature of a goal stands. */
export const coreSpot = (reading: Reading, holder: Holder, goal: Goal): Spot =>
  goal === 'until' ? reading.at(holder.until!, 'core') : reading.at(holder, 'target');

/** The core temperature that a step or an entry itself says, °C; undefined where it says none, or a wrong one, which is then said. */
export function coreIn(reading: Reading, holder: Holder): number | undefined {
  const [thing, key] = goalOf(holder) === 'until' ? [holder.until!, 'core'] : [holder, 'target'];
  return reading.quantity(thing, key, parseTemperature)?.celsius;
}

/** A duration of at least a minute. */
const parseSomeTime = (text: Written): Parsed<number> => {
  const parsed = parseDuration(text);
  return parsed.ok && parsed.value < 1 ? refuse('A step takes at least 1 min.', '1 min') : parsed;
};

const parseSomeSpan = (text: Written): Parsed<{ low: number; high: number }> => {
  const parsed = parseDurationSpan(text);
  return parsed.ok && parsed.value.low < 1
    ? refuse('A step takes at least 1 min.', parsed.value.high > 1 ? `1-${parsed.value.high} min` : '1 min')
    : parsed;
};

/**
 * The time of a step in one of its entries: `takes` of the entry, else its goal (`until` or `target`) or the step's, with `minutes`
 * (the entry's, else the step's), else `takes` of the step. Undefined where it is wrong or missing, which is then said.
 */
export function timeOf(reading: Reading, step: StepEntry, entry: PlaceEntry | null): Time | undefined {
  const holders: Holder[] = entry ? [step, entry] : [step];
  if (holders.map((holder) => sayTwice(reading, holder)).includes(true)) return undefined;
  if (entry?.takes !== undefined) return takesOf(reading, entry, entry);
  const holder = [entry, step].find((one) => one && goalOf(one) !== undefined);
  const minutesHolder = entry?.minutes !== undefined ? entry : step.minutes !== undefined ? step : null;
  if (holder) return untilOf(reading, holder, minutesHolder);
  if (minutesHolder) {
    reading.error(
      'times',
      reading.keyAt(minutesHolder, 'minutes'),
      '`minutes` goes with `until` or `target`, which is missing.',
      '`takes`, or `until: { core: ... }`',
    );
    return undefined;
  }
  if (step.takes !== undefined) return takesOf(reading, step, entry?.best !== undefined ? entry : step);
  if (!holders.some((one) => reading.isHurt(one))) {
    reading.error('missing', reading.at(step, 'step'), 'How long the step takes is missing here.', 'takes: ... min');
  }
  return undefined;
}

/** Says that a step or an entry has more than one of `takes`, `until` and `target`. */
function sayTwice(reading: Reading, holder: Holder): boolean {
  const [first, second] = (['takes', ...GOALS] as const).filter((key) => holder[key] !== undefined);
  if (first === undefined || second === undefined) return false;
  const what = first === 'takes' ? 'how long it takes' : 'at which core it is done';
  const hint =
    first === 'takes' ? 'leave one of the two' : '`until` to pull it there, `target` to have it rise there in the rest';
  reading.error('times', reading.keyAt(holder, second), `\`${first}\` and \`${second}\` both say ${what}.`, hint);
  return true;
}

function takesOf(
  reading: Reading,
  holder: StepEntry | PlaceEntry,
  bestHolder: StepEntry | PlaceEntry,
): Time | undefined {
  const spot = reading.at(holder, 'takes');
  const { takes } = holder;
  const duration =
    typeof takes === 'object' ? tableOrSpread(reading, holder, 'takes') : rangeOf(reading, holder, bestHolder);
  if (duration && duration.kind !== 'range' && bestHolder.best !== undefined) {
    reading.error(
      'times',
      reading.keyAt(bestHolder, 'best'),
      '`best` goes with a range in `takes`.',
      'takes: 15-35 min',
    );
  }
  return duration && { duration, core: null, atPeak: false, spot };
}

function rangeOf(
  reading: Reading,
  holder: StepEntry | PlaceEntry,
  bestHolder: StepEntry | PlaceEntry,
): Fixed | Range | undefined {
  const span = reading.quantity(holder, 'takes', parseSomeSpan);
  if (!span) return undefined;
  if (span.low === span.high) return { kind: 'fixed', minutes: span.low, low: span.low, high: span.high };
  const best = reading.quantity(bestHolder, 'best', parseDurationSpan) ?? span;
  if (best.low < span.low || best.high > span.high) {
    const whole = `${showMinutes(span.low)} to ${showMinutes(span.high)}`;
    reading.error(
      'times',
      reading.at(bestHolder, 'best'),
      `The best time lies outside of ${whole}, which \`takes\` allows.`,
    );
    return undefined;
  }
  return { kind: 'range', low: span.low, high: span.high, best };
}

function untilOf(
  reading: Reading,
  holder: StepEntry | PlaceEntry,
  minutesHolder: StepEntry | PlaceEntry | null,
): Time | undefined {
  const goal = goalOf(holder)!;
  const core = coreIn(reading, holder);
  const spot = minutesHolder ? reading.at(minutesHolder, 'minutes') : reading.keyAt(holder, goal);
  let duration: Fixed | Table | null | undefined = null;
  if (minutesHolder) {
    if (typeof minutesHolder.minutes === 'object')
      duration = tableOrSpread(reading, minutesHolder, 'minutes') as Table | undefined;
    else {
      const minutes = reading.quantity(minutesHolder, 'minutes', parseSomeTime);
      duration = minutes === undefined ? undefined : { kind: 'fixed', minutes, low: minutes, high: minutes };
    }
  }
  return core === undefined || duration === undefined ? undefined : { duration, core, atPeak: goal === 'target', spot };
}

function tableOrSpread(
  reading: Reading,
  holder: StepEntry | PlaceEntry,
  key: 'takes' | 'minutes',
): Fixed | Table | undefined {
  const table = holder[key] as Record<string, Written>;
  return key === 'takes' && 'likely' in table
    ? spreadOf(reading, table)
    : tableOf(reading, table, reading.at(holder, key));
}

function spreadOf(reading: Reading, spread: Record<string, Written>): Fixed | undefined {
  const minutes = reading.quantity(spread, 'likely', parseSomeTime);
  const low = reading.quantity(spread, 'low', parseSomeTime) ?? minutes;
  const high = reading.quantity(spread, 'high', parseSomeTime) ?? minutes;
  if (minutes === undefined || low === undefined || high === undefined) return undefined;
  if (low > minutes || high < minutes) {
    reading.error('times', reading.at(spread, 'likely'), 'The likely time lies between the low and the high one.');
    return undefined;
  }
  return { kind: 'fixed', minutes, low, high };
}

function tableOf(reading: Reading, table: Record<string, Written>, spot: Spot): Table | undefined {
  const before = reading.notes.errors;
  const columns: Column[] = [];
  for (const key of reading.keysOf(table)) {
    const at = parseTemperature(key);
    if (!at.ok) reading.error('quantity', reading.keyAt(table, key), at.say, at.hint);
    const minutes = reading.quantity(table, key, parseSomeTime);
    if (at.ok && minutes !== undefined) columns.push({ key, celsius: at.value.celsius, minutes });
  }
  if (columns.length === 0 && reading.notes.errors === before && !reading.isHurt(table)) {
    reading.error('table', spot, 'The table has no columns.', '{ "160C": 47 min, "185C": 37 min }');
  }
  columns.sort((a, b) => a.celsius - b.celsius);
  sayUneven(reading, table, columns);
  if (reading.notes.errors > before || columns.length === 0) return undefined;
  return { kind: 'table', columns: columns.map(({ celsius, minutes }) => ({ celsius, minutes })) };
}

interface Column {
  readonly key: string;
  readonly celsius: number;
  readonly minutes: number;
}

/** Says the first column at which a table is not falling and convex. */
function sayUneven(reading: Reading, table: object, columns: readonly Column[]): void {
  for (const [index, column] of columns.entries()) {
    const [before, last] = [columns[index - 2], columns[index - 1]];
    const spot = reading.keyAt(table, column.key);
    if (!last) continue;
    if (column.celsius - last.celsius < 1e-6) {
      const say = `${column.key} and ${last.key} are the same temperature.`;
      reading.error('table', spot, say, 'leave one of the two');
      return;
    }
    if (column.minutes > last.minutes) {
      const say = `More heat cannot take longer, but ${column.key} takes ${column.minutes} min and ${last.key} ${last.minutes} min.`;
      reading.error('table', spot, say, `at most ${last.minutes} min`);
      return;
    }
    if (before && bendsDown(before, last, column)) {
      const say = `The table bends the wrong way at ${last.key}: from there to ${column.key} a degree saves more time than it does before.`;
      reading.error('table', spot, say, `at least ${leastConvex(before, last, column)} min`);
      return;
    }
  }
}

/** True where the middle column lies above the line through its neighbours: the table is not convex there. */
function bendsDown(a: Column, b: Column, c: Column): boolean {
  const before = (b.minutes - a.minutes) * (c.celsius - b.celsius);
  const after = (c.minutes - b.minutes) * (b.celsius - a.celsius);
  return after < before - 1e-6;
}

/** The least minutes of the last column with which the three do not bend down. */
const leastConvex = (a: Column, b: Column, c: Column): number =>
  Math.ceil(b.minutes + ((b.minutes - a.minutes) * (c.celsius - b.celsius)) / (b.celsius - a.celsius) - 1e-9);
