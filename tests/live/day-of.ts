/** A small meal's day, told entry by entry. */

import { withHeat } from '../../src/heat/meal.js';
import type { Day, Meal } from '../../src/live/journal/day.js';
import type { Body, Entry } from '../../src/live/journal/entries.js';
import { isRefusal, type Refusal } from '../../src/live/journal/names.js';
import { rebuilt, withEntry } from '../../src/live/journal/rebuild.js';
import { instantSaid } from '../../src/live/journal/when.js';
import type { PlanDocument } from '../../src/plan/document.js';
import { readProblem } from '../../src/problem/read.js';
import { solve } from '../../src/solve/solve.js';
import { showIso } from '../../src/units/clock.js';
import { settled } from '../support/read-meal.js';

/** A roast with its rest, roots that share the oven, a component; two cooks. Given minutes, so that planning it takes no time. */
export const SUPPER = `format: hearthtable/1
title: Small supper
serve: 2026-10-03 19:00
start: 2026-10-03 12:00
zone: Europe/Lisbon
kitchen:
  kitchen: Test kitchen
  appliances:
    - appliance: oven
      kind: oven
      racks: { count: 2, size: 56 x 41 cm, height: 38 cm, clearance: 4 cm }
      modes: { roast: { heat: 75-270C } }
      heats: 11C/min
      cools: 4C/min
    - appliance: range
      kind: cooktop
      burners: [{ burner: front, size: 23 cm }, { burner: back, size: 18 cm }]
  boards: 2
  pans:
    - { pan: half sheet, size: 33 x 46 cm, height: 3 cm, count: 2 }
    - { pan: small pot, round: 18 cm, height: 12 cm, count: 1 }
cooks: [Ines, Tomas]
dishes:
  - dish: Roast loin
    keeps: 10 min
    piece: { food: pork loin, thickness: 9 cm, weight: 1.8 kg, from: 4C }
    steps:
      - { step: tie, work: prep, takes: 8 min, keeps: 1 h }
      - step: roast
        work: roast
        until: { core: 60C }
        on: [{ place: oven }]
        heat: 160-180C
        pan: half sheet
      - { step: rest, work: rest, takes: 10-25 min, best: 12-20 min }
      - { step: carve, work: carve, takes: 6 min }
  - dish: Roots
    keeps: 20 min
    steps:
      - { step: cut, work: prep, takes: 15 min, keeps: 2 h }
      - { step: roast, work: roast, takes: 40 min, on: [{ place: oven, heat: 170-180C }], pan: half sheet }
      - { step: dress, work: finish, takes: 3 min, after: [roast, { step: Oil/warm, gap: 0-2 h }] }
  - dish: Oil
    served: no
    steps:
      - { step: warm, work: simmer, takes: 10 min, on: [{ place: burner, heat: low, pan: small pot }] }
`;

const read = (texts: readonly string[]) =>
  withHeat(
    readProblem(SUPPER, { name: 'supper.yaml', more: texts.map((text, at) => ({ name: `dish ${at + 1}`, text })) }),
  );

export function supper(): Meal {
  return { problem: settled(readProblem(SUPPER, { name: 'supper.yaml' })), withDishes: read };
}

let planned: PlanDocument | null = null;
export function supperPlan(meal: Meal): PlanDocument {
  planned ??= solve(meal.problem, { effort: 'quick', seed: 1 }).plan!;
  return planned;
}

/** Tells a day; each entry is said at a clock time, and happened then or at `when`. */
export class Teller {
  entries: Entry[] = [];

  constructor(readonly meal: Meal = supper()) {
    this.say('12:00', { kind: 'begin', title: meal.problem.title, digest: meal.problem.digest });
    this.say('12:00', { kind: 'plan', plan: supperPlan(meal), say: [] });
  }

  /** The entry, or why it is refused. */
  say(at: string, body: Body, when = at): Entry | Refusal {
    const made = withEntry(this.meal, this.entries, { at: this.iso(at), when: this.iso(when), who: null }, body);
    if (!isRefusal(made)) this.entries = [...this.entries, made];
    return made;
  }

  iso(clock: string): string {
    const { origin, serve, zone } = this.meal.problem;
    const instant = instantSaid(clock, origin + serve * 60_000, zone);
    if (isRefusal(instant)) throw new Error(instant.say);
    return showIso(instant, zone);
  }

  get day(): Day {
    return rebuilt(this.meal, this.entries).day;
  }

  /** Steps started and done, by their names and clock times. */
  did(step: string, from: string, to?: string): this {
    this.must(from, { kind: 'started', step });
    if (to !== undefined) this.must(to, { kind: 'done', step });
    return this;
  }

  must(at: string, body: Body): this {
    return this.mustThen(at, at, body);
  }

  /** Said at one time of what happened at another. */
  mustThen(at: string, when: string, body: Body): this {
    const made = this.say(at, body, when);
    if (isRefusal(made)) throw new Error(made.say);
    return this;
  }
}
