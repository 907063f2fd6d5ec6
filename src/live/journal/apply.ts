/** One entry after the other: what each makes of the day, or why it cannot be. */
import { clockAt, minuteAt, stepKey } from '../../problem/hours.js';
import type { Problem } from '../../problem/problem.js';
import { quote } from '../../units/measure.js';
import type { Begun } from '../happened.js';
import { type Day, grown, plannedSteps } from './day.js';
import type { BodyOf, Entry, Head } from './entries.js';
import { panShort } from './guests.js';
import { found, lost } from './losses.js';
import { cookNamed, dishNamed, isRefusal, placeNamed, type Refusal, refuse, stepNamed } from './names.js';
import { readingOf } from './reading.js';
import { unfit } from './unfit.js';

/** Minutes by which a clock may be ahead of another. */
const AHEAD = 2;

/** The day with an entry more. Undo is not among what it takes: who rebuilds leaves out what was taken back. */
export function applied(day: Day, entry: Entry): Day | Refusal {
  const { problem } = day;
  const when = Math.floor(minuteAt(problem, entry.when));
  const at = minuteAt(problem, entry.at);
  const clock = clockAt(problem, when);
  if (when > at + AHEAD) {
    return refuse(
      `${clock} is still to come: it is ${clockAt(problem, Math.floor(at))} now.`,
      'note it when it has happened',
    );
  }
  switch (entry.kind) {
    case 'begin':
    case 'undo':
      return day;
    case 'plan': {
      const wrong = unfit(problem, entry.plan);
      return wrong === null ? { ...day, plan: entry.plan, planSay: entry.say } : refuse(wrong);
    }
    case 'started':
      return started(day, entry, when);
    case 'done':
      return done(day, entry, when);
    case 'reading':
      return readingOf(day, entry, when);
    case 'serve': {
      const serve = Math.round(minuteAt(problem, entry.serve));
      if (serve < when) return refuse(`${clockAt(problem, serve)} is past.`, 'a serving time that is still to come');
      return { ...day, serve };
    }
    case 'guests':
      return guests(day, entry);
    case 'lost':
      return lost(day, entry, when);
    case 'found':
      return found(day, entry);
    case 'gone': {
      const cook = cookNamed(problem, entry.cook);
      if (isRefusal(cook)) return cook;
      const since = day.gone.get(cook);
      if (since !== undefined)
        return refuse(`${problem.cooks[cook]!.name} is gone already, since ${clockAt(problem, since)}.`);
      return { ...day, gone: new Map([...day.gone, [cook, when]]) };
    }
    case 'back': {
      const cook = cookNamed(problem, entry.cook);
      if (isRefusal(cook)) return cook;
      if (!day.gone.has(cook)) return refuse(`${problem.cooks[cook]!.name} was not gone.`);
      return { ...day, gone: new Map([...day.gone].filter(([one]) => one !== cook)) };
    }
    case 'dropped': {
      const dish = dishNamed(problem, entry.dish);
      if (isRefusal(dish)) return dish;
      if (day.dropped.has(dish)) return refuse(`${problem.dishes[dish]!.name} is dropped already.`);
      return { ...day, dropped: new Set([...day.dropped, dish]) };
    }
    case 'added': {
      const more = grown(day, [...day.added, entry.dish], day.guests);
      if (!('meal' in more)) {
        const wrong = more.filter(({ severity }) => severity === 'error');
        const [first] = wrong;
        const rest = wrong.length > 1 ? ` (and ${wrong.length - 1} more)` : '';
        return refuse(`${first!.file}:${first!.line}:${first!.column}: ${first!.say}${rest}`, first!.hint ?? null);
      }
      return more;
    }
    case 'heeded':
      return { ...day, heeded: new Set([...day.heeded, entry.call]) };
    case 'note':
      return { ...day, remarks: [...day.remarks, { at: when, who: entry.who, text: entry.text }] };
  }
}

type Said = Head & (BodyOf<'started'> | BodyOf<'done'>);

/** What an entry says of how a step is done, checked; or why not. */
function mannerOf(
  problem: Problem,
  { place, celsius, cooks }: Said,
): Pick<Begun, 'place' | 'celsius' | 'cooks'> | Refusal {
  const where = place === undefined ? undefined : placeNamed(problem, place);
  if (isRefusal(where)) return where;
  const names: string[] = [];
  for (const cook of cooks ?? []) {
    const one = cookNamed(problem, cook);
    if (isRefusal(one)) return one;
    names.push(problem.cooks[one]!.name);
  }
  return {
    ...(where !== undefined && { place: where }),
    ...(celsius !== undefined && { celsius }),
    ...(names.length > 0 && { cooks: names }),
  };
}

