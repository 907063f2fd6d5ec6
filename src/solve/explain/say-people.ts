/** Whose hands a clash is about, what they may do and when they are there. */

import { isAble } from '../../problem/able.js';
import type { Cook, Problem } from '../../problem/problem.js';
import { showList } from '../../units/show.js';
import type { Needs } from './needs.js';
import { cooksWord, stepsOf, when } from './say-needs.js';
import { stepNames } from './words.js';

export function handsSentences(clash: Needs): string[] {
  const { problem } = clash.compiled;
  const steps = stepsOf(clash, 'hands');
  if (steps.length === 0) return [];
  const able = steps.map((id) => ableCooks(problem, id));
  const everyone = able.every((list) => list.length === problem.cooks.length);
  const same = able.every((list) => list.join() === able[0]!.join());
  const crews = steps.map((id) => Math.min(...problem.steps[id]!.options.map((option) => option.hands.cooks)));
  const asked = crews.reduce((sum, crew) => sum + crew, 0);
  const whole = steps.every((id) => problem.steps[id]!.options.every((option) => option.hands.all));
  const hands = whole ? 'hands the whole time' : 'hands';
  const many = asked > steps.length ? `, ${cooksWord(asked)} in all` : '';
  const need = steps.length === 1 ? 'needs' : 'each need';
  const who = everyone
    ? `, and there ${problem.cooks.length === 1 ? 'is' : 'are'} ${cooksWord(problem.cooks.length)}`
    : same
      ? `, and only ${showList(namesOf(problem, able[0]!))} can do ${steps.length === 1 ? 'it' : 'them'}`
      : '';
  const first = `${showList(stepNames(problem, steps))} ${need} ${hands}${when(clash, steps)}${many}${who}.`;
  const each = everyone || same ? [] : steps.map((id, i) => onlyThese(problem, id, able[i]!));
  return [first, ...each.filter((say) => say !== null), ...hoursSentences(clash)];
}

/** `Only Paulo can do Steak/grill.` */
function onlyThese(problem: Problem, step: number, able: readonly number[]): string | null {
  if (able.length === problem.cooks.length) return null;
  return `Only ${showList(namesOf(problem, able))} can do ${stepNames(problem, [step])[0]!}.`;
}

function hoursSentences({ compiled: { problem }, needs }: Needs): string[] {
  const cooks = needs.filter((need) => need.family === 'hours').map((need) => problem.cooks[need.index]!);
  return cooks.map((cook) => `${cook.name} ${hoursWords(cook)}.`);
}

/** `comes at 16:00`, `leaves at 19:30`, `is there from 16:00 to 19:30`. */
function hoursWords({ from, to }: Cook): string {
  if (from !== null && to !== null) return `is there from ${wallClock(from)} to ${wallClock(to)}`;
  return from === null ? `leaves at ${wallClock(to ?? 1440)}` : `comes at ${wallClock(from)}`;
}

/** Minutes after midnight as `16:00`. */
export const wallClock = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`;

/** Cooks who can do a step in some way. */
export function ableCooks(problem: Problem, step: number): number[] {
  const { work, options } = problem.steps[step]!;
  return [...problem.cooks.keys()].filter((c) =>
    options.some((option) => isAble(problem.kitchen, problem.cooks[c]!, work, option.place)),
  );
}

const namesOf = (problem: Problem, cooks: readonly number[]): string[] => cooks.map((c) => problem.cooks[c]!.name);
