/** Workers: who does which stretch of attention, and unary units such as burners. */

import { choiceOf, type Literal, not, type Program, Sum } from '../../constraint/program.js';
import { type ActivityMode, MOST_WORKERS, stretchesOf } from '../../kernel/model.js';
import type { Doing, Times } from './times.js';

/** One stretch of a mode, tied to the start or the end of the activity, or all of it. */
interface Stretch {
  readonly kind: 'all' | 'start' | 'end';
  /** Minutes after the start, or before the end. */
  readonly offset: number;
  readonly minutes: number;
}

/** By the key of the stretch, literals by worker. */
export type Crews = ReadonlyMap<string, ReadonlyMap<number, Literal>>;

export const stretchKey = (mode: number, { kind, offset, minutes }: Stretch): string =>
  kind === 'all' ? `${mode} all` : `${mode} ${kind} ${offset} ${minutes}`;

/** In the order of the model's own stretches. */
export function stretchesAt({ attention }: ActivityMode, minutes: number): Stretch[] {
  const flat = stretchesOf(attention, minutes);
  const found: Stretch[] = [];
  for (let k = 0; k < flat.length; k += 2) {
    const [offset, length] = [flat[k]!, flat[k + 1]!];
    const closes = attention.end > 0 && k + 2 === flat.length && offset + attention.end === minutes;
    if (attention.all) found.push({ kind: 'all', offset: 0, minutes: 0 });
    else if (closes && length === attention.end) found.push({ kind: 'end', offset: length, minutes: length });
    else found.push({ kind: 'start', offset, minutes: length });
  }
  return found;
}

/** Every number of minutes that a mode may take. */
function lengthsOf(mode: ActivityMode): number[] {
  const { range, settings } = mode;
  if (range === null) return [...new Set(settings.map((s) => s.minutes))].sort((a, b) => a - b);
  return Array.from({ length: range.high - range.low + 1 }, (_, k) => range.low + k);
}

export function addHands(times: Times): Crews[] {
  const { program, model } = times;
  const workers = model.workers.slice(0, MOST_WORKERS);
  const busy: number[][] = workers.map(() => []);
  const together: { interval: number; crew: number }[] = [];
  const crews = model.activities.map(({ id }) => addActivity(times, times.doing[id]!, busy, together));
  workers.forEach(({ stays }, w) => {
    let free = 0;
    const away = (from: number, to: number): void => {
      if (to > from) busy[w]!.push(program.interval(new Sum(from), new Sum(to - from), new Sum(to)));
    };
    for (const stay of stays) {
      away(free, stay.from);
      free = stay.to;
    }
    away(free, Math.max(free, times.latest + 1));
    program.noOverlap(busy[w]!);
  });
  // Follows from the rows above.
  if (workers.length > 1 && together.length > workers.length) {
    program.cumulative(
      together.map((one) => one.interval),
      together.map((one) => one.crew),
      workers.length,
    );
  }
  return crews;
}

function addActivity(
  times: Times,
  doing: Doing,
  busy: number[][],
  together: { interval: number; crew: number }[],
): Map<string, Map<number, Literal>> {
  const { program } = times;
  const crews = new Map<string, Map<number, Literal>>();
  const takesPart = new Map<number, Literal[]>();
  const enough = new Sum();
  const stretches = doing.modes.map((mode, m) => (mode.attention.crew > 0 ? stretchesOfMode(times, doing, m) : []));
  // Who does a single stretch cannot change on the way.
  const mayChange = stretches.some((own) => own.length > 1);
  doing.modes.forEach((mode, m) => {
    const { crew } = mode.attention;
    if (crew === 0) return;
    const able = busy.map((_, w) => w).filter((w) => (mode.able >> w) & 1);
    enough.add(doing.inMode[m]!, crew);
    for (const [key, stretch, there] of stretches[m]!) {
      const who = new Map<number, Literal>();
      crews.set(key, who);
      const [from, size, to] = placed(doing, stretch);
      together.push({ interval: program.interval(from, size, to, [there]), crew });
      const chosen = someOf(program, crew, able.length, there);
      able.forEach((w, i) => {
        const does = chosen[i]!;
        who.set(w, does);
        busy[w]!.push(program.interval(from, size, to, [does]));
        takesPart.set(w, [...(takesPart.get(w) ?? []), does]);
      });
    }
  });
  if (mayChange && takesPart.size > 1) {
    const involved = new Sum();
    for (const literals of takesPart.values()) involved.add(program.anyOf(literals));
    const extra = program.above([involved.plus(enough, -1)], takesPart.size);
    program.pay(new Sum().add(extra), times.model.rates.swap);
  }
  return crews;
}

