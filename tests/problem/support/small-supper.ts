/** A small right meal from which the tests of the reader start, and the ways they read what they make of it. */

import { type Message, showMessage } from '../../../src/problem/message.js';
import type {
  Dish,
  OptionAsRead as Option,
  ProblemAsRead as Problem,
  StepAsRead as Step,
} from '../../../src/problem/problem.js';
import { type ReadResult, readProblem } from '../../../src/problem/read.js';

export const SMALL_SUPPER = `format: hearthtable/1
title: Small supper
serve: 2026-10-03 18:30
zone: Europe/Lisbon
start: 2026-10-03 12:00
kitchen:
  kitchen: Garden and one wall
  room: 21C
  appliances:
    - appliance: garden grill
      kind: grill
      zones: [{ zone: left, size: 30 x 48 cm }, { zone: right, size: 30 x 48 cm }]
      modes:
        sear: { lid: open, heat: 220-320C }
        roast: { lid: closed, heat: 110-260C, lit: [right], height: 22 cm }
      heats: 14C/min
      cools: 8C/min
      dial: 5C
    - appliance: wall oven
      kind: oven
      racks: { count: 2, size: 56 x 41 cm, height: 38 cm, clearance: 4 cm }
      modes: { roast: { heat: 75-270C }, fan: { heat: 75-250C } }
      heats: 11C/min
      cools: 4C/min
    - appliance: range
      kind: cooktop
      burners: [{ burner: front, size: 23 cm }, { burner: back, size: 15 cm }]
  boards: 2
  pans:
    - { pan: roasting pan, size: 30 x 41 cm, height: 9 cm, count: 1, wash: 5 min }
    - { pan: skillet, round: 26 cm, height: 5 cm }
    - { pan: half sheet, size: 33 x 46 cm, height: 3 cm, count: 2 }
cooks: [Ines, { name: Tomas, can: [prep, oven, board], from: 15:00, to: 22:00 }]
courses: [{ course: main, at: 0 min }, { course: sweet, at: 40 min }]
dishes:
  - dish: Pork loin
    course: main
    keeps: 10 min
    fades: fast
    piece: { food: pork, shape: cylinder, thickness: 10 cm, length: 34 cm, weight: 2.8 kg, from: 4C }
    steps:
      - { step: brine, work: chill, takes: 2h-4h, best: 3h-4h }
      - step: sear
        work: sear
        takes: { low: 10 min, likely: 12 min, high: 15 min }
        on: [{ place: grill, mode: sear, heat: 260-300C }, { place: burner, pan: skillet, heat: high }]
      - step: roast
        work: roast
        until: { core: 58C }
        minutes: { "150C": 95 min, "165C": 82 min, "180C": 73 min }
        on: [{ place: oven }]
        heat: { range: 150-180C, ideal: 165C }
        pan: roasting pan
        gap: 0-15 min
        hands: { start: 3 min, end: 3 min, every: 20 min, for: 2 min }
      - { step: rest, work: rest, takes: 15-35 min }
      - { step: carve, work: carve, takes: 6 min }
  - dish: Herb oil
    served: no
    steps:
      - { step: warm, work: simmer, takes: 15 min, on: [{ place: burner, heat: low, pan: skillet }] }
      - { step: strain, work: finish, takes: 4 min, keeps: 6 h }
  - dish: Roots
    keeps: 25 min
    hold: { heat: 80-95C, keeps: 90 min, fades: slow }
    steps:
      - { step: cut, work: prep, takes: 20 min, keeps: 4 h }
      - step: roast
        work: roast
        takes: { "160C": 47 min, "185C": 37 min, "210C": 30 min }
        on: [{ place: oven }]
        heat: 160-210C
        pan: half sheet
        pans: 1
        hands: { start: 2 min, every: 15 min, for: 2 min }
      - { step: dress, work: finish, takes: 3 min, after: [roast, { step: Herb oil/strain, gap: 0-6 h }] }
`;

/** The small supper with one text replaced; fails where that text does not stand in it exactly once. */
export function changed(...changes: readonly (readonly [from: string, to: string])[]): string {
  return changes.reduce((text, [from, to]) => {
    const parts = text.split(from);
    if (parts.length !== 2)
      throw new Error(`${JSON.stringify(from)} stands ${parts.length - 1} times in the small supper`);
    return parts.join(to);
  }, SMALL_SUPPER);
}

export const read = (text: string | Uint8Array, times: { serve?: string; start?: string } = {}): ReadResult =>
  readProblem(text, { name: 'supper.yaml', ...times });

/** The problem of a text that is right; fails with the messages where it is not. */
export function problemOf(text: string): Problem {
  const result = read(text);
  if (!result.ok) throw new Error(result.messages.map((message) => showMessage(message, text)).join('\n'));
  return result.problem;
}

/** Errors (or, where it is right, warnings) of a text. */
export function messagesOf(text: string | Uint8Array): readonly Message[] {
  const result = read(text);
  return result.ok ? result.warnings : result.messages;
}

export const dishOf = (problem: Problem, name: string): Dish => problem.dishes.find((dish) => dish.name === name)!;

/** `Dish/step`. */
export function stepOf(problem: Problem, key: string): Step {
  const [dish, name] = key.split('/');
  return problem.steps.find((step) => step.name === name && problem.dishes[step.dish]!.name === dish)!;
}

export const optionsOf = (text: string, key: string): readonly Option[] => stepOf(problemOf(text), key).options;
