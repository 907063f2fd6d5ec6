/**
 * Rule 9: a course lands at one time: the asked one, or the last ready of its dishes if that is later; by how much is
 * said. Each dish stands once in the plan's list with its landing and its course's minutes of lateness; a component has
 * neither.
 */
import type { Reading } from '../reading.js';
import { inMinutes, type Violation } from '../violation.js';

export function checkLanding(reading: Reading): Violation[] {
  const found: Violation[] = [];
  const tell = (code: string, say: string): number => found.push({ rule: 9, code, say, steps: [] });
  const { clock, plan, problem } = reading;

  for (const [index, dish] of problem.dishes.entries()) {
    const row = reading.dishRows[index];
    if (row === null || row === undefined) {
      if (reading.facts !== null && dish.steps.length === 0) continue;
      tell('missing', `The plan does not say when ${dish.name} lands.`);
      continue;
    }
    const landing = dish.course === null ? null : reading.landings[dish.course];
    if (landing === null || landing === undefined) {
      if (row.serve !== null || row.late !== null)
        tell('component', `${dish.name} is not served, so it lands at no time.`);
      continue;
    }
    const late = landing.lands - landing.asked;
    if (row.serve === null || clock.minute(row.serve) !== landing.lands) {
      const given = row.serve === null ? 'at no time' : `at ${clock.show(clock.minute(row.serve))}`;
      tell('serve', `${landing.name} lands at ${clock.show(landing.lands)}, ${dish.name} ${given}.`);
    }
    if (row.late !== late) {
      const given = row.late === null ? 'nothing' : inMinutes(row.late);
      tell('late', `${landing.name} lands ${inMinutes(late)} late; the plan says ${given} for ${dish.name}.`);
    }
  }
  for (const [index, { dish }] of plan.dishes.entries()) {
    if (problem.dishes.every((each) => each.name !== dish)) tell('unknown', `The meal has no dish ${dish}.`);
    else if (plan.dishes.findIndex((each) => each.dish === dish) !== index) {
      tell('twice', `${dish} stands twice in the list of dishes.`);
    }
  }
  return found;
}
