/** Where things stand, in a cook's words. */
import { RowWords } from '../../plan/row-words.js';
import { showCoreHeat, showHeat } from '../../problem/degrees.js';
import { showMinutes } from '../../units/show.js';
import type { Day } from '../journal/day.js';
import type { CoreNow } from '../readings/core-now.js';
import type { ApplianceHeat } from './heat-now.js';
import type { State, StepState } from './state.js';

export function toServe({ now, serve }: Pick<State, 'now' | 'serve'>): string {
  const left = serve - now;
  return left >= 0 ? ` (in ${showMinutes(left)})` : ` (${showMinutes(-left)} ago)`;
}

export function underWayWords(step: StepState, now: number, clock: (minute: number) => string): string {
  const since = `since ${clock(step.start!)}`;
  if (step.late > 0) return `${since}; should have ended ${showMinutes(step.late)} ago`;
  const left = step.end! - now;
  return `${since}; until ${clock(step.end!)} (${left > 0 ? `${showMinutes(left)} more` : 'now'})`;
}

export function heatWords({ problem }: Day, heat: ApplianceHeat, clock: (minute: number) => string): string {
  const { name, dial } = problem.kitchen.appliances[heat.appliance]!;
  const about = `about ${showCoreHeat(problem, heat.celsius, dial.unit)}`;
  if (heat.lost) return `lost (${about})`;
  if (heat.set === null) return heat.celsius > problem.kitchen.room + 5 ? `off, still ${about}` : 'off';
  const set = showHeat(problem, heat.set, dial.unit);
  if (heat.there !== null) return `${about}, set to ${set}: there at ${clock(heat.there)}`;
  return heat.mode === null
    ? set
    : new RowWords(problem).runHeat({ appliance: name, mode: heat.mode, celsius: heat.set });
}

/** `about 41 °C (39 to 43); pull at 55 °C about 18:14 (18:08 to 18:21), rises to 63 °C; by 2 readings, …`. */
export function coreWords({ problem }: Day, core: CoreNow, clock: (minute: number) => string): string {
  const { now, pull, atServe, readings } = core;
  const heat = (celsius: number): string => shownCore(problem, core.step, celsius);
  const at = (minute: number): string => (Number.isFinite(minute) ? clock(minute) : 'perhaps never');
  const goal =
    pull === null
      ? atServe && `${heat(atServe.likely)} when it is cut`
      : `pull at ${heat(pull.celsius)} about ${at(pull.at.likely)} (${at(pull.at.low)} to ${at(pull.at.high)})${pull.peak > pull.celsius + 0.5 ? `, rises to ${heat(pull.peak)}` : ''}`;
  const pace =
    readings === 0
      ? 'nothing read yet'
      : `by ${readings} ${readings === 1 ? 'reading' : 'readings'} ${paceWords(core.pace)}`.trim();
  return [`about ${heat(now.likely)} now`, ...(goal ? [goal] : []), pace].join('; ');
}

/** In the degrees of what its dish is heated in, also while it rests. */
export function shownCore(problem: Day['problem'], step: number, celsius: number): string {
  const { dish, options } = problem.steps[step]!;
  const all = [...options, ...problem.dishes[dish]!.steps.flatMap((id) => problem.steps[id]!.options)];
  const heated = all.find(({ place }) => place.kind === 'heated')?.place;
  const dial = heated?.kind === 'heated' ? problem.kitchen.appliances[heated.appliance]!.dial.unit : undefined;
  return showCoreHeat(problem, celsius, dial);
}

/** How sure it is that a piece heats faster or more slowly than was thought. */
function paceWords(pace: CoreNow['pace']): string {
  if (pace === null) return '';
  const { low, likely, high } = pace;
  const times = `${likely.toFixed(2)} times as fast as was thought (${low.toFixed(2)} to ${high.toFixed(2)})`;
  if (low > 1) return `very likely it heats faster: ${times}`;
  if (high < 1) return `very likely it heats more slowly: ${times}`;
  return `it heats about as was thought: ${times}`;
}
