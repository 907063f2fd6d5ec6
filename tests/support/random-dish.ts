/** Random dishes of several characters, with what they ask of hands, ovens and burners. */
import type { Random } from './random.js';
import { type Fields, minutes, type RandomKitchen, type Units } from './random-kitchen.js';

/** A dish, with about how many minutes it keeps a cook, an oven level and a burner busy, and how long it takes at least. */
export interface RandomDish {
  readonly fields: Fields;
  readonly hands: number;
  readonly oven: number;
  readonly burner: number;
  readonly chain: number;
}

interface Making {
  readonly random: Random;
  readonly units: Units;
  readonly kitchen: RandomKitchen;
  readonly twoCooks: boolean;
  hands: number;
  oven: number;
  burner: number;
  chain: number;
}

function prep(making: Making, step: string, low: number, high: number): Fields {
  const { random } = making;
  const takes = random.int(low, high);
  making.hands += takes;
  making.chain += takes;
  const fields: Fields = { step, work: 'prep', takes: minutes(takes) };
  if (random.chance(0.2)) fields.on = 'none';
  if (random.chance(0.6)) fields.keeps = random.pick(['20 min', '45 min', '2 h', '5 h']);
  return fields;
}

function finish(making: Making, step: string): Fields {
  const { random } = making;
  const takes = random.int(1, 6);
  making.hands += takes;
  making.chain += takes;
  const fields: Fields = { step, work: random.pick(['finish', 'finish', 'plate']), takes: minutes(takes) };
  if (random.chance(0.3)) fields.gap = random.pick(['0-10 min', '0-2 min', '1-8 min']);
  if (making.twoCooks && takes > 2 && random.chance(0.1)) fields.hands = { cooks: 2 };
  return fields;
}

function rest({ random }: Making, step: string, low: number, high: number): Fields {
  const from = random.int(low, high);
  const to = from + random.int(Math.ceil(low / 2), high);
  const fields: Fields = { step, work: 'rest', takes: `${from}-${to} min` };
  if (random.chance(0.7)) {
    const a = random.int(from, to);
    fields.best = a === to ? minutes(a) : `${a}-${random.int(a, to)} min`;
  }
  return fields;
}

function looks({ random }: Making, long: number): Fields {
  const kind = random.int(0, 4);
  if (kind === 0 || long < 10) return {};
  if (kind === 1) return { hands: { start: '2 min', end: '2 min' } };
  if (kind === 2) return { hands: 'none' };
  const every = minutes(random.int(6, Math.max(6, Math.floor(long / 2))));
  return {
    hands: {
      start: minutes(random.int(1, 3)),
      every,
      for: minutes(random.int(1, 2)),
      ...(kind === 4 ? { end: '1 min' } : {}),
    },
  };
}

/** In an oven or on a grill, at temperatures within [low, high] (multiples of 5 °C, `high - low` of 20). */
function baking(making: Making, step: string, work: string, low: number, high: number, long: number): Fields {
  const { random, units, kitchen } = making;
  const columns = random.int(2, 3);
  const from = random.int(0, (high - low) / 20 - columns + 1) * 20 + low;
  const table: Fields = {};
  const times: number[] = [];
  let time = long;
  let saving = Math.max(2, Math.floor(long / random.int(5, 8)));
  for (let k = 0; k < columns; k++) {
    times.push(time);
    table[units.temperature(from + 20 * k)] = minutes(time);
    time -= saving;
    saving = Math.max(1, Math.floor(saving * 0.7));
  }
  making.oven += long;
  making.chain += times.at(-1)!;
  const to = from + 20 * (columns - 1);
  const range = units.range(from, to);
  const heat = random.chance(0.6)
    ? { range, ideal: units.temperature(from + 5 * random.int(0, (to - from) / 5)) }
    : range;
  const on: Fields[] = [{ place: 'oven' }];
  if (kitchen.grill && from >= 110 && random.chance(0.4)) on.push({ place: 'grill', mode: 'roast' });
  const fields: Fields = { step, work, on, heat };
  if (random.chance(0.3)) {
    fields.until = { core: units.temperature(random.pick([55, 60, 70, 75])) };
    fields.minutes = table;
  } else if (random.chance(0.15)) fields.takes = minutes(long);
  else fields.takes = table;
  return { ...fields, ...looks(making, long) };
}

