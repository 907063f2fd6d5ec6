/**
 * Rule 8 in a plan that was made anew: nothing changes that has happened, what is under way goes on, nothing else begins before now, and
 * nothing uses what is lost or a cook who has left.
 */
import type { Facts } from '../facts.js';
import { asList, minutesAsked } from '../option.js';
import type { Reading, Row } from '../reading.js';
import { inMinutes, type Violation } from '../violation.js';

export function checkFacts(reading: Reading): Violation[] {
  const { facts, clock } = reading;
  if (facts === null) return [];
  const found: Violation[] = [];
  const tell = (code: string, say: string, row: Row): number => found.push({ rule: 8, code, say, steps: [row.label] });

  for (const [id, fact] of facts.steps) {
    const parts = reading.rows.filter((row) => row.step !== null && reading.origin[row.step.id] === id);
    const [first, last] = [parts[0], parts.at(-1)];
    // One that is missing is rule 1's.
    if (first === undefined || last === undefined) continue;
    if (first.start !== fact.start)
      tell(
        'fact',
        `${first.label} began at ${clock.show(fact.start)}; the plan says ${clock.show(first.start)}.`,
        first,
      );
    if (fact.end !== null && last.end !== fact.end)
      tell('fact', `${last.label} was done at ${clock.show(fact.end)}; the plan says ${clock.show(last.end)}.`, last);
    // What is given up need not go on; what something has followed is over.
    const dish = first.dish === null ? -1 : reading.problem.dishes.indexOf(first.dish);
    const followed = [...facts.steps.keys()].some((other) =>
      reading.problem.steps[other]!.after.some(({ step }) => reading.origin[step] === id),
    );
    if (facts.dropped.has(dish) || followed) continue;
    if (fact.end === null && last.end < facts.now)
      tell('fact', `${last.label} is not done, but the plan ends it at ${clock.show(last.end)}.`, last);
    if (parts.length > 1) checkMove(reading, facts, parts, tell);
    else if (fact.end === null) checkGoesOn(facts, id, first, tell);
  }

  for (const row of reading.rows) {
    if (reading.past.has(row)) continue;
    if (row.start < facts.now) tell('now', `${row.label} begins at ${clock.show(row.start)}, which is over.`, row);
  }
  for (const row of reading.rows) {
    for (const { at, what } of facts.losses) {
      if (row.end <= Math.max(at, facts.now) || !('appliance' in what)) continue;
      const appliance = reading.problem.kitchen.appliances[what.appliance]!;
      if (row.appliance !== appliance) continue;
      const { surface } = appliance;
      const burner =
        what.kind === 'burner' && surface.kind === 'burners' ? surface.burners[what.burner]?.name : undefined;
      if (what.kind === 'burner' && !(burner !== undefined && row.places.includes(burner))) continue;
      tell('lost', `${row.label} is in ${burner ?? appliance.name}, which is lost.`, row);
    }
    for (const entry of row.hands) {
      const cook = entry.who === null ? -1 : reading.problem.cooks.indexOf(entry.who);
      const gone = facts.gone.get(cook);
      const judged = !reading.past.has(row) || (entry.start >= facts.now && row.end > facts.now);
      if (gone !== undefined && judged && entry.end > gone)
        tell('gone', `${entry.cook} has left before ${row.label}.`, row);
    }
  }
  return found;
}

/** No less than this share is left of what is not done. */
const LEAST_LEFT = 0.05;

type Tell = (code: string, say: string, row: Row) => number;

/** What goes on takes at least its minutes, unless it is expected otherwise. */
function checkGoesOn({ expected }: Facts, id: number, row: Row, tell: Tell): void {
  const known = expected?.get(id);
  const length = row.end - row.start;
  if (known !== undefined) {
    if (row.end < known) tell('fact', `${row.label} ends before it is expected to.`, row);
    return;
  }
  const asked = row.option === null ? null : minutesAsked(row.option, row.raw.celsius);
  if (asked !== null && length < asked.low) {
    tell('fact', `${row.label} lasts ${inMinutes(length)}, but it takes ${inMinutes(asked.low)}.`, row);
  }
}

/** Only what has lost its place moves, and where it goes on it takes the share of its minutes there that is left. */
function checkMove({ problem, past }: Reading, { losses }: Facts, parts: readonly Row[], tell: Tell): void {
  let left = 1;
  for (const [k, row] of parts.entries()) {
    const asked = row.option === null ? null : minutesAsked(row.option, row.raw.celsius);
    const length = row.end - row.start;
    if (k > 0 && asked !== null && !past.has(row)) {
      const least = Math.ceil(left * asked.low - 1e-6);
      if (length < least)
        tell('move', `${row.label} lasts ${inMinutes(length)} more; ${inMinutes(least)} are left of it.`, row);
    }
    if (asked !== null && asked.low > 0) left = Math.max(LEAST_LEFT, left - length / asked.low);
    if (k === parts.length - 1) continue;
    const lost = losses.some(({ what }) => {
      if (!('appliance' in what) || problem.kitchen.appliances[what.appliance] !== row.appliance) return false;
      const { surface } = problem.kitchen.appliances[what.appliance]!;
      if (what.kind === 'appliance' || surface.kind !== 'burners') return what.kind === 'appliance';
      return asList(row.raw.place).includes(surface.burners[what.burner]?.name ?? '');
    });
    if (!lost) tell('move', `${row.label} is moved, though its place is not lost.`, row);
  }
}
