/** Who does what: each stretch of hands stays with its cook, and a cook does one thing at a time. */
import type { Hands, Option, Step } from '../../src/problem/problem.js';
import { Sum, type Variable } from './program.js';
import type { Timetable } from './timetable.js';

/** Minutes after the step's start. */
interface Stretch {
  readonly from: number;
  readonly minutes: number;
}

export function stretchesOf(hands: Hands, minutes: number): Stretch[] {
  if (hands.all) return [{ from: 0, minutes }];
  const opening = Math.min(hands.start, minutes);
  const closing = Math.max(minutes - hands.end, opening);
  const found = [{ from: 0, minutes: opening }];
  for (let at = hands.every; hands.every > 0 && at + hands.for <= closing; at += hands.every) {
    if (at >= opening) found.push({ from: at, minutes: hands.for });
  }
  found.push({ from: closing, minutes: minutes - closing });
  return found.filter((stretch) => stretch.minutes > 0);
}

/** A stretch that a cook does where the variable is 1. */
export interface Part {
  readonly step: number;
  readonly cook: number;
  readonly start: number;
  readonly end: number;
  readonly variable: Variable;
}

export function addHands(table: Timetable): Part[] {
  const { problem, program, horizon } = table;
  const busy = problem.cooks.map(() => Array.from({ length: horizon }, () => new Sum()));
  const parts = problem.steps.flatMap((step) => addStep(table, step, busy));
  for (const minutes of busy) for (const sum of minutes) program.row(0, sum, 1);
  return parts;
}

/** All starts that ask for the same stretch, with the number of the stretch and the minute at which it begins. */
interface Asked {
  readonly option: number;
  readonly place: number;
  readonly at: number;
  readonly minutes: number;
  readonly starts: Variable[];
}

function addStep(table: Timetable, step: Step, busy: Sum[][]): Part[] {
  const { problem, program } = table;
  const parts: Part[] = [];
  const asked = new Map<string, Asked>();
  for (const { way, at, variable } of table.starts[step.id]!) {
    const option = step.options[way.option]!;
    for (const [place, { from, minutes }] of stretchesOf(option.hands, way.minutes).entries()) {
      const key = [way.option, place, at + from, minutes].join(' ');
      const entry = asked.get(key) ?? { option: way.option, place, at: at + from, minutes, starts: [] };
      entry.starts.push(variable);
      asked.set(key, entry);
    }
  }

  // does[cook][place of the stretch] is 1 if that cook does that stretch.
  const does = problem.cooks.map((): Sum[] => []);
  for (const { option, place, at, minutes, starts } of asked.values()) {
    const { cooks } = step.options[option]!.hands;
    const shared = new Sum();
    const needed = new Sum();
    for (const start of starts) needed.add(start, cooks);
    for (const cook of problem.cooks.keys()) {
      if (!canDo(table, cook, step, step.options[option]!) || !isThere(table, cook, at, at + minutes)) continue;
      const part = program.binary();
      parts.push({ step: step.id, cook, start: at, end: at + minutes, variable: part });
      shared.add(part);
      for (let minute = at; minute < at + minutes; minute++) busy[cook]![minute]!.add(part);
      does[cook]![place] ??= new Sum();
      does[cook]![place]!.add(part);
      // Different cooks: one is no more than a share of what is asked.
      if (cooks > 1) program.order(new Sum().add(part, cooks), needed);
    }
    program.row(0, shared.addSum(needed, -1), 0);
  }

  // A cook beyond the number that it asks for at once costs a swap.
  if (problem.cooks.length === 1) return parts;
  const involved = new Sum();
  for (const sums of does) {
    const takesPart = program.number(0, 1);
    for (const sum of sums) if (sum) program.order(sum, new Sum().add(takesPart));
    involved.add(takesPart);
  }
  const enough = new Sum();
  for (const { way, variable } of table.starts[step.id]!) {
    const { hands } = step.options[way.option]!;
    if (stretchesOf(hands, way.minutes).length > 0) enough.add(variable, hands.cooks);
  }
  program.pay(new Sum().addSum(involved).addSum(enough, -1), problem.rates.swap);
  return parts;
}

/** `can` lists kinds of work, names or kinds of appliances, or `board`; one match is enough. */
function canDo(table: Timetable, cook: number, step: Step, option: Option): boolean {
  const { problem } = table;
  const { can } = problem.cooks[cook]!;
  if (can === null) return true;
  const { place } = option;
  const words: string[] = [step.work];
  if (place.kind === 'board') words.push('board');
  if (place.kind === 'burner' || place.kind === 'heated') {
    const appliance = problem.kitchen.appliances[place.appliance]!;
    words.push(appliance.name, appliance.kind);
  }
  return words.some((word) => can.includes(word));
}

/** The whole stretch lies within the cook's hours of one day; the zone is UTC where a cook has hours. */
function isThere(table: Timetable, cook: number, start: number, end: number): boolean {
  const { origin, cooks } = table.problem;
  const { from, to } = cooks[cook]!;
  if (from === null && to === null) return true;
  const clock = origin / 60_000;
  const midnight = Math.floor((clock + start) / 1440) * 1440;
  const arrives = midnight + (from ?? 0);
  const leaves = midnight + (to ?? Infinity);
  return arrives <= clock + start && clock + end <= leaves;
}