function onBurner(making: Making, step: string, work: string, low: number, high: number, pan: string): Fields {
  const { random } = making;
  const takes = random.int(low, high);
  making.burner += takes;
  making.chain += takes;
  if (work === 'fry') making.hands += takes;
  const spread = { low: minutes(takes - 1), likely: minutes(takes), high: minutes(takes + random.int(1, 6)) };
  const on = [{ place: 'burner', heat: random.pick(['low', 'medium', 'high']) }];
  const fields: Fields = { step, work, takes: random.chance(0.2) ? spread : minutes(takes), on, pan };
  return work === 'fry' ? fields : { ...fields, ...looks(making, takes) };
}

function roastSteps(making: Making): Fields[] {
  const { random, units, kitchen } = making;
  const steps = [prep(making, 'season', 5, 15)];
  const pan = random.pick(['roasting pan', 'quarter sheet']);
  if (random.chance(0.6)) {
    const on: Fields[] = [{ place: 'burner', heat: 'high', pan: 'skillet' }];
    if (kitchen.grill) on.unshift({ place: 'grill', mode: 'sear', heat: units.range(250, 300) });
    const takes = random.int(6, 14);
    making.hands += takes;
    steps.push({ step: 'sear', work: 'sear', takes: minutes(takes), on });
  }
  const roast = baking(making, 'roast', 'roast', 140, 200, random.int(50, 130));
  steps.push({ ...roast, pan, ...(steps.length > 1 ? { gap: '0-20 min' } : {}) });
  steps.push(rest(making, 'rest', 10, 25));
  making.hands += 6;
  steps.push({ step: 'carve', work: 'carve', takes: minutes(random.int(4, 8)) });
  return steps;
}

function traySteps(making: Making): Fields[] {
  const { random } = making;
  const pans = random.chance(0.2)
    ? { pan: 'half sheet', pans: 2 }
    : { pan: random.pick(['half sheet', 'quarter sheet']) };
  const steps = [
    prep(making, 'cut', 8, 25),
    { ...baking(making, 'roast', 'roast', 160, 220, random.int(20, 50)), ...pans },
  ];
  if (random.chance(0.6)) steps.push(finish(making, 'dress'));
  return steps;
}

function dishSteps(making: Making): Fields[] {
  const { random } = making;
  const pan = random.pick(['baking dish', 'pie dish', 'casserole']);
  const steps = [
    prep(making, 'layer', 10, 30),
    { ...baking(making, 'bake', 'bake', 160, 200, random.int(35, 80)), pan },
  ];
  if (random.chance(0.5)) steps.push(rest(making, 'settle', 6, 15));
  return steps;
}

function breadSteps(making: Making): Fields[] {
  const { random } = making;
  const bake = { ...baking(making, 'bake', 'bake', 180, 240, random.int(16, 45)), pan: 'quarter sheet' };
  const steps: Fields[] = [prep(making, 'mix', 8, 20), rest(making, 'prove', 30, 90), prep(making, 'shape', 5, 12)];
  making.chain += 60;
  steps.push({ ...bake, ...(random.chance(0.6) ? { empties: 'yes' } : {}) });
  return steps;
}

function potSteps(making: Making): Fields[] {
  const { random } = making;
  const work = random.pick(['simmer', 'boil', 'braise', 'steam']);
  const pan = random.pick(['pot', 'saucepan', 'saucepan']);
  const steps = [prep(making, 'chop', 4, 15), onBurner(making, 'cook', work, 6, 45, pan)];
  if (random.chance(0.3)) steps[1]!.empties = true;
  if (random.chance(0.5)) steps.push(finish(making, 'season'));
  return steps;
}

function frySteps(making: Making): Fields[] {
  const steps = [prep(making, 'dry', 3, 8), onBurner(making, 'fry', 'fry', 4, 12, 'skillet')];
  if (making.random.chance(0.5)) steps.push(finish(making, 'turn out'));
  return steps;
}

/** Two branches that meet. */
function joinedSteps(making: Making): Fields[] {
  const one = { ...prep(making, 'cut', 5, 15), after: 'none' };
  const two = { ...onBurner(making, 'blanch', 'boil', 3, 8, 'saucepan'), after: 'none', empties: true };
  return [one, two, { ...finish(making, 'toss'), gap: undefined, after: ['cut', { step: 'blanch', gap: '0-30 min' }] }];
}

