/** What is told of a core: where the piece is pulled, when that may be, how far it rises, and what a late one means. */
import { showCoreHeat } from '../problem/degrees.js';
import { clockAt, minuteAt } from '../problem/hours.js';
import { showMinutes } from '../units/show.js';
import type { View, ViewStep } from './view.js';

/** °C by which a core must rise for its peak to be told. */
const WORTH_TELLING = 0.5;

/** `pull at 57 °C, between 17:52 and 18:14; rises to 60 °C by 18:24, 59 °C when cut`; empty for a step that is done to no core. */
export function coreWords(view: View, step: ViewStep): string {
  const { pull, window } = step.row;
  if (pull === undefined) return '';
  const degree = step.appliance === null ? 'C' : view.problem.kitchen.appliances[step.appliance]!.dial.unit;
  const clock = (iso: string) => clockAt(view.problem, minuteAt(view.problem, iso));
  const within = window ? `, between ${clock(window.from)} and ${clock(window.to)}` : '';
  const core = (celsius: number) => showCoreHeat(view.problem, celsius, degree);
  const predicted = view.dishes[step.dish]!.row?.core;
  // A dish has one core, that of the last step which is done to one.
  const own = predicted?.pull === pull ? predicted : undefined;
  const { steps, dishes } = view.problem;
  const cut = dishes[step.dish]!.steps.some((id) => steps[id]!.work === 'carve');
  const served = own?.atServe == null ? '' : `, ${core(own.atServe)} when ${cut ? 'cut' : 'served'}`;
  const rises = own?.peak != null && own.peakAt !== null && own.peak - pull >= WORTH_TELLING;
  const peak = rises ? `; rises to ${core(own!.peak!)} by ${clock(own!.peakAt!)}${served}` : served;
  return `pull at ${core(pull)}${within}${peak}`;
}

/** What the latest end means for the landing; empty where it is not known. */
export function latestWords(view: View, step: ViewStep): string {
  const { window } = step.row;
  if (window === undefined) return '';
  const to = clockAt(view.problem, minuteAt(view.problem, window.to));
  if (window.late === 0) return `even at ${to} it lands in time, with less rest or waiting`;
  return `at ${to} it would land ${showMinutes(window.late)} late: there is not enough rest to shorten`;
}
