/** Dishes and their steps, put together from what the other parts read. */
import { parseDuration } from '../units/duration.js';
import { quote } from '../units/measure.js';
import { parseTemperatureSpan } from '../units/temperature.js';
import { CAUTION_RULES, type CautionRule } from './caution-rules.js';
import type { DishDraft, StepDraft } from './drafts.js';
import { dialSettings } from './heat.js';
import type { KitchenNames, ReadKitchen } from './kitchen.js';
import { linksOf } from './links.js';
import type { Spot, StepSpots } from './message.js';
import { nearest } from './nearest.js';
import { optionsOf } from './options.js';
import { checkOrder } from './order.js';
import { pieceOf } from './piece.js';
import type { Cook, Course, Dish, Fades, Hold, Kitchen, Span, StepAsRead } from './problem.js';
import { listed, type Reading } from './reading.js';
import { restAfter } from './rests.js';
import type { DishEntry, HoldEntry, MealFile, StepEntry } from './schema.js';
import { isYes } from './schema-parts.js';
import { coreIn, coreSpot, goalOf } from './times.js';
import { entriesOf } from './ways.js';
import { checkName, checkNames } from './words.js';

/** Reads dishes and steps, and where each step stands; what comes out is whole only where no error was said. */
export function readDishes(
  reading: Reading,
  meal: MealFile,
  courses: readonly Course[] | null,
  cooks: readonly Cook[] | null,
  { kitchen, names }: ReadKitchen,
): { dishes: Dish[]; steps: StepAsRead[]; spots: StepSpots[] } {
  const entries = meal.dishes ?? [];
  const drafts = draftsOf(reading, entries);
  const lost = meal.dishes === undefined || reading.isHurt(entries) || entries.some((one) => reading.isHurt(one.steps));
  const links = linksOf(reading, drafts, lost);
  checkOrder(reading, drafts, links, lost);
  const steps: StepAsRead[] = [];
  const spots: StepSpots[] = [];
  const dishes = drafts.map((draft): Dish => {
    const { entry, served } = draft;
    const piece = entry.piece ? pieceOf(reading, entry.piece) : null;
    const doubtful = reading.isHurt(entry) || (entry.piece !== undefined && reading.isHurt(entry.piece));
    const around = { kitchen: doubtful ? null : kitchen, names, cooks, piece };
    for (const { id, dish, name, entry: step, keeps } of draft.steps) {
      const options = optionsOf(reading, step, around);
      steps.push({
        id,
        dish,
        name,
        work: step.work,
        after: links.of[id]!,
        keeps,
        empties: isYes(step.empties),
        options,
        core: coreOf(reading, step),
      });
      spots.push({
        step: reading.at(step, 'step'),
        cores: coreSpotsOf(reading, step),
        food: entry.piece ? reading.at(entry.piece, 'food') : null,
      });
    }
    const keeps = reading.quantity(entry, 'keeps', parseDuration) ?? Number.POSITIVE_INFINITY;
    const fades = entry.fades ?? 'steady';
    if (!served) sayServedOnly(reading, draft);
    return {
      name: draft.name,
      served,
      course: served ? courseOf(reading, entry, courses) : null,
      keeps,
      fades,
      hold: entry.hold ? holdOf(reading, entry.hold, fades, kitchen, names) : null,
      piece,
      accept: acceptOf(reading, entry),
      steps: draft.steps.map((step) => step.id),
    };
  });
  sayRestless(reading, steps, spots);
  return { dishes, steps, spots };
}

/** A target is reached at rest: says where no rest follows. */
function sayRestless(reading: Reading, steps: readonly StepAsRead[], spots: readonly StepSpots[]): void {
  for (const { id, options } of steps) {
    const entry = options.find((option) => option.atPeak)?.entry;
    if (entry === undefined || restAfter(steps, id) !== null) continue;
    const say = 'A `target` is where the core shall rise at rest, but no rest follows before the next heat.';
    const hint = 'a step of `work: rest` after it, or `until: { core: ... }` to pull it there';
    reading.error('times', spots[id]!.cores[entry] ?? spots[id]!.step, say, hint);
  }
}

/** The core temperature that the step asks for, or else the first entry that asks for one; null where none does. */
function coreOf(reading: Reading, step: StepEntry): number | null {
  const holders = [step, ...entriesOf(step).filter((one) => typeof one === 'object')];
  const holder = holders.find((one) => goalOf(one) !== undefined);
  return holder ? (coreIn(reading, holder) ?? null) : null;
}

/** Where the core temperature stands that holds in each entry of `on`. */
function coreSpotsOf(reading: Reading, step: StepEntry): (Spot | null)[] {
  return entriesOf(step).map((entry) => {
    const holder = [entry, step].find((one) => typeof one === 'object' && goalOf(one) !== undefined);
    return typeof holder === 'object' ? coreSpot(reading, holder, goalOf(holder)!) : null;
  });
}

