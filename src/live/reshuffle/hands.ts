/** Who is on what has begun: those who were, and for what is to come of it somebody who is there and free. */
import { stretchesOf } from '../../kernel/model.js';
import { isAble } from '../../problem/able.js';
import { stays, type Window } from '../../problem/hours.js';
import type { Hands, Problem } from '../../problem/problem.js';
import { attentionOf } from '../../solve/compile.js';
import type { Happened } from '../happened.js';
import type { HandsOn } from './doing.js';
import type { Left, StepLeft } from './left.js';

/** Of one step that has begun: workers, `crew` for each stretch in turn. */
export interface Crew {
  readonly hands: readonly number[];
  /** Minutes after its expected end at which somebody is free to end it. */
  readonly wait: number;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly last: boolean;
}

/** Longer than this nobody is waited for: the step ends as expected, and two things are to be done at once. */
const MOST_WAIT = 30;

/** By step of what is left; null where it has not begun or nobody needs to be told. */
export function crewsOf({ problem, steps }: Left, happened: Happened, horizon: number): (Crew | null)[] {
  const there = problem.cooks.map((_, c) => stays(problem, c, horizon));
  const busy: Window[][] = problem.cooks.map(() => []);
  const out: (Crew | null)[] = steps.map(() => null);
  const begun = steps.map((_, id) => id).filter((id) => steps[id]!.fact !== null);
  begun.sort((a, b) => steps[a]!.fact!.doing.end - steps[b]!.fact!.doing.end || a - b);
  for (const id of begun) {
    const { fact } = steps[id]!;
    let crew: Crew | null = null;
    for (let wait = 0; crew === null && wait <= (fact!.ended ? 0 : MOST_WAIT); wait++) {
      crew = crewOf(problem, id, steps[id]!, happened, there, busy, wait, false);
    }
    out[id] = crew ?? crewOf(problem, id, steps[id]!, happened, there, busy, 0, true);
  }
  return out;
}

function crewOf(
  problem: Problem,
  id: number,
  { fact }: StepLeft,
  { now, gone }: Happened,
  there: readonly (readonly Window[])[],
  busy: Window[][],
  wait: number,
  anyway: boolean,
): Crew | null {
  const { doing, said, ended } = fact!;
  const { work } = problem.steps[id]!;
  const { place, hands } = doing.option;
  const taken: { cook: number; stretch: Stretch }[] = [];
  const isFree = (cook: number, { from, to }: Stretch): boolean => {
    if (!isAble(problem.kitchen, problem.cooks[cook]!, work, place)) return false;
    if (to > (gone.get(cook) ?? Number.POSITIVE_INFINITY)) return false;
    if (!there[cook]!.some((w) => w.start <= Math.max(from, now) && to <= w.end)) return false;
    return busy[cook]!.every((w) => w.end <= from || to <= w.start);
  };
  const out: number[] = [];
  for (const stretch of stretchesFor(hands, doing.start, doing.end + wait)) {
    const wanted = wantedFor(doing.hands, said, stretch);
    const past = ended || stretch.to <= now;
    const list: number[] = [];
    for (const cook of [...wanted, ...problem.cooks.keys()]) {
      if (list.length === hands.cooks) break;
      if (list.includes(cook) || cook < 0) continue;
      const goesOn =
        stretch.from < now && wanted.includes(cook) && !((gone.get(cook) ?? Number.POSITIVE_INFINITY) < stretch.to);
      if (past || goesOn || isFree(cook, stretch)) list.push(cook);
    }
    if (list.length < hands.cooks) {
      if (!anyway) return null;
      const all = [...wanted, ...problem.cooks.keys()];
      const here = all.filter((cook) => stretch.to <= (gone.get(cook) ?? Number.POSITIVE_INFINITY));
      for (const cook of [...here, ...all]) {
        if (list.length < hands.cooks && cook >= 0 && !list.includes(cook)) list.push(cook);
      }
    }
    for (const cook of list) taken.push({ cook, stretch });
    out.push(...list);
  }
  for (const { cook, stretch } of taken) {
    if (stretch.to > now) busy[cook]!.push({ start: stretch.from, end: stretch.to });
  }
  return { hands: out, wait };
}

function stretchesFor(hands: Hands, start: number, end: number): Stretch[] {
  const flat = stretchesOf(attentionOf(hands), end - start);
  const out: Stretch[] = [];
  for (let k = 0; k < flat.length; k += 2) {
    const from = start + flat[k]!;
    out.push({ from, to: from + flat[k + 1]!, last: k + 2 === flat.length });
  }
  return out;
}

/** Those who were said to be on it, then those who were to be at that time, at the end for an end, at all. */
function wantedFor(planned: readonly HandsOn[], said: readonly number[], stretch: Stretch): number[] {
  const same = planned.filter((hand) => hand.start === stretch.from);
  const ending = stretch.last ? planned.filter((hand) => hand.end === planned.at(-1)?.end) : [];
  return [
    ...new Set([...said, ...same.map((h) => h.cook), ...ending.map((h) => h.cook), ...planned.map((h) => h.cook)]),
  ];
}
