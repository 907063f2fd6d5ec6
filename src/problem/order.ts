/** What the order of steps must not have: loops, components that nothing uses, `keeps` where nothing follows. */
import { quote } from '../units/measure.js';
import type { DishDraft, StepDraft } from './dishes.js';
import type { Link } from './problem.js';
import type { Reading } from './reading.js';

/** Steps of a dish that no later step of the same dish follows. */
export function lastSteps(dish: DishDraft, links: readonly (readonly Link[])[]): StepDraft[] {
  const followed = new Set(dish.steps.flatMap((step) => links[step.id]!.map((link) => link.step)));
  return dish.steps.filter((step) => !followed.has(step.id));
}

export function checkOrder(
  reading: Reading,
  dishes: readonly DishDraft[],
  links: readonly (readonly Link[])[],
  lost: boolean,
): void {
  const steps = dishes.flatMap((dish) => dish.steps);
  const looped = sayLoops(reading, dishes, steps, links);
  const used = new Set(
    steps.flatMap((step) =>
      links[step.id]!.filter((link) => steps[link.step]!.dish !== step.dish).map((link) => steps[link.step]!.dish),
    ),
  );
  for (const [index, dish] of dishes.entries()) {
    if (dish.served) sayKeptLast(reading, dish, looped ? [] : lastSteps(dish, links));
    else if (!used.has(index) && !lost && !reading.isHurt(dish.entry)) {
      reading.error(
        'unused',
        reading.at(dish.entry, 'dish'),
        `Nothing uses the component ${quote(dish.name)}.`,
        `after: [ ${dish.name}/${dish.steps.at(-1)?.name ?? 'step'} ] in a step of another dish`,
      );
    }
    if (dish.entry.hold && !looped && lastSteps(dish, links).length > 1) {
      const names = lastSteps(dish, links)
        .map((step) => quote(step.name))
        .join(', ');
      reading.error(
        'hold',
        reading.keyAt(dish.entry, 'hold'),
        `A dish with a hold ends in one step, but this one ends in ${names}.`,
        'a last step after them all',
      );
    }
  }
}

function sayKeptLast(reading: Reading, dish: DishDraft, last: readonly StepDraft[]): void {
  for (const { entry, name } of last) {
    if (entry.keeps === undefined) continue;
    reading.error(
      'keeps',
      reading.keyAt(entry, 'keeps'),
      `${quote(name)} is the last step of a served dish: say on the dish how long it keeps.`,
      `keeps: ${entry.keeps} beside \`dish: ${dish.name}\``,
    );
  }
}

/** Says every loop once, by its steps in order; true where there is one. */
function sayLoops(
  reading: Reading,
  dishes: readonly DishDraft[],
  steps: readonly StepDraft[],
  links: readonly (readonly Link[])[],
): boolean {
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
      const link = links[top.step]![top.next++];
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
