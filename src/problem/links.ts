/** Which step follows which, and after how long. */
import { parseDurationSpan } from '../units/duration.js';
import { quote } from '../units/measure.js';
import { showMinutes } from '../units/show.js';
import type { DishDraft, StepDraft } from './drafts.js';
import type { Spot } from './message.js';
import { nearest } from './nearest.js';
import { HEAT_WORKS, type Link, type Span } from './problem.js';
import { listed, type Reading } from './reading.js';

interface Follows {
  readonly step: StepDraft;
  /** Written gap, where there is one. */
  readonly gap: Span | undefined;
  readonly spot: Spot;
}

const FREE: Span = { low: 0, high: Number.POSITIVE_INFINITY };

export interface Links {
  /** By the id of the step that follows. */
  readonly of: readonly (readonly Link[])[];
  /** Dishes (indices) in which some link is not known, because what says it is wrong. */
  readonly doubtful: ReadonlySet<number>;
}

/** The links of every step. `lost`: some dishes or steps were refused, so that a name may well have stood for one. */
export function linksOf(reading: Reading, dishes: readonly DishDraft[], lost: boolean): Links {
  const of: Link[][] = [];
  const doubtful = new Set<number>();
  for (const dish of dishes) {
    for (const step of dish.steps) {
      const { after } = step.entry;
      const found = followed(reading, dishes, dish, step, lost);
      const asked = after === undefined || after === 'none' ? 0 : Array.isArray(after) ? after.length : 1;
      const hurt = reading.isHurt(step.entry) || (Array.isArray(after) && reading.isHurt(after));
      if (hurt || found.length < asked) doubtful.add(step.dish);
      of[step.id] = found.map((one) => linkOf(reading, step, one));
    }
  }
  return { of, doubtful };
}

function followed(
  reading: Reading,
  dishes: readonly DishDraft[],
  dish: DishDraft,
  step: StepDraft,
  lost: boolean,
): Follows[] {
  const { entry } = step;
  const gap = reading.quantity(entry, 'gap', parseDurationSpan);
  const above = dish.steps[dish.steps.indexOf(step) - 1];
  const found: Follows[] = [];
  if (entry.after === undefined) {
    if (above && !reading.isBroken(entry, 'after')) found.push({ step: above, gap, spot: reading.at(entry, 'step') });
  } else if (entry.after !== 'none') {
    const list = Array.isArray(entry.after) ? entry.after : [entry.after];
    for (const [index, one] of list.entries()) {
      const written = typeof one === 'object' ? one.step : one;
      const here = Array.isArray(entry.after) ? reading.at(entry.after, index) : reading.at(entry, 'after');
      const spot = typeof one === 'object' ? reading.at(one, 'step') : here;
      const before = stepNamed(dishes, dish, written);
      const own = typeof one === 'object' ? reading.quantity(one, 'gap', parseDurationSpan) : undefined;
      if (!before) sayUnknown(reading, dishes, dish, step, written, spot, lost);
      else if (found.some((other) => other.step === before)) {
        reading.error('after', spot, `${quote(written)} stands twice in \`after\`.`, 'leave one of the two');
      } else found.push({ step: before, gap: own ?? gap, spot });
    }
  }
  if (gap !== undefined && found.length === 0 && entry.after === undefined && !lost && !reading.isHurt(entry)) {
    const say = 'The gap has no use: no step comes before this one.';
    reading.warn('gap', reading.keyAt(entry, 'gap'), say, 'leave `gap` out');
  }
  return found;
}

/** A step of the same dish, else `Dish/step`. */
function stepNamed(dishes: readonly DishDraft[], dish: DishDraft, written: string): StepDraft | undefined {
  const own = dish.steps.find((step) => step.name === written);
  if (own || !written.includes('/')) return own;
  const [other, name] = written.split('/').map((part) => part.trim());
  return dishes.find((one) => one.name === other)?.steps.find((step) => step.name === name);
}

function sayUnknown(
  reading: Reading,
  dishes: readonly DishDraft[],
  dish: DishDraft,
  step: StepDraft,
  written: string,
  spot: Spot,
  lost: boolean,
): void {
  if (lost) return;
  const own = dish.steps.filter((one) => one !== step).map((one) => one.name);
  const all = dishes.flatMap((one) => one.steps.map((each) => `${one.name}/${each.name}`));
  const lone = dishes.flatMap((one) => one.steps).find((one) => one.name === written);
  const elsewhere = lone && `${dishes[lone.dish]!.name}/${lone.name}`;
  const hint = elsewhere ?? nearest(written, [...own, ...all]) ?? listed(own);
  const say = written.includes('/')
    ? `There is no step ${quote(written)}.`
    : `${quote(dish.name)} has no step ${quote(written)}.`;
  reading.error('unknown-step', spot, say, hint);
}

function linkOf(reading: Reading, step: StepDraft, { step: before, gap, spot }: Follows): Link {
  const span = gap ?? usualGap(before, step);
  const most = before.keeps ?? Number.POSITIVE_INFINITY;
  if (span.low > most) {
    const keeps = `${quote(before.name)} keeps only ${showMinutes(most)}`;
    reading.error(
      'gap',
      spot,
      `The gap before ${quote(step.name)} is at least ${showMinutes(span.low)}, but ${keeps}.`,
    );
  }
  return { step: before.id, gap: { low: span.low, high: Math.min(span.high, most) } };
}

/** The gap where none is written; the first rule that matches holds. */
function usualGap(before: StepDraft, step: StepDraft): Span {
  if (before.keeps !== null) return { low: 0, high: before.keeps };
  if (before.dish !== step.dish) return FREE;
  if (step.entry.work === 'rest') return { low: 0, high: 2 };
  if (before.entry.work === 'rest' || HEAT_WORKS.has(before.entry.work)) return { low: 0, high: 5 };
  return FREE;
}
