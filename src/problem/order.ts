/** What the order of steps must not have: loops, components that nothing uses, `keeps` where nothing follows. */
import { quote } from '../units/measure.js';
import type { DishDraft, StepDraft } from './drafts.js';
import type { Links } from './links.js';
import type { Reading } from './reading.js';

/** Steps of a dish that no later step of the same dish follows. */
function lastSteps(dish: DishDraft, links: Links): StepDraft[] {
  const followed = new Set(dish.steps.flatMap((step) => links.of[step.id]!.map((link) => link.step)));
  return dish.steps.filter((step) => !followed.has(step.id));
}

/** Says what is wrong with the order. `lost`: some dishes or steps were refused. */
export function checkOrder(reading: Reading, dishes: readonly DishDraft[], links: Links, lost: boolean): void {
  const steps = dishes.flatMap((dish) => dish.steps);
  const looped = sayLoops(reading, dishes, steps, links);
  if (!lost && links.doubtful.size === 0) sayUnused(reading, dishes, steps, links);
  for (const [index, dish] of dishes.entries()) {
    if (looped || links.doubtful.has(index) || reading.isHurt(dish.entry.steps)) continue;
    const last = lastSteps(dish, links);
    if (dish.served && !reading.isBroken(dish.entry, 'served')) sayKeptLast(reading, dish, last);
    if (dish.entry.hold === undefined || last.length === 1) continue;
    const names = last.map((step) => quote(step.name)).join(', ');
    const say = `A dish with a hold ends in one step, but this one ends in ${names}.`;
    reading.error('hold', reading.keyAt(dish.entry, 'hold'), say, 'a last step after them all');
  }
}

function sayUnused(reading: Reading, dishes: readonly DishDraft[], steps: readonly StepDraft[], links: Links): void {
  const used = new Set<number>();
  for (const step of steps) {
    for (const link of links.of[step.id]!) if (steps[link.step]!.dish !== step.dish) used.add(steps[link.step]!.dish);
  }
  for (const [index, { entry, name, served, steps: own }] of dishes.entries()) {
    if (served || used.has(index) || reading.isHurt(entry)) continue;
    const hint = `after: [ ${name}/${own.at(-1)?.name ?? 'step'} ] in a step of another dish`;
    reading.error('unused', reading.at(entry, 'dish'), `Nothing uses the component ${quote(name)}.`, hint);
  }
}

function sayKeptLast(reading: Reading, dish: DishDraft, last: readonly StepDraft[]): void {
  for (const { entry, name } of last) {
    if (entry.keeps === undefined) continue;
    const say = `${quote(name)} is the last step of a served dish: say on the dish how long it keeps.`;
    reading.error('keeps', reading.keyAt(entry, 'keeps'), say, `keeps: ${entry.keeps} beside \`dish: ${dish.name}\``);
  }
}

/** Says every loop once, by its steps in order; true where there is one. */
function sayLoops(reading: Reading, dishes: readonly DishDraft[], steps: readonly StepDraft[], links: Links): boolean {
  const state = new Uint8Array(steps.length);
  let found = false;
  for (const root of steps) {
    const path: number[] = [];
    const todo: { step: number; next: number }[] = [];
    if (state[root.id] === 0) todo.push({ step: root.id, next: 0 });
    while (todo.length > 0) {
      const top = todo.at(-1)!;
      if (top.next === 0) {
        state[top.step] = 1;
        path.push(top.step);
      }
      const link = links.of[top.step]![top.next++];
      if (!link) {
        state[top.step] = 2;
        path.pop();
        todo.pop();
      } else if (state[link.step] === 0) todo.push({ step: link.step, next: 0 });
      else if (state[link.step] === 1) {
        found = true;
        sayLoop(
          reading,
          dishes,
          path.slice(path.indexOf(link.step)).map((id) => steps[id]!),
        );
      }
    }
  }
  return found;
}

/** `loop` runs backwards in time: each step follows the one after it, the last the first. */
function sayLoop(reading: Reading, dishes: readonly DishDraft[], loop: readonly StepDraft[]): void {
  const forward = [...loop].reverse();
  const first = forward.reduce((least, step) => (step.id < least.id ? step : least));
  const turned = [...forward.slice(forward.indexOf(first)), ...forward.slice(0, forward.indexOf(first))];
  const oneDish = turned.every((step) => step.dish === first.dish);
  const names = [...turned, first].map((step) => (oneDish ? step.name : `${dishes[step.dish]!.name}/${step.name}`));
  const closing = turned.find((step) => step.entry.after !== undefined) ?? first;
  const say =
    turned.length === 1
      ? `${quote(first.name)} follows itself.`
      : `These steps wait for each other without end: ${names.join(' -> ')}.`;
  reading.error(
    'loop',
    reading.keyAt(closing.entry, closing.entry.after === undefined ? 'step' : 'after'),
    say,
    'take one of them out of `after`',
  );
}
