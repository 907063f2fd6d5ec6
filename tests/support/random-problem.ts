/**
 * Random problem files, mostly feasible but tight, that together use everything the format has. The same seed gives the same
 * text on every machine, and a smaller number of dishes keeps the first of them, so that a failing case shrinks to a smaller meal.
 */
import fc from 'fast-check';
import { stringify } from 'yaml';
import { Random } from './random.js';
import { type RandomDish, randomComponent, randomDish } from './random-dish.js';
import { type Fields, minutes, randomKitchen, Units } from './random-kitchen.js';

export interface RandomProblemSize {
  readonly dishes: number;
  /** Absent: one, and another for about every five dishes. */
  readonly cooks?: number;
}

/** The days of some meals have a change of the clocks. */
const WHEN = [
  { zone: 'Europe/Lisbon', day: '2026-10-25', hour: 14 },
  { zone: 'America/Chicago', day: '2026-03-08', hour: 16 },
  { zone: 'Asia/Kolkata', day: '2026-06-06', hour: 20 },
  { zone: 'Europe/Brussels', day: '2026-09-12', hour: 19 },
  { zone: 'UTC', day: '2026-05-05', hour: 18 },
] as const;

/** A problem file as plain data. */
export function randomProblem(seed: number, size: RandomProblemSize): Fields {
  const count = Math.max(1, size.dishes);
  const random = new Random(seed);
  const units = new Units(random.chance(0.25));
  const kitchen = randomKitchen(random, units, count);
  const cooks = size.cooks ?? 1 + Math.floor(count / 5) + (random.chance(0.3) ? 1 : 0);
  const plain = Math.max(1, cooks - random.int(0, Math.floor(cooks / 2)));
  const when = random.pick(WHEN);
  const tightness = random.pick([0.5, 1, 1.5, 2.5]);

  const made: RandomDish[] = [];
  for (let k = 0; k < count; k++) {
    made.push(randomDish(new Random(seed * 1000 + k), units, kitchen, plain > 1, `Dish ${k + 1}`));
  }
  const courses = coursesOf(random, made);
  addComponents(seed, units, kitchen, made);

  const total = (share: (dish: RandomDish) => number): number => made.reduce((sum, dish) => sum + share(dish), 0);
  const busiest = Math.max(
    total((dish) => dish.hands) / plain,
    total((dish) => dish.oven) / kitchen.levels,
    total((dish) => dish.burner) / kitchen.burners,
  );
  const lead = Math.ceil((Math.max(...made.map((dish) => dish.chain)) + 25 + tightness * busiest) / 5) * 5;
  return {
    format: 'hearthtable/1',
    title: `Random meal ${seed}`,
    serve: `${when.day} ${when.hour}:${random.pick(['00', '15', '30'])}`,
    ...(random.chance(0.9) ? { start: startOf(when.day, when.hour, lead) } : {}),
    zone: when.zone,
    kitchen: kitchen.fields,
    cooks: cooksOf(random, cooks, plain, when.hour),
    ...(courses.length > 0 ? { courses } : {}),
    ...(random.chance(0.15) ? { care: { runs: random.pick([2, 10]), wait: { steady: 2 }, day: 0.05 } } : {}),
    dishes: made.map((dish) => dish.fields),
  };
}

export function randomProblemText(seed: number, size: RandomProblemSize): string {
  return stringify(randomProblem(seed, size), { lineWidth: 0 });
}

/** Texts of problem files of `least` to `most` dishes; shrinks towards fewer dishes. */
export function problemTexts(most: number, least = 1): fc.Arbitrary<string> {
  return fc
    .record({
      dishes: fc.integer({ min: least, max: most }),
      seed: fc.noShrink(fc.integer({ min: 1, max: 1_000_000 })),
    })
    .map(({ dishes, seed }) => randomProblemText(seed, { dishes }));
}

function coursesOf(random: Random, made: readonly RandomDish[]): Fields[] {
  if (made.length < 3 || random.chance(0.6)) return [];
  const names = ['first', 'main', 'sweet'].slice(0, random.int(2, 3));
  let at = 0;
  const courses = names.map((course) => {
    const entry = { course, at: minutes(at) };
    at += random.int(2, 8) * 10;
    return entry;
  });
  for (const { fields } of made) if (random.chance(0.8)) fields.course = random.pick(names);
  return courses;
}

/** One component for about every five dishes; each is used by the last step of one dish or two. */
function addComponents(
  seed: number,
  units: Units,
  kitchen: Parameters<typeof randomDish>[2],
  made: RandomDish[],
): void {
  const served = made.length;
  for (let k = 0; k < served; k += 5) {
    const random = new Random(seed * 1000 + 500 + k);
    if (!random.chance(0.6)) continue;
    const name = `Component ${k / 5 + 1}`;
    const component = randomComponent(random, units, kitchen, name);
    made.push(component);
    for (let user = k; user < Math.min(served, k + (random.chance(0.3) ? 2 : 1)); user++) {
      const steps = made[user]!.fields.steps as Fields[];
      const last = steps.at(-1)!;
      const { gap, after, ...rest } = last;
      const before = steps.at(-2)?.step;
      const own = after ?? (gap === undefined ? [before] : [{ step: before, gap }]);
      const link = { step: `${name}/${component.last}`, gap: random.pick(['0-45 min', '0-2 h', '0-6 h']) };
      steps[steps.length - 1] = { ...rest, after: [...(own as unknown[]), link] };
    }
  }
}

function cooksOf(random: Random, cooks: number, plain: number, hour: number): unknown[] {
  const skills = [
    ['prep', 'board', 'finish'],
    ['oven', 'grill', 'carve', 'plate'],
    ['cooktop', 'prep', 'roast', 'bake'],
  ];
  return Array.from({ length: cooks }, (_, k) => {
    if (k < plain) return `Cook ${k + 1}`;
    const cook: Fields = { name: `Cook ${k + 1}` };
    if (random.chance(0.7)) cook.can = random.pick(skills);
    if (random.chance(0.5)) cook.from = `${String(hour - random.int(2, 5)).padStart(2, '0')}:00`;
    if (random.chance(0.15)) cook.to = `${hour + 2}:30`;
    return cook;
  });
}

/** `lead` minutes before the hour by the clock, moved out of the small hours in which clocks change. */
function startOf(day: string, hour: number, lead: number): string {
  const at = new Date(Date.parse(`${day}T00:00Z`) + (hour * 60 - lead) * 60_000);
  const early = at.getUTCHours() >= 1 && at.getUTCHours() < 4;
  const clock = early ? '00:30' : at.toISOString().slice(11, 16);
  return `${at.toISOString().slice(0, 10)} ${clock}`;
}
