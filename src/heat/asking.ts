/** One way of doing a step, put to the heat model as a question, and its answer as a duration. °C, minutes. */
import type { Duration, Forecast, Option, OptionAsRead, ProblemAsRead, StepAsRead } from '../problem/problem.js';
import { restAfter } from '../problem/rests.js';
import { showTemperature, showTemperatureSpan } from '../units/show.js';
import { answersKept } from './answered.js';
import { aroundStep } from './around.js';
import { columnsOf } from './columns.js';
import type { Joint } from './joint.js';
import type { Answer, Question } from './roast.js';
import type { Setting } from './setting.js';
import { legsOf, likelyStays, restUntil, wayThrough, wayTo } from './way.js';

/** Why there is no answer, and what would do. */
export interface Refusal {
  readonly say: string;
  readonly hint: string;
}

/** Minutes below which a step is not worth its name, and °C by which a peak may be past its target. */
const SOME = 0.2;
const PAST = 1;

/** An option whose core is asked for, with its minutes, or why the heat model has none. All that comes before has its minutes. */
export function answeredOption(
  problem: ProblemAsRead,
  step: StepAsRead,
  option: OptionAsRead,
  joint: Joint,
): Option | Refusal {
  const { kitchen } = problem;
  const { settings, place } = option;
  const goal = option.core!;
  const degree = place.kind === 'heated' ? kitchen.appliances[place.appliance]!.dial.unit : 'C';
  const core = showTemperature(goal, degree);
  if (joint.from >= goal) {
    const say = `The piece begins at ${showTemperature(joint.from, degree)}, which is not below the core of ${core}.`;
    return { say, hint: 'look at `from` of the piece' };
  }
  const stays = likelyStays(problem, [...wayTo(problem.steps, step.id), step.id], option);
  const earlier = stays.slice(0, -1);
  const before = legsOf(kitchen, earlier, stays.at(-1)!.start);
  if (before === null) return unknown('how the piece comes to this step', 'minutes: ...');
  const cooked = earlier.some(({ around }) => around?.kind !== 'room');
  const around = (celsius: number | null): Setting | null => aroundStep(kitchen, step.work, option, celsius, cooked);
  const burner = settings.length === 0;
  if (around(burner ? null : settings[0]!) === null)
    return unknown('how long this takes', burner ? '{ place: burner, minutes: 20 min }' : 'minutes: ...');
  const celsius = burner ? [0] : settings;
  const found = answersKept({
    joint,
    before,
    heat: (at) => around(burner ? null : at)!,
    celsius,
    goal: option.atPeak ? { target: goal } : { core: goal },
    ...restOf(problem, step, option),
  }).filter(({ minutes }) => Number.isFinite(minutes.high));
  if (found.length === 0) {
    const where = burner ? 'On this flame' : `At ${showTemperatureSpan(celsius[0]!, celsius.at(-1)!, degree)}`;
    return { say: `${where} the core never gets to ${core}.`, hint: 'more heat, or a lower core' };
  }
  const answers = found.filter(({ minutes, peak }) => minutes.likely >= SOME && !(option.atPeak && peak > goal + PAST));
  if (answers.length === 0) {
    const say = `By all that comes before${option.atPeak ? ' and the rest' : ''} the core is past ${core} without this step.`;
    return { say, hint: 'a higher core, or less heat before' };
  }
  const forecasts = answers.map((answer) => forecastOf(answer, burner));
  const duration = burner ? fixedBy(forecasts[0]!) : tableBy(answers);
  const [lowest, highest] = [answers[0]!.celsius, answers.at(-1)!.celsius];
  return { ...option, settings: settings.filter((one) => one >= lowest && one <= highest), forecasts, duration };
}

function unknown(what: string, hint: string): Refusal {
  const say = `The heat model knows nothing of food in water, in steam or in a closed pot, and so not ${what}.`;
  return { say, hint };
}

const forecastOf = ({ celsius, minutes, pull, peak, peakAfter }: Answer, burner: boolean): Forecast => ({
  celsius: burner ? null : celsius,
  ...minutes,
  // Where a slower piece never gets there, a quicker one may not have been found either.
  low: Number.isFinite(minutes.low) ? minutes.low : minutes.likely,
  pull,
  peak,
  peakAfter,
});

const tableBy = (answers: readonly Answer[]): Duration => ({
  kind: 'table',
  columns: columnsOf(answers.map(({ celsius, minutes }) => ({ celsius, minutes: minutes.likely }))),
});

function fixedBy({ low, likely, high }: Forecast): Duration {
  const minutes = Math.max(1, Math.round(likely));
  return {
    kind: 'fixed',
    minutes,
    low: Math.min(minutes, Math.max(1, Math.floor(low))),
    high: Math.max(minutes, Math.ceil(high)),
  };
}

/** How the piece gets to its rest, and how long it most likely lies until the next step; no rest where none follows. */
function restOf(problem: ProblemAsRead, step: StepAsRead, option: OptionAsRead): Pick<Question, 'moving' | 'rest'> {
  const id = restAfter(problem.steps, step.id);
  const way = wayThrough(problem.steps, step.id);
  const stays = likelyStays(problem, way, option);
  const [off, rest] = [stays[way.indexOf(step.id)]!, stays[way.indexOf(id ?? -1)]];
  if (rest === undefined || rest.around === null) return { moving: 0, rest: null };
  const end = restUntil(rest, stays[way.indexOf(id!) + 1]?.start ?? rest.end);
  return { moving: rest.start - off.end, rest: { around: rest.around, minutes: end - rest.start } };
}
