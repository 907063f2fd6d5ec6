/** The heat that is asked about, read from words: air, core, sear, rest. °C, minutes. */
import { parseDuration } from '../units/duration.js';
import { type Parsed, quote, refuse } from '../units/measure.js';
import { showTemperature } from '../units/show.js';
import { type Degree, parseTemperature } from '../units/temperature.js';
import type { WordReader } from './words.js';

export interface Airs {
  /** Rising, no two alike. */
  readonly celsius: readonly number[];
  readonly degree: Degree;
}

export interface Goal {
  /** What the core rests up to, or what it is pulled at. */
  readonly kind: 'target' | 'pull';
  readonly celsius: number;
  readonly degree: Degree;
}

export interface Sear {
  readonly minutes: number;
  readonly celsius: number;
}

/** Air and iron that the heat model knows; °C. */
const AIR = { low: 50, high: 350 };
const IRON = { low: 100, high: 400 };
const MOST_AIRS = 12;
/** Minutes. */
const LONGEST_SEAR = 120;
const LONGEST_REST = 12 * 60;
const SEARS = '"12 min 280C" or "10 min 500F"';

export function airsAsked(reader: WordReader): Airs | null {
  const airs = reader.read('air', airsOf);
  if (airs === undefined)
    reader.add('air', 'Nothing says how hot the air around it is.', '165C, or several: 150C,165C,180C');
  return airs ?? null;
}

export function goalAsked(reader: WordReader): Goal | null {
  const { target, pull } = reader.words;
  if (target !== undefined && pull !== undefined) {
    const say = 'Either it rests up to a target, or it is pulled at a core: one of the two.';
    reader.add('target', say, 'leave out --target or --pull');
    return null;
  }
  const kind = pull === undefined ? 'target' : 'pull';
  const core = reader.read(kind, coreOf);
  if (core === undefined) {
    const hint = '--target 60C, to rest up to that, or --pull 55C, to take it off there';
    reader.add('target', 'Nothing says how far the core is to go.', hint);
  }
  return core ? { kind, ...core } : null;
}

/** Says where the core cannot get from where it begins (null: not known) to its goal in the air that is asked for. */
export function checkHeat(reader: WordReader, from: number | null, goal: Goal, airs: Airs | null): void {
  const { kind, celsius, degree } = goal;
  const core = showTemperature(celsius, degree);
  if (from !== null && from >= celsius) {
    const say = `The piece begins at ${showTemperature(from, degree)}, which is not below the core of ${core}.`;
    reader.add('from', say, `a higher --${kind}, or a colder beginning`);
    return;
  }
  const cold = (airs?.celsius ?? []).filter((one) => one <= celsius);
  if (airs === null || cold.length === 0) return;
  const told = cold.map((one) => showTemperature(one, airs.degree)).join(' or ');
  const hint = `air well above ${showTemperature(celsius, airs.degree)}, or a lower --${kind}`;
  reader.add('air', `In air of ${told} the core never gets to ${core}.`, hint);
}

function airsOf(text: string): Parsed<Airs> {
  const all: { celsius: number; degree: Degree }[] = [];
  for (const part of text.split(',')) {
    const parsed = parseTemperature(part.trim());
    if (!parsed.ok) return parsed;
    const { celsius, degree } = parsed.value;
    const [low, high] = [AIR.low, AIR.high].map((bound) => showTemperature(bound, degree));
    if (celsius < AIR.low || celsius > AIR.high)
      return refuse(
        `${quote(part.trim())}: the heat model knows air of ${low} to ${high}.`,
        'for fiercer iron: --sear',
      );
    all.push(parsed.value);
  }
  const celsius = [...new Set(all.map((one) => one.celsius))].sort((a, b) => a - b);
  if (celsius.length > MOST_AIRS)
    return refuse(`${celsius.length} temperatures are more than a table shows well.`, `at most ${MOST_AIRS}`);
  return { ok: true, value: { celsius, degree: all[0]!.degree } };
}

function coreOf(text: string): Parsed<{ celsius: number; degree: Degree }> {
  const parsed = parseTemperature(text);
  if (!parsed.ok || parsed.value.celsius < 100) return parsed;
  return refuse(`At a core of ${quote(text)} its water would boil away.`, 'a core below 100C or 212F');
}

/** `12 min 280C`, in either order, `at` or a comma between them or not. */
export function searOf(text: string): Parsed<Sear> {
  const words = text.split(/\s+at\s+|\s*,\s*|\s+/).filter((word) => word !== '');
  for (let at = 1; at < words.length; at++) {
    const parts = [words.slice(0, at).join(' '), words.slice(at).join(' ')] as const;
    for (const [time, heat] of [parts, [parts[1], parts[0]] as const]) {
      const [minutes, iron] = [parseDuration(time), parseTemperature(heat)];
      if (minutes.ok && iron.ok) return searWithin(text, minutes.value, iron.value);
    }
  }
  return refuse(`${quote(text)} is not a sear: for how long, and how hot the iron is.`, SEARS);
}

function searWithin(text: string, minutes: number, iron: { celsius: number; degree: Degree }): Parsed<Sear> {
  const { celsius, degree } = iron;
  const [low, high] = [IRON.low, IRON.high].map((bound) => showTemperature(bound, degree));
  if (celsius < IRON.low || celsius > IRON.high)
    return refuse(`${quote(text)}: the heat model knows iron of ${low} to ${high}.`, SEARS);
  if (minutes < 1 || minutes > LONGEST_SEAR) return refuse(`${quote(text)}: a sear takes 1 min to 2 h.`, SEARS);
  return { ok: true, value: { minutes, celsius } };
}

export function restOf(text: string): Parsed<number> {
  const parsed = parseDuration(text);
  if (!parsed.ok || parsed.value <= LONGEST_REST) return parsed;
  return refuse(`${quote(text)} is longer than food rests.`, 'at most 12 h');
}
