/** Small problems within the referee's scope: at most three dishes, eight steps, two appliances with runs, short times. */
import { stringify } from 'yaml';
import { Random } from '../support/random.js';

type Fields = Record<string, unknown>;

interface Small {
  readonly random: Random;
  readonly oven: boolean;
  readonly grill: boolean;
  readonly burners: number;
  /** One dish at most is seared first: two of them, in turn, would keep the referee for a minute. */
  seared: boolean;
}

const minutes = (value: number): string => `${value} min`;

function kitchenOf({ random, oven, grill, burners }: Small): Fields {
  const appliances: Fields[] = [];
  if (oven) {
    const racks = {
      count: random.int(1, 2),
      size: '32 x 42 cm',
      height: random.pick(['24 cm', '40 cm']),
      clearance: '4 cm',
    };
    const modes = { roast: { heat: '140-240C' } };
    const pace = { heats: random.pick(['40C/min', '60C/min']), cools: random.pick(['10C/min', '20C/min']) };
    appliances.push({ appliance: 'small oven', kind: 'oven', racks, modes, ...pace, dial: '20C' });
  }
  if (grill) {
    const zones = ['left', 'right'].map((zone) => ({ zone, size: '32 x 44 cm' }));
    const modes = {
      sear: { lid: 'open', heat: '220-300C' },
      roast: { lid: 'closed', heat: '140-240C', lit: ['right'], height: '20 cm' },
    };
    appliances.push({
      appliance: 'yard grill',
      kind: 'grill',
      zones,
      modes,
      heats: '60C/min',
      cools: '20C/min',
      dial: '20C',
    });
  }
  if (burners > 0) {
    const list = ['front', 'back'].slice(0, burners).map((burner) => ({ burner, size: '20 cm' }));
    appliances.push({ appliance: 'hob', kind: 'cooktop', burners: list });
  }
  const wash = (): string => minutes(random.pick([0, 0, 2, 4]));
  return {
    kitchen: 'Small kitchen',
    room: '20C',
    appliances,
    boards: random.pick([1, 1, 2]),
    pans: [
      { pan: 'wide tray', size: '30 x 40 cm', height: '3 cm', count: random.int(1, 2), wash: wash() },
      { pan: 'narrow dish', size: '14 x 38 cm', height: '7 cm', count: random.int(1, 2), wash: wash() },
      { pan: 'deep dish', size: '31 x 39 cm', height: '10 cm', count: 1, wash: wash() },
      { pan: 'pot', round: '20 cm', height: '12 cm', count: random.int(1, 2), wash: wash() },
    ],
  };
}

/** Minutes by temperature, falling and convex, at columns of which the dial has two or three. */
function byTemperature(random: Random, low: number): { takes: Fields; heat: unknown } {
  const wide = random.chance(0.5);
  const high = low + (wide ? 40 : 20);
  const base = random.int(3, 6);
  const takes: Fields = { [`${low}C`]: minutes(base + random.int(1, 4)) };
  takes[`${high}C`] = minutes(base);
  const range = `${low}-${high}C`;
  const ideal = `${random.pick([low, low + 20, low + 10])}C`;
  return { takes, heat: random.chance(0.5) ? { range, ideal } : range };
}

/** Work on the heat, with alternatives where the kitchen has them. */
function onTheHeat(small: Small, name: string): Fields {
  const { random, oven, grill, burners } = small;
  const places: Fields[] = [];
  if (oven) places.push({ place: 'oven' });
  if (grill) places.push({ place: 'grill', mode: 'roast' });
  if (places.length === 0 || (burners > 0 && random.chance(0.35))) return onABurner(small, name);
  const { takes, heat } = byTemperature(random, random.pick([160, 180, 200]));
  const step: Fields = { step: name, work: random.pick(['roast', 'bake']), takes, heat };
  const chosen = random.some(places, 0.6);
  if (chosen.length === 1 && burners > 0 && random.chance(0.2)) {
    chosen.push({ place: 'burner', heat: 'medium', pan: 'pot', takes: minutes(random.int(5, 8)) });
  }
  step.on = chosen;
  step.pan = random.pick(['wide tray', 'narrow dish', 'narrow dish', 'deep dish']);
  return { ...step, ...handsOf(random), ...emptied(random) };
}

function onABurner({ random, burners, oven }: Small, name: string): Fields {
  if (burners === 0) {
    const pan = 'wide tray';
    const place = { place: oven ? 'oven' : 'grill', mode: 'roast', heat: '180-200C' };
    return { step: name, work: 'bake', takes: minutes(random.int(3, 6)), on: [place], pan, ...handsOf(random) };
  }
  const on = [{ place: 'burner', heat: random.pick(['low', 'medium', 'high']) }];
  const work = random.pick(['simmer', 'boil', 'fry']);
  return {
    step: name,
    work,
    takes: minutes(random.int(2, 6)),
    on,
    pan: 'pot',
    ...handsOf(random),
    ...emptied(random),
  };
}

function handsOf(random: Random): Fields {
  const kind = random.int(0, 5);
  if (kind <= 1) return { hands: { start: '1 min' } };
  if (kind === 2) return { hands: { start: '1 min', end: '1 min' } };
  if (kind === 3) return { hands: { start: '1 min', every: minutes(random.int(2, 4)), for: '1 min' } };
  if (kind === 4) return { hands: 'none' };
  return {};
}

function emptied(random: Random): Fields {
  return random.chance(0.25) ? { empties: true } : {};
}