const withStep = (day: Day, id: number, begun: Begun): Day => ({ ...day, steps: new Map([...day.steps, [id, begun]]) });

function started(day: Day, entry: Head & BodyOf<'started'>, when: number): Day | Refusal {
  const { problem } = day;
  const id = stepNamed(problem, entry.step);
  if (isRefusal(id)) return id;
  const name = stepKey(problem, id);
  const before = day.steps.get(id);
  if (before?.end === null)
    return refuse(`${name} is under way already, since ${clockAt(problem, before.start)}.`, `done ${quote(name)}`);
  if (before) return refuse(`${name} is done already, since ${clockAt(problem, before.end!)}.`);
  const manner = mannerOf(problem, entry);
  if (isRefusal(manner)) return manner;
  return inOrder(day, id, when) ?? withStep(day, id, { start: when, end: null, ...manner });
}

function done(day: Day, entry: Head & BodyOf<'done'>, when: number): Day | Refusal {
  const { problem } = day;
  const id = stepNamed(problem, entry.step);
  if (isRefusal(id)) return id;
  const name = stepKey(problem, id);
  const before = day.steps.get(id);
  if (before && before.end !== null)
    return refuse(`${name} is done already, since ${clockAt(problem, before.end)}.`, 'undo that entry if it was wrong');
  const manner = mannerOf(problem, entry);
  if (isRefusal(manner)) return manner;
  if (before) {
    if (when < before.start)
      return refuse(
        `${name} was started at ${clockAt(problem, before.start)}: it cannot have been done at ${clockAt(problem, when)}.`,
      );
    return withStep(day, id, { ...before, end: when, ...manner });
  }
  // Nobody said that it began: as planned then, or after what comes before it.
  const earliest = Math.max(0, ...problem.steps[id]!.after.map(({ step }) => day.steps.get(step)?.end ?? 0));
  const row = plannedSteps(day).get(id);
  const length = row ? minuteAt(problem, row.end) - minuteAt(problem, row.start) : 0;
  const planned = row ? minuteAt(problem, row.start) : when;
  const start = Math.max(Math.min(planned < when ? planned : when - length, when), Math.min(earliest, when));
  return inOrder(day, id, start) ?? withStep(day, id, { start, end: when, ...manner });
}

/** Why a step cannot have begun at a minute after what comes before it; null where it can. */
function inOrder({ problem, steps, dropped }: Day, id: number, when: number): Refusal | null {
  const name = stepKey(problem, id);
  const { dish, after } = problem.steps[id]!;
  if (dropped.has(dish)) return refuse(`${problem.dishes[dish]!.name} was dropped.`, 'undo that first');
  for (const { step } of after) {
    const earlier = stepKey(problem, step);
    const fact = steps.get(step);
    if (fact === undefined)
      return refuse(`${name} comes after ${earlier}, which is not done yet.`, `first: done ${quote(earlier)}`);
    if (fact.end === null) {
      const since = clockAt(problem, fact.start);
      return refuse(
        `${name} comes after ${earlier}, which is under way since ${since}.`,
        `first: done ${quote(earlier)}`,
      );
    }
    if (fact.end > when) {
      return refuse(
        `${name} comes after ${earlier}, which was done at ${clockAt(problem, fact.end)}: it cannot have begun at ${clockAt(problem, when)}.`,
        clockAt(problem, fact.end),
      );
    }
  }
  return null;
}

function guests(day: Day, entry: Head & BodyOf<'guests'>): Day | Refusal {
  const { problem } = day;
  const dish = dishNamed(problem, entry.dish);
  if (isRefusal(dish)) return dish;
  const { name, steps } = problem.dishes[dish]!;
  const begun = steps.find((id) => day.steps.has(id));
  if (begun !== undefined)
    return refuse(
      `${name} is begun (${problem.steps[begun]!.name}): how much there is of it is settled.`,
      'add a dish beside it',
    );
  const times = new Map(day.guests);
  times.set(dish, (day.guests.get(dish) ?? 1) * (entry.now / entry.before));
  const more = grown(day, day.added, times);
  if (!('meal' in more)) return refuse('The dishes that were added cannot be read any more.');
  const short = panShort(more.problem, dish);
  if (short)
    return refuse(
      `${name} for ${entry.now} wants ${short.wants} of the pan ${quote(short.pan)}, and there ${short.has === 1 ? 'is' : 'are'} ${short.has}.`,
    );
  return more;
}
