/**
 * Generated meals of any size for the benchmarks: five steps a dish, in a kitchen that grows with the number of dishes and in which
 * everything can be done. The same number gives the same meal on every machine.
 */
import { stringify } from 'yaml';
import { Random } from '../support/random.js';

type Step = Record<string, unknown>;

interface Recipe {
  readonly name: string;
  readonly fields: Record<string, unknown>;
  readonly steps: (random: Random) => Step[];
}

const min = (minutes: number): string => `${minutes} min`;

/** Minutes that are planned, and on one day in ten a fifth less or a third more. */
const about = (minutes: number): Record<string, string> => ({
  low: min(Math.max(1, Math.round(minutes * 0.8))),
  likely: min(minutes),
  high: min(Math.ceil(minutes * 1.33)),
});

/** Minutes at three temperatures 20 °C apart. */
function table(from: number, minutes: number): Record<string, string> {
  return {
    [`${from}C`]: min(minutes),
    [`${from + 20}C`]: min(Math.round(minutes * 0.86)),
    [`${from + 40}C`]: min(Math.round(minutes * 0.76)),
  };
}

const prep = (random: Random, step: string, low: number, high: number): Step => {
  return { step, work: 'prep', takes: about(random.int(low, high)), keeps: '6 h' };
};

const finish = (random: Random, step: string): Step => ({ step, work: 'finish', takes: about(random.int(1, 4)) });

const oven = (step: string, work: string, from: number, minutes: number, pan: string): Step => {
  return { step, work, on: [{ place: 'oven' }], takes: table(from, minutes), heat: `${from}-${from + 40}C`, pan };
};

const burner = (step: string, work: string, minutes: number, pan: string): Step => {
  return { step, work, on: [{ place: 'burner', heat: 'medium' }], takes: about(minutes), pan };
};

const RECIPES: readonly Recipe[] = [
  {
    name: 'Roast',
    fields: { keeps: '20 min' },
    steps: (random) => [
      prep(random, 'season', 5, 12),
      burner('sear', 'sear', random.int(6, 12), 'skillet'),
      { ...oven('roast', 'roast', 150, random.int(50, 80), 'roasting pan'), gap: '0-30 min', empties: 'yes' },
      { step: 'rest', work: 'rest', takes: '10-40 min', best: '15-25 min' },
      { step: 'carve', work: 'carve', takes: about(random.int(4, 8)) },
    ],
  },
  {
    name: 'Roots',
    fields: { keeps: '30 min' },
    steps: (random) => [
      prep(random, 'scrub', 4, 8),
      prep(random, 'cut', 6, 12),
      { ...oven('roast', 'roast', 170, random.int(30, 45), 'half sheet'), empties: 'yes' },
      finish(random, 'dress'),
      { step: 'dish up', work: 'plate', takes: about(random.int(1, 3)) },
    ],
  },
  {
    name: 'Gratin',
    fields: { keeps: '40 min', fades: 'slow' },
    steps: (random) => [
      prep(random, 'slice', 6, 14),
      prep(random, 'layer', 5, 10),
      oven('bake', 'bake', 160, random.int(40, 60), 'baking dish'),
      { step: 'settle', work: 'rest', takes: '5-30 min', best: '8-15 min' },
      finish(random, 'garnish'),
    ],
  },
  {
    name: 'Loaf',
    fields: { keeps: '3 h', fades: 'slow' },
    steps: (random) => [
      { step: 'mix', work: 'prep', takes: about(random.int(6, 12)) },
      { step: 'prove', work: 'rest', takes: '40-120 min', best: '60-90 min' },
      { step: 'shape', work: 'prep', takes: about(random.int(4, 8)), keeps: '40 min' },
      { ...oven('bake', 'bake', 190, random.int(26, 40), 'quarter sheet'), empties: 'yes' },
      { step: 'cool', work: 'rest', takes: '15-180 min' },
    ],
  },
  {
    name: 'Soup',
    fields: { keeps: '45 min', fades: 'slow' },
    steps: (random) => [
      prep(random, 'chop', 5, 12),
      burner('sweat', 'fry', random.int(4, 8), 'pot'),
      burner('simmer', 'simmer', random.int(20, 40), 'pot'),
      finish(random, 'blend'),
      finish(random, 'season'),
    ],
  },
  {
    name: 'Salad',
    fields: { keeps: '20 min' },
    steps: (random) => [
      prep(random, 'trim', 4, 10),
      { ...burner('blanch', 'boil', random.int(3, 6), 'saucepan'), empties: 'yes' },
      { step: 'chill', work: 'chill', takes: '10-90 min' },
      finish(random, 'toss'),
      { step: 'dish up', work: 'plate', takes: about(random.int(1, 3)) },
    ],
  },
  {
    name: 'Tart',
    fields: { keeps: '2 h', fades: 'never' },
    steps: (random) => [
      prep(random, 'mix', 5, 10),
      prep(random, 'line', 4, 8),
      { ...oven('bake', 'bake', 170, random.int(25, 40), 'pie dish'), empties: 'yes' },
      { step: 'set', work: 'chill', takes: '30-180 min' },
      finish(random, 'turn out'),
    ],
  },
  {
    name: 'Fritters',
    fields: { keeps: '8 min', fades: 'fast' },
    steps: (random) => [
      prep(random, 'grate', 4, 9),
      prep(random, 'shape', 4, 8),
      { ...burner('fry', 'fry', random.int(5, 9), 'skillet'), empties: 'yes' },
      { step: 'drain', work: 'rest', takes: '1-4 min' },
      { step: 'dish up', work: 'plate', takes: about(random.int(1, 2)) },
    ],
  },
];

