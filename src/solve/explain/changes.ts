/** Changes of a meal or its kitchen, each made on a copy: the problem itself and its file stay as they are. */
import { carryingBurners, footprintFits, heightFits } from '../../problem/fits.js';
import { dialSettings } from '../../problem/heat.js';
import type { Appliance, Burners, Duration, Kitchen, Option, Problem, Step } from '../../problem/problem.js';
import { heatedOptions } from './words.js';

const MINUTE = 60_000;

export const serveLater = (problem: Problem, minutes: number): Problem => ({
  ...problem,
  serve: problem.serve + minutes,
});

/** The same serving time by the clock. */
export const startEarlier = (problem: Problem, minutes: number): Problem => ({
  ...problem,
  origin: problem.origin - minutes * MINUTE,
  serve: problem.serve + minutes,
});

const withStep = (problem: Problem, id: number, change: (step: Step) => Step): Problem => ({
  ...problem,
  steps: problem.steps.map((step) => (step.id === id ? change(step) : step)),
});

const withKitchen = (problem: Problem, change: Partial<Kitchen>): Problem => ({
  ...problem,
  kitchen: { ...problem.kitchen, ...change },
});

/** `to` may begin up to `high` minutes after `from` ends, and what `from` makes keeps as long. */
export function longerGap(problem: Problem, from: number, to: number, high: number): Problem {
  const longer = withStep(problem, to, (step) => ({
    ...step,
    after: step.after.map((link) => (link.step === from ? { ...link, gap: { ...link.gap, high } } : link)),
  }));
  return withStep(longer, from, (step) => ({
    ...step,
    keeps: step.keeps === null ? null : Math.max(step.keeps, high),
  }));
}

export function anotherPan(problem: Problem, pan: number): Problem {
  const pans = problem.kitchen.pans.map((one, index) => (index === pan ? { ...one, count: one.count + 1 } : one));
  return withKitchen(problem, { pans });
}

export const anotherBoard = (problem: Problem): Problem => withKitchen(problem, { boards: problem.kitchen.boards + 1 });

/** A name that none of these have: `second oven`, `third oven`. */
export function freshName(taken: readonly string[], thing: string): string {
  for (const word of ['second', 'third', 'fourth', 'fifth', 'sixth']) {
    if (!taken.includes(`${word} ${thing}`)) return `${word} ${thing}`;
  }
  return `${thing} ${taken.length + 1}`;
}

/** One burner more, like the one that carries the widest pans. */
export function anotherBurner(problem: Problem, appliance: number): Problem {
  const owner = problem.kitchen.appliances[appliance]!;
  const { burners } = owner.surface as Burners;
  const widest = burners.reduce((best, one) => (one.carries.high > best.carries.high ? one : best));
  const name = freshName(
    burners.map((one) => one.name),
    widest.name,
  );
  const surface: Burners = { kind: 'burners', burners: [...burners, { ...widest, name }] };
  const appliances = problem.kitchen.appliances.map((one, index) => (index === appliance ? { ...one, surface } : one));
  const last = burners.length;
  const steps = problem.steps.map((step) => ({
    ...step,
    options: step.options.map((option): Option => {
      const { place, load } = option;
      if (place.kind !== 'burner' || place.appliance !== appliance || load === null) return option;
      if (!carryingBurners(surface, load).includes(last)) return option;
      return { ...option, place: { ...place, burners: [...place.burners, last] } };
    }),
  }));
  return { ...withKitchen(problem, { appliances }), steps };
}

/** A second one of the same make, for every step that may be done in the first. */
export function anotherAppliance(problem: Problem, appliance: number): Problem {
  const { appliances } = problem.kitchen;
  const old = appliances[appliance]!;
  const fresh: Appliance = {
    ...old,
    name: freshName(
      appliances.map((one) => one.name),
      old.name,
    ),
  };
  const steps = problem.steps.map((step) => ({
    ...step,
    options: step.options.flatMap((option): Option[] => {
      const { place } = option;
      if ((place.kind !== 'heated' && place.kind !== 'burner') || place.appliance !== appliance) return [option];
      return [option, { ...option, place: { ...place, appliance: appliances.length } }];
    }),
  }));
  return { ...withKitchen(problem, { appliances: [...appliances, fresh] }), steps };
}

