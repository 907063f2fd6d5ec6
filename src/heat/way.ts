/** The way of a dish's piece through its steps, and the time that each most likely takes. Minutes, °C. */
import {
  type Asked,
  type Duration,
  HEAT_WORKS,
  type Kitchen,
  type OptionAsRead,
  type ProblemAsRead,
  type Span,
  type Work,
} from '../problem/problem.js';
import { aroundStep, aroundWait } from './around.js';
import type { Leg } from './roast.js';
import type { Setting } from './setting.js';

type Steps = ProblemAsRead['steps'];

/** Ids of the steps that the piece goes through before a step, in order: of branches, the one that the file has last. */
export function wayTo(steps: Steps, id: number): number[] {
  const before = steps[id]!.after.map(({ step }) => step).filter((step) => steps[step]!.dish === steps[id]!.dish);
  if (before.length === 0) return [];
  const last = Math.max(...before);
  return [...wayTo(steps, last), last];
}

/** The same with the step itself and what follows, to one at the end of the dish: of branches the one that rests, else the first. */
export function wayThrough(steps: Steps, id: number): number[] {
  const onward = (from: number): number[] => {
    const next = steps.filter(
      ({ dish, after }) => dish === steps[from]!.dish && after.some(({ step }) => step === from),
    );
    const step = next.find(({ work }) => work === 'rest') ?? next[0];
    return step ? [step.id, ...onward(step.id)] : [];
  };
  return [...wayTo(steps, id), id, ...onward(id)];
}

/** A stretch of a piece's way in one setting, from one minute to another; null: the heat model knows nothing of it. */
export interface Stay {
  readonly start: number;
  readonly end: number;
  readonly around: Setting | null;
  /** At rest, which gives way when what comes before ends earlier or later: the least minutes. Null: it does not give way. */
  readonly least: number | null;
}

/**
 * The same where one stay ends at another minute: what is done to the piece up to its rest moves with it, and the rest begins so much
 * earlier or later and ends as before, if it can. Where no rest follows before the next heat, nothing moves.
 */
export function endingAt(stays: readonly Stay[], k: number, end: number): Stay[] {
  const changed = [...stays];
  const later = end - stays[k]!.end;
  changed[k] = { ...stays[k]!, end };
  const rest = stays.findIndex(({ least }, at) => at > k && least !== null);
  if (rest < 0 || stays.slice(k + 1, rest).some(({ around }) => around?.kind !== 'room')) return changed;
  for (let at = k + 1; at <= rest; at++) {
    const { start, end: before, least } = stays[at]!;
    const moved = start + later;
    changed[at] = {
      ...stays[at]!,
      start: moved,
      end: least === null ? before + later : Math.max(moved + least, before),
    };
  }
  return changed;
}

/** When a piece leaves the surroundings of its rest: under its foil it lies until the next thing is done to it, from a warm place it is taken. */
export const restUntil = ({ around, end }: Stay, next: number): number => (around?.kind === 'room' ? next : end);

/** The stays in order with the waits between them, up to a minute; null where one of them is not known. */
export function legsOf(kitchen: Kitchen, stays: readonly Stay[], until: number): Leg[] | null {
  const legs: Leg[] = [];
  for (const [at, { start, end, around }] of stays.entries()) {
    if (start >= until) break;
    if (around === null) return null;
    legs.push({ around, minutes: Math.min(end, until) - start });
    const wait = Math.min(stays[at + 1]?.start ?? until, until) - end;
    if (wait > 0) legs.push({ around: aroundWait(kitchen, around), minutes: wait });
  }
  return legs;
}

/** The stays up to the first of which the heat model knows nothing. */
export function knownOf(stays: readonly Stay[]): readonly Stay[] {
  const unknown = stays.findIndex(({ around }) => around === null);
  return unknown < 0 ? stays : stays.slice(0, unknown);
}

/** The way up to where the piece is cut once it has been on the heat: what is carved is no piece any more. */
export function wayUncut(steps: Steps, way: readonly number[]): readonly number[] {
  const hot = way.findIndex((id) => HEAT_WORKS.has(steps[id]!.work));
  const cut = way.findIndex((id, k) => hot >= 0 && k > hot && steps[id]!.work === 'carve');
  return cut < 0 ? way : way.slice(0, cut);
}

/** Minutes by which a step is likely to wait within its gap: half of it, ten at most. */
const likelyWait = ({ low, high }: Span): number => low + Math.min((high - low) / 2, 10);

/** The temperature at which a way is likely to be done: nearest to its ideal, or in the middle. */
export function likelySetting({ settings, ideal }: Pick<OptionAsRead, 'settings' | 'ideal'>): number | null {
  const wanted = ideal ?? settings[Math.floor(settings.length / 2)] ?? 0;
  return settings.reduce<number | null>(
    (best, one) => (best === null || Math.abs(one - wanted) < Math.abs(best - wanted) ? one : best),
    null,
  );
}

/** Minutes at a temperature by a duration: as planned, by the table, or rather short within the best, since plans are. */
function likelyMinutes(duration: Duration, celsius: number | null): number {
  if (duration.kind === 'fixed') return duration.minutes;
  if (duration.kind === 'range') return duration.best.low + (duration.best.high - duration.best.low) / 4;
  const { columns } = duration;
  const at = Math.max(
    1,
    columns.findIndex((column) => column.celsius >= (celsius ?? 0)),
  );
  const [a, b] = [columns[at - 1]!, columns[at]];
  if (b === undefined || celsius === null) return a.minutes;
  return a.minutes + ((celsius - a.celsius) / (b.celsius - a.celsius)) * (b.minutes - a.minutes);
}

/** How short a step may be that gives way, where it most likely takes so many minutes; null where it does not. */
export function leastOf(work: Work, duration: Duration | Asked, minutes: number): number | null {
  return work !== 'rest' ? null : duration.kind === 'range' ? duration.low : minutes;
}

/** The way of doing a step that goes with another's: on the same appliance where it can be, else the first. */
function optionBeside(options: readonly OptionAsRead[], other: OptionAsRead | null): OptionAsRead {
  const appliance = other !== null && 'appliance' in other.place ? other.place.appliance : null;
  return options.find(({ place }) => 'appliance' in place && place.appliance === appliance) ?? options[0]!;
}

/**
 * When a piece is where, most likely, along its way from a dish's first step: minutes after that begins. A step whose duration is
 * not known yet takes no time here. `other`: a way of doing one of them, beside which the others are done.
 */
export function likelyStays(
  { kitchen, steps }: ProblemAsRead,
  way: readonly number[],
  other: OptionAsRead | null,
): Stay[] {
  let [now, cooked] = [0, false];
  return way.map((id, at) => {
    const { work, after, options } = steps[id]!;
    const option = other !== null && options.includes(other) ? other : optionBeside(options, other);
    const { duration } = option;
    const celsius = likelySetting(option);
    const link = after.find(({ step }) => step === way[at - 1]);
    const start = now + (link ? likelyWait(link.gap) : 0);
    now = start + (duration.kind === 'asked' ? 0 : likelyMinutes(duration, celsius));
    const around = aroundStep(kitchen, work, option, celsius, cooked);
    cooked ||= HEAT_WORKS.has(work);
    return { start, end: now, around, least: leastOf(work, duration, now - start) };
  });
}