const PANS = [
  { pan: 'half sheet', size: '33 x 46 cm', height: '3 cm', wash: '4 min' },
  { pan: 'quarter sheet', size: '23 x 33 cm', height: '3 cm', wash: '3 min' },
  { pan: 'baking dish', size: '23 x 33 cm', height: '6 cm', wash: '5 min' },
  { pan: 'roasting pan', size: '30 x 41 cm', height: '8 cm', wash: '5 min' },
  { pan: 'pie dish', round: '24 cm', height: '4 cm', wash: '3 min' },
  { pan: 'pot', round: '24 cm', height: '16 cm', wash: '5 min' },
  { pan: 'saucepan', round: '18 cm', height: '11 cm', wash: '3 min' },
  { pan: 'skillet', round: '26 cm', height: '5 cm', wash: '3 min' },
];

function kitchenFor(dishes: number): Record<string, unknown> {
  const racks = { count: 3, size: '57 x 47 cm', height: '45 cm', clearance: '3 cm' };
  const ovens = Array.from({ length: Math.ceil(dishes / 7) }, (_, k) => ({
    appliance: `oven ${k + 1}`,
    kind: 'oven',
    racks,
    modes: { roast: { heat: '60-260C' } },
    heats: '12C/min',
    cools: '5C/min',
  }));
  const hobs = Array.from({ length: Math.ceil(dishes / 12) }, (_, k) => ({
    appliance: `hob ${k + 1}`,
    kind: 'cooktop',
    burners: [24, 24, 21, 21].map((size, b) => ({ burner: `hob ${k + 1} burner ${b + 1}`, size: `${size} cm` })),
  }));
  const count = Math.ceil(dishes / 6) + 1;
  return {
    kitchen: `Hall kitchen for ${dishes}`,
    appliances: [...ovens, ...hobs],
    boards: Math.min(20, Math.ceil(dishes / 4) + 1),
    pans: PANS.map((pan) => ({ ...pan, count })),
  };
}

/** The problem file of a banquet of so many dishes, in three courses from ten dishes on. */
export function banquet(dishes: number): string {
  const random = new Random(dishes);
  const courses = dishes < 10 ? ['main'] : ['first', 'main', 'sweet'];
  return stringify(
    {
      format: 'hearthtable/1',
      title: `Banquet of ${dishes} dishes`,
      serve: '2026-10-10 19:00',
      start: '2026-10-10 10:00',
      zone: 'Europe/Lisbon',
      kitchen: kitchenFor(dishes),
      cooks: Array.from({ length: 1 + Math.ceil(dishes / 8) }, (_, k) => `Cook ${k + 1}`),
      courses: courses.map((course, k) => ({ course, at: min(45 * k) })),
      dishes: Array.from({ length: dishes }, (_, k) => {
        const { name, fields, steps } = RECIPES[k % RECIPES.length]!;
        return { dish: `${name} ${k + 1}`, course: random.pick(courses), ...fields, steps: steps(random) };
      }),
    },
    { lineWidth: 0 },
  );
}
