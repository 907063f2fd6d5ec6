/**
 * Changes that might undo a clash, each made for a need that plays a part in it, with what it costs the cook.
 *
 * Trouble orders the ways out, small ones first: a longer gap 10 and 1 a minute; an earlier start 10 and a quarter a minute; another heat 20
 * and 2 a °C; a cook's hours 15 and half a minute's worth; serving later 20 and 1 a minute; a cook's skill 30; another appliance that is there 30; a pan or a board 40;
 * a burner 60; another cook 80; a dish made ahead or left out 100; one more appliance 150. A late landing adds 1 a minute.
 */

import { isAble } from '../../problem/able.js';
import { showHeat, showHeatSpan } from '../../problem/degrees.js';
import { dialSettings } from '../../problem/heat.js';
import { dateAt, stepKey } from '../../problem/hours.js';
import type { Problem } from '../../problem/problem.js';
import { showMinutes } from '../../units/show.js';
import * as change from './changes.js';
import type { Clash } from './clash.js';
import type { Needs } from './needs.js';
import { withoutDish } from './restrict.js';
import { wallClock } from './say-people.js';
import { clockWords, gapLimit, heatedOptions, nextOne } from './words.js';

export interface Change {
  /** What to do, without its effect: `Serve at 19:25 (25 min later)`. */
  readonly say: string;
  readonly trouble: number;
  readonly problem: Problem;
}

export interface Proposal {
  readonly kind:
    | 'pair'
    | 'gap'
    | 'start'
    | 'heat'
    | 'hours'
    | 'serve'
    | 'skill'
    | 'pan'
    | 'board'
    | 'burner'
    | 'cook'
    | 'dish'
    | 'place'
    | 'appliance';
  /** How much of it, rising: more never hurts. */
  readonly amounts: readonly number[];
  readonly make: (amount: number) => Change;
  /** The clash's own dishes are all still there, by the same indices. */
  readonly keepsDishes: boolean;
}

/** Cooked food is not left to wait for longer than this, minutes (two hours between 5 and 60 °C is the usual limit). */
const LONGEST_WAIT = 120;

/** Largest step outside of a written range, °C. */
const WIDEST = 30;

/** By five minutes up to an hour, by a quarter up to four, by half an hour up to twelve. */
const DELAYS = [...steps(5, 60, 5), ...steps(75, 240, 15), ...steps(270, 720, 30)];

function steps(from: number, to: number, by: number): number[] {
  return Array.from({ length: Math.floor((to - from) / by) + 1 }, (_, i) => from + i * by);
}

const ONCE = [0];

/** All that might help, for the whole meal that the clash is part of; each once. */
export function proposalsFor(problem: Problem, clash: Clash, clashes: readonly Needs[]): Proposal[] {
  const whole = (id: number): number => clash.part.steps[id]!;
  const families = new Set(clashes.flatMap((one) => one.families));
  const of = (family: string): number[] => [
    ...new Set(
      clashes.flatMap(({ needs }) => needs.filter((need) => need.family === family).map((need) => need.index)),
    ),
  ];
  const stepsWith = (family: string): number[] =>
    of(family)
      .map(whole)
      .sort((a, b) => a - b);
  const { lags } = clashes[0]!.compiled.model;
  const people = families.has('hands') || families.has('hours') || families.has('skill');
  return [
    ...of('gap').map((l) => gapProposal(problem, whole(lags[l]!.from), whole(lags[l]!.to))),
    ...heatProposals(problem, stepsWith('heat')),
    ...placeProposals(problem, [...stepsWith('heat'), ...stepsWith('space')]),
    ...(people ? skillProposals(problem, stepsWith('hands')) : []),
    ...(people ? hoursProposals(problem, of('hours')) : []),
    ...(families.has('clock') || families.has('hours') ? clockProposals(problem, families.has('hours')) : []),
    ...panProposals(problem, stepsWith('pan')),
    ...(families.has('board') ? [boardProposal(problem)] : []),
    ...(people ? [cookProposal(problem)] : []),
    ...dishProposals(problem, clash.part.dishes),
    ...applianceProposals(problem, [...stepsWith('heat'), ...stepsWith('space'), ...stepsWith('burner')]),
  ].filter((proposal) => proposal.amounts.length > 0);
}

export function gapProposal(problem: Problem, from: number, to: number): Proposal {
  const { gap } = problem.steps[to]!.after.find((link) => link.step === from)!;
  const amounts = steps(5, LONGEST_WAIT, 5).filter((high) => high > gap.high && high > gap.low);
  const [first, then] = [stepKey(problem, from), stepKey(problem, to)];
  const make = (high: number): Change => ({
    say: `Let ${then} begin up to ${showMinutes(high)} after ${first} (now ${gapLimit(gap.low, gap.high)})`,
    trouble: 10 + (high - gap.high),
    problem: change.longerGap(problem, from, to, high),
  });
  return { kind: 'gap', amounts, make, keepsDishes: true };
}