function coldSteps(making: Making): Fields[] {
  const { random } = making;
  const low = random.int(30, 90);
  const steps: Fields[] = [prep(making, 'mix', 5, 20)];
  steps.push({ step: 'set', work: 'chill', takes: `${low}-${low + random.int(30, 240)} min` });
  making.chain += low;
  if (random.chance(0.4)) steps.push(finish(making, 'turn out'));
  return steps;
}

const KINDS = [
  roastSteps,
  traySteps,
  traySteps,
  dishSteps,
  breadSteps,
  potSteps,
  potSteps,
  frySteps,
  joinedSteps,
  coldSteps,
];

function fresh(random: Random, units: Units, kitchen: RandomKitchen, twoCooks: boolean): Making {
  return { random, units, kitchen, twoCooks, hands: 0, oven: 0, burner: 0, chain: 0 };
}

/** A step's own `keeps` is for the next step; on the last step of a served dish the dish says it. */
function tidy(steps: Fields[], served: boolean): Fields[] {
  return steps.map((step, k) => {
    const { keeps, gap, ...rest } = step;
    const kept = keeps !== undefined && (!served || k < steps.length - 1) ? { keeps } : {};
    return { ...rest, ...(gap === undefined ? {} : { gap }), ...kept };
  });
}

/** A roast whose sizes go together. Some of those that are done to a core leave their minutes to the heat model. */
function pieceFor(random: Random, units: Units, fields: Fields, steps: readonly Fields[]): Fields {
  const [thickness, length] = [random.int(7, 11), random.int(20, 30)];
  const food = random.pick(['pork', 'beef', 'lamb']);
  const which = random.int(15, 30);
  if (food === 'lamb') fields.accept = ['core-low'];
  const roast = steps.find((step) => step.until !== undefined);
  if (roast !== undefined && which % 3 === 0) {
    delete roast.minutes;
    if (which % 2 === 0) {
      roast.target = (roast.until as Fields).core;
      delete roast.until;
    }
  }
  const weight = Math.round((thickness / 2) ** 2 * Math.PI * length * 1.05) / 1000;
  const known = which % 2 === 0 ? { weight: units.weight(weight) } : { length: units.length(length) };
  return { food, shape: 'cylinder', thickness: units.length(thickness), ...known, from: units.temperature(5) };
}

export function randomDish(
  random: Random,
  units: Units,
  kitchen: RandomKitchen,
  twoCooks: boolean,
  name: string,
): RandomDish {
  const making = fresh(random, units, kitchen, twoCooks);
  const kind = random.pick(KINDS);
  const steps = tidy(kind(making), true);
  const fields: Fields = { dish: name };
  if (random.chance(0.7)) fields.keeps = random.pick(['4 min', '8 min', '15 min', '25 min', '1 h']);
  if (random.chance(0.7)) fields.fades = random.pick(['fast', 'steady', 'slow', 'never']);
  if (kind === roastSteps) fields.piece = pieceFor(random, units, fields, steps);
  if ((kind === traySteps || kind === dishSteps) && random.chance(0.4)) {
    fields.hold = {
      heat: units.range(60, 95),
      ...(random.chance(0.6) ? { keeps: '90 min' } : {}),
      ...(random.chance(0.5) ? { fades: 'slow' } : {}),
    };
  }
  fields.steps = steps;
  const { hands, oven, burner, chain } = making;
  return { fields, hands, oven, burner, chain };
}

/** A component of one or two steps; its last step is what others come after. */
export function randomComponent(
  random: Random,
  units: Units,
  kitchen: RandomKitchen,
  name: string,
): RandomDish & { last: string } {
  const making = fresh(random, units, kitchen, false);
  const steps = [prep(making, 'chop', 3, 10)];
  if (random.chance(0.5)) steps.push(onBurner(making, 'warm', 'simmer', 5, 20, 'saucepan'));
  const { hands, oven, burner, chain } = making;
  const fields: Fields = {
    dish: name,
    served: 'no',
    fades: random.pick(['steady', 'slow', 'never']),
    steps: tidy(steps, false),
  };
  return { fields, hands, oven, burner, chain, last: String(steps.at(-1)!.step) };
}
