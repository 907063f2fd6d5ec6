/** The sentences of an estimate, in the units in which it was asked. */

import type { Units } from '../../src/estimate/asked.js';
import type { Estimate, EstimateAnswer } from '../../src/estimate/document.js';
import { showTimeAt } from '../../src/safety/core.js';
import { showCore, showLength, showMinutes, showTemperature, showWeight } from '../../src/units/show.js';

/** A core's temperature in whole degrees. */
export const coreWords = (celsius: number, { core }: Units): string => showCore(celsius, core);

/** The same with the other degree beside it, which the thermometer at hand may have. */
export const both = (celsius: number, { core }: Units): string =>
  `${showCore(celsius, core)} (${showCore(celsius, core === 'C' ? 'F' : 'C')})`;

/** By how much, in the degrees that are told. */
export const riseWords = (rise: number, { core }: Units): string =>
  `${Math.round(core === 'C' ? rise : rise * 1.8)} °${core}`;

/** `oven at 165 °C` */
export const airWords = ({ heat }: Estimate, celsius: number, { air }: Units): string =>
  `${heat.inside} at ${showTemperature(celsius, air)}`;

/** What is cooked, and how. */
export function headWords(estimate: Estimate, units: Units): { piece: string; way: string } {
  const { food, piece, heat, sear, room, answers } = estimate;
  const { thickness, width, length, weight, from, bone, crust, shape } = piece;
  const size = (metres: number | null, word: string): string[] =>
    metres === null ? [] : [`${showLength(metres, units.length)} ${word}`];
  const round = shape === 'cylinder' || shape === 'sphere';
  const sizes = [
    ...size(thickness, round ? 'across' : 'thick'),
    ...(round ? [] : size(width, 'wide')),
    ...(shape === 'sphere' ? [] : size(length, 'long')),
    ...(weight === null ? [] : [showWeight(weight, units.weight)]),
  ];
  const details = [
    ...(bone ? ['with its bone'] : []),
    ...(crust > 0 ? [`in a crust of ${showLength(crust, units.length)}`] : []),
    `from ${showCore(from, units.core)}`,
  ];
  const as = food.reckonedAs === food.asked ? '' : ` (reckoned as ${food.reckonedAs})`;
  const seared =
    sear === null
      ? ''
      : `Seared for ${showMinutes(sear.minutes)} at ${showTemperature(sear.celsius, units.air)}, then `;
  const [answer, ...more] = answers;
  const at = answer !== undefined && more.length === 0 ? ` at ${showTemperature(answer.celsius, units.air)}` : '';
  const air = heat.moving === 'fan' ? 'with its fan' : 'in still air';
  const on = { rack: 'on a rack', pan: 'in a pan', grate: 'on the grate, the fire beside it, lid closed' }[heat.on];
  const rests = answers.some(({ rest }) => rest > 0);
  const then = rests ? `; rests under loose foil in a room of ${showTemperature(room, units.core)}` : '';
  return {
    piece: `${upper(food.asked)}: ${SHAPES[shape]} ${[...sizes, ...details].join(', ')}${as}.`,
    way: `${upper(`${seared}${heat.inside}${at}, ${air}, ${on}${heat.foil ? ', wrapped in foil' : ''}`)}${then}.`,
  };
}

const SHAPES = { cylinder: 'cylinder', sphere: 'ball', slab: 'slab', brick: 'brick' } as const;
const upper = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** `1 h 39 min likely, between 1 h 27 min and 1 h 54 min` */
export function timeWords({ minutes: { low, likely, high } }: Pick<EstimateAnswer, 'minutes'>): string {
  const from = showMinutes(Math.floor(low));
  const to =
    high === null
      ? `${from} at the least, and perhaps it never gets there`
      : `between ${from} and ${showMinutes(Math.ceil(high))}`;
  return `${showMinutes(likely)} likely, ${to}`;
}

/** From what the range comes, each cause by itself. */
export function spreadWords({ spread }: Estimate, { core }: Units): string {
  if (spread === null) return '';
  const effect = ({ later, sooner }: { later: number | null; sooner: number }): string =>
    later === null ? 'perhaps never' : `${showMinutes(Math.max(later, -sooner, 1))}`;
  const percent = (by: number): string => `${Math.round(by * 100)} %`;
  const { size, transfer, start } = spread;
  const degrees = `${Math.round(core === 'C' ? start.by : start.by * 1.8)} °${core}`;
  return `${percent(size.by)} in size: ${effect(size)}; ${percent(transfer.by)} in heat transfer: ${effect(transfer)}; ${degrees} at the start: ${effect(start)}; each either way`;
}

/** How far the published times are held. */
export function lethalityWords({ lethality }: EstimateAnswer, { core }: Units): string {
  if (lethality === null) return 'no times at a temperature are published for this food, only its core temperature';
  const { share, logs, required, source } = lethality;
  const asked = `the published ${showTimeAt(lethality.published, core)}`;
  if (share >= 1) return `all of ${asked}, which kill ${required} log of Salmonella (${source})`;
  return `${Math.floor(share * 100)} % of ${asked}: ${Math.floor(logs * 10) / 10} of ${required} log of Salmonella (${source})`;
}

const MEETS = {
  goal: 'what was asked for meets it',
  peak: 'the peak is predicted to meet it',
  times: 'not met, but by the published times at lower temperatures',
} as const;

/** The published figure, and by what it is met. */
export function publishedWords({ published }: Estimate, { meets }: EstimateAnswer): string {
  if (published === null) return 'no figure that we know';
  const { food, celsius, fahrenheit, rest, or } = published;
  const rests = rest > 0 ? `, then ${showMinutes(rest)} of rest` : '';
  const figure = `${food}: ${celsius} °C (${fahrenheit} °F)${rests}${or === null ? '' : `, or ${or}`}`;
  return `${figure}; ${meets === null ? 'not met' : MEETS[meets]}`;
}

/** What air is too cold, and what would do. */
export function neverWords(
  { goal, heat }: Estimate,
  never: NonNullable<Estimate['never']>,
  { air, core }: Units,
): string {
  const told = never.celsius.map((one) => showTemperature(one, air)).join(' or ');
  const would =
    never.would === null ? 'no air that we know would' : `it would from ${showTemperature(never.would, air)} on`;
  return `${heat.inside === 'oven' ? 'In an oven' : 'In a grill'} at ${told} the core never gets to ${showTemperature(goal.celsius, core)}, for what evaporates keeps it cooler than the air: ${would}.`;
}