/** Literals of which so many hold where `when` does, and none where it does not. */
function someOf(program: Program, count: number, of: number, when: Literal): Literal[] {
  if (count === of) return Array.from({ length: of }, () => when);
  if (count === 1) return choiceOf(program, of, when);
  const literals = Array.from({ length: of }, () => program.bool());
  const chosen = new Sum().add(when, -count);
  for (const literal of literals) chosen.add(literal);
  program.row(0, chosen, 0);
  return literals;
}

function placed({ start, minutes, end }: Doing, { kind, offset, minutes: length }: Stretch): [Sum, Sum, Sum] {
  if (kind === 'all') return [start, minutes, end];
  const from = kind === 'start' ? start.copy().plus(offset) : end.copy().plus(-offset);
  return [from, new Sum(length), from.copy().plus(length)];
}

/** Every stretch that some length of a mode asks for, and a literal that is true where it is asked for. */
function stretchesOfMode({ program }: Times, doing: Doing, m: number): [string, Stretch, Literal][] {
  const mode = doing.modes[m]!;
  const lengths = lengthsOf(mode);
  const found = new Map<string, { stretch: Stretch; at: number[] }>();
  for (const minutes of lengths) {
    for (const stretch of stretchesAt(mode, minutes)) {
      const key = stretchKey(m, stretch);
      const entry = found.get(key) ?? { stretch, at: [] };
      entry.at.push(minutes);
      found.set(key, entry);
    }
  }
  return [...found].map(([key, { stretch, at }]) => {
    const inMode = doing.inMode[m]!;
    if (at.length === lengths.length) return [key, stretch, inMode];
    const there = program.bool();
    program.imply(there, inMode);
    program.within(doing.minutes, ranges(at), [there]);
    const others = lengths.filter((minutes) => !at.includes(minutes));
    program.within(doing.minutes, ranges(others), [inMode, not(there)]);
    return [key, stretch, there];
  });
}

/** Rising whole numbers as ranges [low, high, low, high, ...]. */
function ranges(numbers: readonly number[]): number[] {
  const found: number[] = [];
  for (const n of numbers) {
    if (found.length > 0 && found.at(-1) === n - 1) found[found.length - 1] = n;
    else found.push(n, n);
  }
  return found;
}

/** By activity and mode: literals by unit. */
export type UnitUse = readonly ReadonlyMap<number, Literal>[];

export function addUnits(times: Times): UnitUse[] {
  const { program, model } = times;
  const busy: number[][] = Array.from({ length: model.units }, () => []);
  const uses = model.activities.map(({ id }) => {
    const doing = times.doing[id]!;
    return doing.modes.map((mode, m) => {
      const use = new Map<number, Literal>();
      if (mode.unitCount === 0) return use;
      const chosen = someOf(program, mode.unitCount, mode.units.length, doing.inMode[m]!);
      mode.units.forEach((unit, i) => {
        use.set(unit, chosen[i]!);
        busy[unit]!.push(program.interval(doing.start, doing.minutes, doing.end, [chosen[i]!]));
      });
      return use;
    });
  });
  for (const intervals of busy) program.noOverlap(intervals);
  return uses;
}