/** Towards the heats of the others; a step that is done to a core temperature is left alone, since its minutes would be guessed. */
export function heatProposals(problem: Problem, ids: readonly number[]): Proposal[] {
  return ids.flatMap((id) => {
    const step = problem.steps[id]!;
    if (step.core !== null) return [];
    const places = heatedOptions(problem, id).map((option) => option.place);
    const distinct = places.filter(
      (one, i) => places.findIndex((p) => p.appliance === one.appliance && p.mode === one.mode) === i,
    );
    return distinct.flatMap((place) => {
      const { appliance, mode } = place;
      const own = change.heatedSpan(problem, id, appliance, mode)!;
      const { dial, modes } = problem.kitchen.appliances[appliance]!;
      const limits = modes[mode]!.heat;
      const others = ids
        .filter((other) => other !== id)
        .map((other) => change.heatedSpan(problem, other, appliance, mode));
      const make = (celsius: number): Change => {
        const changed = change.widerHeat(problem, id, place, celsius);
        const now = showHeatSpan(problem, own.low, own.high, dial.unit);
        return {
          say: `Do ${stepKey(problem, id)} at ${showHeat(problem, celsius, dial.unit)} instead of ${now}, if ${minutesThere(changed, id, celsius)} there ${minutesThere(changed, id, celsius) === '1 min' ? 'is' : 'are'} right`,
          trouble: 20 + 2 * (celsius < own.low ? own.low - celsius : celsius - own.high),
          problem: changed,
        };
      };
      const down = others.some((other) => other !== null && other.high < own.low)
        ? dialSettings(dial, Math.max(limits.low, own.low - WIDEST), own.low - 0.1).reverse()
        : [];
      const up = others.some((other) => other !== null && other.low > own.high)
        ? dialSettings(dial, own.high + 0.1, Math.min(limits.high, own.high + WIDEST))
        : [];
      return [down, up].map((amounts): Proposal => ({ kind: 'heat', amounts, make, keepsDishes: true }));
    });
  });
}

/** Another appliance that is there; a step that is done to a core temperature is left alone here too. */
export function placeProposals(problem: Problem, ids: readonly number[]): Proposal[] {
  return [...new Set(ids)].flatMap((id) => {
    if (problem.steps[id]!.core !== null) return [];
    const known = new Set(heatedOptions(problem, id).map(({ place }) => place.appliance));
    return problem.kitchen.appliances.flatMap(({ name, modes }, appliance): Proposal[] => {
      if (known.has(appliance)) return [];
      const mode = modes.findIndex((_, m) => change.inAppliance(problem, id, appliance, m) !== null);
      if (mode < 0) return [];
      const make = (): Change => ({
        say: `Do ${stepKey(problem, id)} in the ${name}, if it takes as long there`,
        trouble: 30,
        problem: change.inAppliance(problem, id, appliance, mode)!,
      });
      return [{ kind: 'place', amounts: ONCE, make, keepsDishes: true }];
    });
  });
}

function minutesThere(problem: Problem, step: number, celsius: number): string {
  const option = heatedOptions(problem, step).find((one) => one.settings.includes(celsius));
  if (option === undefined) return 'its minutes';
  const { duration } = option;
  if (duration.kind === 'range') return showMinutes(duration.low);
  if (duration.kind === 'fixed') return showMinutes(duration.minutes);
  const at = duration.columns.find((column) => Math.abs(column.celsius - celsius) < 1e-6);
  return at === undefined ? 'its minutes' : showMinutes(at.minutes);
}

/** A cook who can do all but some of the steps learns their work. */
export function skillProposals(problem: Problem, ids: readonly number[]): Proposal[] {
  const found = new Map<string, Proposal>();
  problem.cooks.forEach((cook, c) => {
    for (const id of ids) {
      const { work, options } = problem.steps[id]!;
      if (options.some(({ place }) => isAble(problem.kitchen, cook, work, place))) continue;
      const make = (): Change => ({
        say: `Let ${cook.name} do ${work} too (${stepKey(problem, id)})`,
        trouble: 30,
        problem: change.cookCan(problem, c, work),
      });
      if (!found.has(`${c} ${work}`))
        found.set(`${c} ${work}`, { kind: 'skill', amounts: ONCE, make, keepsDishes: true });
    }
  });
  return [...found.values()];
}

export function hoursProposals(problem: Problem, cooks: readonly number[]): Proposal[] {
  return cooks.flatMap((c): Proposal[] => {
    const { name, from, to } = problem.cooks[c]!;
    const out: Proposal[] = [];
    if (from !== null) {
      const make = (sooner: number): Change => ({
        say: `${name} from ${wallClock(from - sooner)} instead of ${wallClock(from)}`,
        trouble: 15 + sooner / 2,
        problem: change.cookHours(problem, c, { from: from - sooner }),
      });
      out.push({ kind: 'hours', amounts: DELAYS.filter((n) => n <= from), make, keepsDishes: true });
    }
    if (to !== null) {
      const make = (longer: number): Change => ({
        say: `${name} until ${wallClock(to + longer)} instead of ${wallClock(to)}`,
        trouble: 15 + longer / 2,
        problem: change.cookHours(problem, c, { to: to + longer }),
      });
      out.push({ kind: 'hours', amounts: DELAYS.filter((n) => to + n <= 1440), make, keepsDishes: true });
    }
    return out;
  });
}