function prep(random: Random, name: string): Fields {
  const step: Fields = { step: name, work: 'prep', takes: minutes(random.int(1, 5)) };
  if (random.chance(0.3)) step.on = 'none';
  if (random.chance(0.4)) step.keeps = minutes(random.int(2, 12));
  return step;
}

function rest(random: Random): Fields {
  const low = random.int(1, 4);
  const takes = `${low}-${low + random.int(2, 4)} min`;
  const step: Fields = { step: 'stand', work: 'rest', takes };
  if (random.chance(0.6)) step.best = `${low + 1}-${low + 2} min`;
  return step;
}

function last(random: Random): Fields {
  const work = random.pick(['carve', 'finish', 'plate']);
  return { step: work, work, takes: minutes(random.int(1, 4)), ...(work === 'plate' ? { on: 'none' } : {}) };
}

function gapOf(random: Random): Fields {
  return random.chance(0.25) ? { gap: random.pick(['0-3 min', '1-6 min', '0 min', '2-10 min']) } : {};
}

function stepsOf(small: Small, count: number): Fields[] {
  const { random } = small;
  if (count === 1)
    return [random.chance(0.3) ? { ...prep(random, 'cut'), keeps: undefined } : onTheHeat(small, 'cook')];
  if (count === 2) {
    const steps = random.chance(0.6)
      ? [prep(random, 'cut'), onTheHeat(small, 'cook')]
      : [onTheHeat(small, 'cook'), last(random)];
    return [steps[0]!, { ...steps[1]!, ...gapOf(random) }];
  }
  const steps = [prep(random, 'cut'), onTheHeat(small, 'cook')];
  if (count >= 4) {
    if (small.grill && !small.seared && random.chance(0.5)) {
      small.seared = true;
      const on = [{ place: 'grill', mode: 'sear', heat: '240-260C' }];
      const sear: Fields = { step: 'sear', work: 'sear', takes: minutes(random.int(2, 3)), on, pan: 'wide tray' };
      steps.splice(1, 0, sear);
      steps[2] = { ...steps[2]!, gap: '0-9 min' };
    } else steps.push(rest(random));
  }
  if (steps.length < count) steps.push({ ...last(random), ...gapOf(random) });
  return steps;
}

function dishOf(small: Small, name: string, count: number): Fields {
  const { random } = small;
  const dish: Fields = { dish: name };
  if (random.chance(0.6)) dish.keeps = minutes(random.int(1, 12));
  if (random.chance(0.8)) dish.fades = random.pick(['fast', 'fast', 'steady', 'slow', 'never']);
  return {
    ...dish,
    steps: stepsOf(small, count).map(({ keeps, ...step }) => (keeps === undefined ? step : { ...step, keeps })),
  };
}

/** The last step of a served dish also waits for a component. */
function addComponent(small: Small, dishes: Fields[], count: number): void {
  const { random } = small;
  const steps = stepsOf(small, count);
  dishes.push({ dish: 'Oil', served: false, fades: random.pick(['steady', 'slow']), steps });
  const user = dishes[0]!.steps as Fields[];
  const at = user.length - 1;
  const link = { step: `Oil/${String(steps.at(-1)!.step)}`, gap: `0-${random.int(4, 15)} min` };
  const { gap, ...rest } = user[at]!;
  const own = at === 0 ? [] : [gap === undefined ? user[at - 1]!.step : { step: user[at - 1]!.step, gap }];
  user[at] = { ...rest, after: [...own, link] };
}

export function smallProblemText(seed: number): string {
  const random = new Random(seed);
  const kind = random.int(0, 9);
  const small: Small = {
    random,
    oven: kind !== 0 && kind !== 1,
    grill: kind === 1 || kind >= 7,
    burners: kind === 0 ? 2 : random.int(0, 2),
    seared: false,
  };
  const kitchen = kitchenOf(small);
  const dishes: Fields[] = [];
  const component = random.chance(0.3);
  const served = random.int(1, component ? 2 : 3);
  let left = 8 - (component ? 2 : 0);
  for (let k = 0; k < served; k++) {
    const count = Math.min(left - (served - 1 - k), random.int(served === 1 ? 4 : 2, 4));
    left -= count;
    dishes.push(dishOf(small, ['Roast', 'Bake', 'Stew'][k]!, count));
  }
  if (component) addComponent(small, dishes, random.int(1, 2));
  const problem: Fields = { format: 'hearthtable/1', title: `Small problem ${seed}`, serve: '2026-05-05 13:00' };
  problem.start = `2026-05-05 12:${random.chance(0.15) ? random.int(38, 43) : random.int(25, 34)}`;
  problem.zone = 'UTC';
  problem.kitchen = kitchen;
  const helpers: unknown[] = [
    'Ben',
    { name: 'Ben', can: ['prep', 'board', 'oven'] },
    { name: 'Ben', from: '12:40' },
    { name: 'Ben', can: ['roast', 'bake', 'grill', 'finish', 'carve'], to: '12:55' },
  ];
  problem.cooks = random.chance(0.55) ? ['Ana'] : ['Ana', random.pick(helpers)];
  if (dishes.length > 1 && random.chance(0.2)) {
    problem.courses = [
      { course: 'main', at: '0 min' },
      { course: 'after', at: minutes(random.int(4, 10)) },
    ];
    dishes[served - 1]!.course = served > 1 ? 'after' : 'main';
  }
  if (random.chance(0.2)) problem.care = { runs: random.pick([1, 3, 12]), idle: random.pick([0.01, 0.2]) };
  problem.dishes = dishes;
  return stringify(problem);
}