export function anotherCook(problem: Problem): Problem {
  const taken = problem.cooks.map((cook) => cook.name);
  const name = taken.includes('helper') ? freshName(taken, 'helper') : 'helper';
  return { ...problem, cooks: [...problem.cooks, { name, can: null, from: null, to: null }] };
}

/** A cook learns one more kind of work, or one more appliance. */
export function cookCan(problem: Problem, cook: number, word: string): Problem {
  const cooks = problem.cooks.map((one, index) =>
    index === cook && one.can !== null ? { ...one, can: [...one.can, word] } : one,
  );
  return { ...problem, cooks };
}

/** A cook comes or leaves at another time; minutes after midnight. */
export function cookHours(problem: Problem, cook: number, hours: { from?: number; to?: number }): Problem {
  return { ...problem, cooks: problem.cooks.map((one, index) => (index === cook ? { ...one, ...hours } : one)) };
}

/**
 * A step may be done at one more temperature, and at all between, in a mode of an appliance. Outside the columns of its table it is
 * taken to last as long as in the nearest one when hotter, and when cooler longer by twice what the nearest columns say: tables
 * of minutes bend upwards.
 */
export function widerHeat(
  problem: Problem,
  id: number,
  place: { appliance: number; mode: number },
  celsius: number,
): Problem {
  const { dial } = problem.kitchen.appliances[place.appliance]!;
  return withStep(problem, id, (step) => ({
    ...step,
    options: step.options.map((option): Option => {
      const own =
        option.place.kind === 'heated' &&
        option.place.appliance === place.appliance &&
        option.place.mode === place.mode;
      if (!own) return option;
      const low = Math.min(celsius, option.settings[0]!);
      const high = Math.max(celsius, option.settings.at(-1)!);
      return {
        ...option,
        settings: dialSettings(dial, low - 1e-9, high + 1e-9),
        duration: longerTable(option.duration, celsius),
      };
    }),
  }));
}

function longerTable(duration: Duration, celsius: number): Duration {
  if (duration.kind !== 'table') return duration;
  const { columns } = duration;
  const [first, second] = columns;
  const last = columns.at(-1)!;
  if (celsius > last.celsius) return { kind: 'table', columns: [...columns, { celsius, minutes: last.minutes }] };
  if (celsius >= first!.celsius) return duration;
  const slope = second === undefined ? 0 : (first!.minutes - second.minutes) / (second.celsius - first!.celsius);
  const minutes = Math.ceil(first!.minutes + 2 * slope * (first!.celsius - celsius));
  return { kind: 'table', columns: [{ celsius, minutes }, ...columns] };
}

/** A step may be done in one more appliance that is there, as long as in the one it is written for; null where it does not go there. */
export function inAppliance(problem: Problem, id: number, appliance: number, mode: number): Problem | null {
  const place = problem.kitchen.appliances[appliance]!;
  const how = place.modes[mode]!;
  const [model] = heatedOptions(problem, id);
  if (model === undefined || model.load === null) return null;
  const [low, high] = [model.settings[0]!, model.settings.at(-1)!];
  const settings = dialSettings(place.dial, Math.max(low, how.heat.low) - 1e-9, Math.min(high, how.heat.high) + 1e-9);
  if (settings.length === 0 || !footprintFits(place, how, model.load.footprint) || !heightFits(place, how, model.load))
    return null;
  const option: Option = { ...model, place: { kind: 'heated', appliance, mode }, settings };
  return withStep(problem, id, (step) => ({ ...step, options: [...step.options, option] }));
}

/** The temperatures at which a step may be done in a mode of an appliance; null where it has none there. */
export function heatedSpan(
  problem: Problem,
  step: number,
  appliance: number,
  mode: number,
): { low: number; high: number } | null {
  const settings = heatedOptions(problem, step)
    .filter((option) => option.place.appliance === appliance && option.place.mode === mode)
    .flatMap((option) => option.settings);
  return settings.length === 0 ? null : { low: Math.min(...settings), high: Math.max(...settings) };
}