/** The cautions that a dish takes on, each once. */
function acceptOf(reading: Reading, entry: DishEntry): CautionRule[] {
  const { accept } = entry;
  if (accept === undefined) return [];
  const words = Array.isArray(accept) ? accept : [accept];
  const known = words.map((word, at) => {
    const spot = Array.isArray(accept) ? reading.at(accept, at) : reading.at(entry, 'accept');
    return reading.known('unknown-caution', spot, word, CAUTION_RULES, `There is no caution ${quote(word)}.`);
  });
  return CAUTION_RULES.filter((rule) => known.includes(rule));
}

function draftsOf(reading: Reading, entries: readonly DishEntry[]): DishDraft[] {
  checkNames(reading, entries, 'dish', 'dishes');
  let id = 0;
  return entries.map((entry, dish) => {
    checkName(reading, entry, 'dish');
    checkNames(reading, entry.steps, 'step', 'steps of this dish');
    saySlash(reading, entry, 'dish');
    const steps = entry.steps.map((step): StepDraft => {
      checkName(reading, step, 'step', ['hold', 'none']);
      saySlash(reading, step, 'step');
      const keeps = reading.quantity(step, 'keeps', parseDuration) ?? null;
      return { id: id++, dish, name: step.step, entry: step, keeps };
    });
    return { name: entry.dish, served: entry.served === undefined || isYes(entry.served), entry, steps };
  });
}

function saySlash<K extends string>(reading: Reading, thing: Record<K, string>, key: K): void {
  if (!thing[key].includes('/')) return;
  reading.error(
    'name',
    reading.at(thing, key),
    `The name ${quote(thing[key])} has a slash, which parts dish and step in \`after\`.`,
    thing[key].replaceAll('/', ' and '),
  );
}

function sayServedOnly(reading: Reading, { entry, name }: DishDraft): void {
  if (entry.keeps !== undefined) {
    reading.error(
      'keeps',
      reading.keyAt(entry, 'keeps'),
      `${quote(name)} is a component: say on its last step how long it keeps.`,
      `keeps: ${entry.keeps} on \`step: ${entry.steps.at(-1)?.step}\``,
    );
  }
  if (entry.hold !== undefined) {
    reading.error(
      'hold',
      reading.keyAt(entry, 'hold'),
      `${quote(name)} is a component: a hold lies between a dish and the table.`,
      'leave `hold` out',
    );
  }
  if (entry.course !== undefined) {
    reading.error(
      'course',
      reading.keyAt(entry, 'course'),
      `${quote(name)} is a component and lands with no course.`,
      'leave `course` out',
    );
  }
}

function courseOf(reading: Reading, entry: DishEntry, courses: readonly Course[] | null): number {
  if (entry.course === undefined || !courses) return 0;
  const index = courses.findIndex((course) => course.name === entry.course);
  if (index >= 0) return index;
  const names = courses.map((course) => course.name);
  reading.error(
    'unknown-course',
    reading.at(entry, 'course'),
    `There is no course ${quote(entry.course)}.`,
    nearest(entry.course, names) ?? listed(names),
  );
  return 0;
}

function holdOf(
  reading: Reading,
  entry: HoldEntry,
  fades: Fades,
  kitchen: Kitchen | null,
  names: KitchenNames | null,
): Hold {
  const heat = reading.quantity(entry, 'heat', parseTemperatureSpan);
  const keeps = reading.quantity(entry, 'keeps', parseDuration) ?? Number.POSITIVE_INFINITY;
  const pans = names?.pans ?? null;
  if (entry.pan !== undefined && pans) {
    const say = `There is no pan ${quote(entry.pan)} in this kitchen.`;
    reading.known('unknown-pan', reading.at(entry, 'pan'), entry.pan, pans, say);
  }
  if (heat && kitchen && !holdsAnywhere(kitchen, heat)) {
    const say = 'No appliance of this kitchen can be set to such a heat, so that the dish cannot wait in one.';
    reading.warn('hold', reading.at(entry, 'heat'), say);
  }
  const pan = entry.pan === undefined || !pans ? null : pans.indexOf(entry.pan);
  return { heat: { low: heat?.low ?? 0, high: heat?.high ?? 0 }, keeps, fades: entry.fades ?? fades, pan };
}

const holdsAnywhere = ({ appliances }: Kitchen, { low, high }: Span): boolean =>
  appliances.some(({ modes, dial }) =>
    modes.some(({ heat }) => dialSettings(dial, Math.max(low, heat.low), Math.min(high, heat.high)).length > 0),
  );