/** `sameDay`: hours come again every day, and a start on the day before would have the meal cooked a day too soon. */
export function clockProposals(problem: Problem, sameDay: boolean): Proposal[] {
  const sooner = DELAYS.filter((minutes) => !sameDay || dateAt(problem, -minutes) === dateAt(problem, 0));
  const start = (minutes: number): Change => ({
    say: `Begin at ${clockWords(problem, -minutes)} (${showMinutes(minutes)} earlier)`,
    trouble: 10 + minutes / 4,
    problem: change.startEarlier(problem, minutes),
  });
  const serve = (minutes: number): Change => ({
    say: `Serve at ${clockWords(problem, problem.serve + minutes)} (${showMinutes(minutes)} later)`,
    trouble: 20 + minutes,
    problem: change.serveLater(problem, minutes),
  });
  return [
    { kind: 'start', amounts: sooner, make: start, keepsDishes: true },
    { kind: 'serve', amounts: DELAYS, make: serve, keepsDishes: true },
  ];
}

export function panProposals(problem: Problem, ids: readonly number[]): Proposal[] {
  const pans = new Set(
    ids.flatMap((id) => problem.steps[id]!.options.flatMap((option) => (option.pan === null ? [] : [option.pan]))),
  );
  return [...pans].map((pan): Proposal => {
    const { name, count } = problem.kitchen.pans[pan]!;
    const make = (more: number): Change => {
      let changed = problem;
      for (let i = 0; i < more; i++) changed = change.anotherPan(changed, pan);
      const say = more === 1 ? `Have ${nextOne(count)} ${name}` : `Have ${more} more of the ${name}`;
      return { say, trouble: 40 * more, problem: changed };
    };
    return { kind: 'pan', amounts: [1, 2], make, keepsDishes: true };
  });
}

export function boardProposal(problem: Problem): Proposal {
  const make = (): Change => ({
    say: `Have ${nextOne(problem.kitchen.boards)} board`,
    trouble: 40,
    problem: change.anotherBoard(problem),
  });
  return { kind: 'board', amounts: ONCE, make, keepsDishes: true };
}

export function cookProposal(problem: Problem): Proposal {
  const make = (): Change => ({ say: 'Have one more cook', trouble: 80, problem: change.anotherCook(problem) });
  return { kind: 'cook', amounts: ONCE, make, keepsDishes: true };
}

/** What helps most often, where it is not known what clashes: another pair of hands, and less to do. */
export const usualProposals = (problem: Problem, dishes: readonly number[]): Proposal[] => [
  cookProposal(problem),
  ...dishProposals(problem, dishes),
];

export function dishProposals(problem: Problem, dishes: readonly number[]): Proposal[] {
  const many = problem.dishes.filter((dish) => dish.served).length > 1;
  return dishes
    .filter((d) => many || !problem.dishes[d]!.served)
    .map((d): Proposal => {
      const { name, served } = problem.dishes[d]!;
      const make = (): Change => ({
        say: served ? `Leave ${name} out, or have it made ahead` : `Have ${name} ready beforehand`,
        trouble: 100,
        problem: withoutDish(problem, d).problem,
      });
      return { kind: 'dish', amounts: ONCE, make, keepsDishes: false };
    });
}

/** Another appliance of each kind that the steps use; of a cooktop just one more burner. */
export function applianceProposals(problem: Problem, ids: readonly number[]): Proposal[] {
  const places = ids.flatMap((id) => problem.steps[id]!.options.map((option) => option.place));
  const used = new Set(
    places.flatMap((place) => (place.kind === 'heated' || place.kind === 'burner' ? [place.appliance] : [])),
  );
  return [...used].map((appliance): Proposal => {
    const { name, surface } = problem.kitchen.appliances[appliance]!;
    const burners = surface.kind === 'burners';
    const make = (): Change =>
      burners
        ? {
            say: `Have one more burner beside the ${name}`,
            trouble: 60,
            problem: change.anotherBurner(problem, appliance),
          }
        : { say: oneMore(name), trouble: 150, problem: change.anotherAppliance(problem, appliance) };
    return { kind: burners ? 'burner' : 'appliance', amounts: ONCE, make, keepsDishes: true };
  });
}

/** `Have a second oven`; of one that is numbered already, another like it. */
const oneMore = (name: string): string =>
  /^(first|second|third|fourth|fifth|sixth)\b/i.test(name)
    ? `Have one more like the ${name}`
    : `Have ${nextOne(1)} ${name}`;
