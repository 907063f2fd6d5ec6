/** The names that a cook says: which step, dish, cook or thing is meant, or what the nearest right spelling would be. */
import { stepKey } from '../../problem/hours.js';
import { nearest } from '../../problem/nearest.js';
import type { Problem } from '../../problem/problem.js';
import { quote } from '../../units/measure.js';
import { showList } from '../../units/show.js';
import type { Loss } from '../happened.js';
import type { Body, Thing } from './entries.js';

/** Why something cannot be taken down, and what would be right. */
export interface Refusal {
  readonly say: string;
  readonly hint: string | null;
}

export const refuse = (say: string, hint: string | null = null): Refusal => ({ say, hint });
export const isRefusal = (thing: unknown): thing is Refusal =>
  typeof thing === 'object' && thing !== null && 'say' in thing && 'hint' in thing;

const fold = (text: string): string =>
  text
    .trim()
    .toLowerCase()
    .replace(/\s*\/\s*/g, '/')
    .replace(/\s+/g, ' ');

/** The one name that was meant: as it is, in whatever case, or the only one that ends with it after a slash. */
function meant(text: string, names: readonly string[]): number | null {
  const exact = names.indexOf(text);
  if (exact >= 0) return exact;
  const wanted = fold(text);
  for (const fits of [(one: string) => one === wanted, (one: string) => one.endsWith(`/${wanted}`)]) {
    const found = names.flatMap((one, at) => (fits(fold(one)) ? [at] : []));
    if (found.length === 1) return found[0]!;
  }
  return null;
}

function unknown(what: string, text: string, names: readonly string[], short: readonly string[] = []): Refusal {
  const several = names.filter((one) => fold(one).endsWith(`/${fold(text)}`));
  if (several.length > 1) return refuse(`${quote(text)} is the name of several ${what}s.`, several.join(' or '));
  const near = nearest(text, names) ?? names.find((_, at) => short[at] === nearest(text, short)) ?? null;
  return refuse(`There is no ${what} ${quote(text)}.`, near ?? (names.length <= 12 ? showList(names) : null));
}

const among = (what: string, text: string, names: readonly string[], short?: readonly string[]): number | Refusal =>
  meant(text, names) ?? unknown(what, text, names, short);

/** Id of a step: `Dish/step`, or the step's name alone where no other has it. */
export const stepNamed = (problem: Problem, text: string): number | Refusal =>
  among(
    'step',
    text,
    problem.steps.map(({ id }) => stepKey(problem, id)),
    problem.steps.map(({ name }) => name),
  );

export const dishNamed = (problem: Problem, text: string): number | Refusal =>
  among(
    'dish',
    text,
    problem.dishes.map(({ name }) => name),
  );

export const cookNamed = (problem: Problem, text: string): number | Refusal =>
  among(
    'cook',
    text,
    problem.cooks.map(({ name }) => name),
  );

/** A thing of the kitchen as a cook names it: an appliance, a burner (`range/front left`), a pan, `board`. */
export function thingNamed({ kitchen }: Problem, text: string, count: number): Thing | Refusal {
  const burners = kitchen.appliances.flatMap(({ name, surface }) =>
    surface.kind === 'burners' ? surface.burners.map((burner) => ({ appliance: name, burner: burner.name })) : [],
  );
  const things: Thing[] = [
    ...kitchen.appliances.map(({ name }): Thing => ({ kind: 'appliance', appliance: name })),
    ...burners.map((one): Thing => ({ kind: 'burner', ...one })),
    ...kitchen.pans.map(({ name }): Thing => ({ kind: 'pan', pan: name, count })),
    { kind: 'board', count },
  ];
  const found = among('appliance, burner, pan or board', text, things.map(showThing));
  return isRefusal(found) ? found : things[found]!;
}

export function showThing(thing: Thing): string {
  if (thing.kind === 'board') return 'board';
  if (thing.kind === 'pan') return thing.pan;
  return thing.kind === 'appliance' ? thing.appliance : `${thing.appliance}/${thing.burner}`;
}

/** The same by its indices, or why it is none of this kitchen. */
export function thingOf({ kitchen }: Problem, thing: Thing): Loss['what'] | Refusal {
  if (thing.kind === 'board') return thing;
  if (thing.kind === 'pan') {
    const names = kitchen.pans.map(({ name }) => name);
    const pan = among('pan', thing.pan, names);
    return isRefusal(pan) ? pan : { kind: 'pan', pan, count: thing.count };
  }
  const names = kitchen.appliances.map(({ name }) => name);
  const appliance = among('appliance', thing.appliance, names);
  if (isRefusal(appliance)) return appliance;
  if (thing.kind === 'appliance') return { kind: 'appliance', appliance };
  const { surface } = kitchen.appliances[appliance]!;
  const burners = surface.kind === 'burners' ? surface.burners.map(({ name }) => name) : [];
  const burner = among('burner', thing.burner, burners);
  return isRefusal(burner) ? burner : { kind: 'burner', appliance, burner };
}

/** Whether a place is one of the kitchen's: an appliance, a burner, a zone, a rack, `board`. */
export function placeNamed({ kitchen }: Problem, text: string): string | Refusal {
  const names = kitchen.appliances.flatMap(({ name, surface }) => {
    if (surface.kind === 'grate') return [name, ...surface.zones.map((zone) => zone.name)];
    if (surface.kind === 'burners') return [name, ...surface.burners.map((burner) => burner.name)];
    return [name, ...Array.from({ length: surface.count }, (_, level) => `rack ${level + 1}`)];
  });
  const all = [...new Set([...names, 'board'])];
  const found = among('place', text, all);
  return isRefusal(found) ? found : all[found]!;
}

/** A part of the kitchen by its name. */
export function showLoss({ kitchen }: Problem, what: Loss['what']): string {
  if (what.kind === 'board') return 'board';
  if (what.kind === 'pan') return kitchen.pans[what.pan]!.name;
  const { name, surface } = kitchen.appliances[what.appliance]!;
  return what.kind === 'burner' && surface.kind === 'burners' ? `${name}/${surface.burners[what.burner]!.name}` : name;
}

/** A body that can be taken, with its names as the file has them. */
export function inFull(problem: Problem, body: Body): Body {
  const full = (found: number | Refusal, names: readonly string[], said: string): string =>
    isRefusal(found) ? said : names[found]!;
  const dishes = problem.dishes.map(({ name }) => name);
  const cooks = problem.cooks.map(({ name }) => name);
  const cookOf = (said: string): string => full(cookNamed(problem, said), cooks, said);
  switch (body.kind) {
    case 'started':
    case 'done':
    case 'reading': {
      const keys = problem.steps.map(({ id }) => stepKey(problem, id));
      const step = full(stepNamed(problem, body.step), keys, body.step);
      if (body.kind === 'reading') return { ...body, step };
      const place = body.place === undefined ? undefined : placeNamed(problem, body.place);
      return {
        ...body,
        step,
        ...(typeof place === 'string' && { place }),
        ...(body.cooks && { cooks: body.cooks.map(cookOf) }),
      };
    }
    case 'guests':
    case 'dropped':
      return { ...body, dish: full(dishNamed(problem, body.dish), dishes, body.dish) };
    case 'gone':
    case 'back':
      return { ...body, cook: cookOf(body.cook) };
    default:
      return body;
  }
}
