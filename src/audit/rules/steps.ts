/**
 * Rule 1: every step happens once, in one of its alternatives, for exactly as long as that alternative at that temperature
 * takes. For `until` the plan carries the table of minutes by temperature that was used, and is held to it.
 */

import { areMinutesAsked, isHeatAsked, minutesAsked } from '../option.js';
import { isGivenUp } from '../past.js';
import type { Reading, Row } from '../reading.js';
import { isCarried } from '../shapes.js';
import { standingInHold } from '../standing.js';
import { inDegrees, inMinutes, type Violation } from '../violation.js';

export function checkSteps(reading: Reading): Violation[] {
  const found: Violation[] = [];
  const tell = (code: string, say: string, steps: string[]): number => found.push({ rule: 1, code, say, steps });

  for (const [id, row] of reading.byStep.entries()) {
    const step = reading.problem.steps[id]!;
    const dish = reading.problem.dishes[step.dish]!;
    const label = `${dish.name}/${step.name}`;
    if (row === null && !isGivenUp(reading, step)) tell('missing', `${label} is not in the plan.`, [label]);
  }

  for (const row of reading.rows) {
    if (reading.past.has(row)) continue;
    if (row.isHold) {
      found.push(...checkHold(reading, row));
    } else if (row.step === null) {
      tell('unknown', `The meal has no step ${row.label}.`, [row.label]);
    } else {
      if (reading.byStep[row.step.id] !== row)
        tell('twice', `${row.label} is in the plan more than once.`, [row.label]);
      if (row.raw.work !== row.step.work) {
        tell('work', `${row.label} is ${row.step.work}, the plan calls it ${row.raw.work}.`, [row.label]);
      }
      found.push(...checkAlternative(reading, row));
    }
  }
  return found;
}

function checkAlternative(reading: Reading, row: Row): Violation[] {
  const { option, step, label } = row;
  const tell = (code: string, say: string): Violation => ({ rule: 1, code, say, steps: [label] });
  if (option === null) {
    const where = [row.raw.appliance, row.raw.mode, row.raw.pan, ...row.places].filter((each) => each !== null);
    const shown = where.length === 0 ? 'without pan and place' : `in ${where.join(', ')}`;
    return [tell('alternative', `${label} cannot be done ${shown}: none of its alternatives is that.`)];
  }
  const found: Violation[] = [];
  const { place } = option;
  if (place.kind === 'burner') {
    const surface = reading.problem.kitchen.appliances[place.appliance]?.surface;
    const burners = surface?.kind === 'burners' ? surface.burners : [];
    for (const name of row.places) {
      const index = burners.findIndex((each) => each.name === name);
      const burner = burners[index];
      // A burner that does not carry the pan is rule 3's; here is one that would, but that the step does not allow.
      if (burner === undefined || !isCarried(option.load, burner.carries)) continue;
      if (!place.burners.includes(index)) found.push(tell('alternative', `${label} may not be done on ${name}.`));
    }
  }

  // What had to move has a share of its minutes left, which is rule 8's.
  if (step !== null && reading.origin[step.id] !== step.id) return found;
  const asked = minutesAsked(option, row.raw.celsius);
  const length = row.end - row.start;
  if (asked === null) {
    // Outside its range of heat rule 4 speaks; here the range is kept, yet no column lies beyond on one side.
    if (isHeatAsked(option, row.raw.celsius)) {
      found.push(tell('columns', `${label} has no minutes for ${inDegrees(row.raw.celsius ?? 0)}.`));
    }
  } else if (length < asked.low || length > asked.high) {
    const bounds = asked.low === asked.high ? inMinutes(asked.low) : `${asked.low} to ${inMinutes(asked.high)}`;
    found.push(tell('length', `${label} lasts ${inMinutes(length)}, but it takes ${bounds}.`));
  }
  if (step !== null && !areMinutesAsked(option, row, step)) {
    const given = row.raw.minutes;
    // A wrong length has been told already, and a burner's number only repeats it.
    const repeats = typeof given === 'number' && option.duration.kind !== 'table' && found.length > 0;
    if (!repeats) found.push(tell('minutes', `The minutes given for ${label} are not those of its alternative.`));
  }
  return found;
}

/**
 * A hold is one more row (step and work `hold`) of a dish that may be held, in any appliance with runs, in the dish's
 * pan. A dish with several last steps has none, a component neither (it never lands); emptied food is held only if the
 * hold names a pan.
 */
function checkHold(reading: Reading, row: Row): Violation[] {
  const { label, dish } = row;
  const tell = (say: string): Violation[] => [{ rule: 1, code: 'hold', say, steps: [label] }];
  if (dish === null) return tell(`The meal has no dish ${row.raw.dish} to hold.`);
  const index = reading.problem.dishes.indexOf(dish);
  if (dish.hold === null) return tell(`${dish.name} may not be held warm.`);
  if (!dish.served) return tell(`${dish.name} is not served, so it is not held.`);
  if (reading.order.lasts[index]?.length !== 1) return tell(`${dish.name} ends in several steps and is not held.`);
  if (reading.holds[index] !== row) return tell(`${dish.name} is held more than once.`);
  if (row.raw.work !== 'hold') return tell(`The work of ${label} is hold, the plan says ${row.raw.work}.`);
  if (row.appliance === null || row.mode === null || row.raw.celsius === null) {
    return tell(`${dish.name} is held in no appliance, mode and temperature of this kitchen.`);
  }
  if (!(row.end > row.start)) return tell(`${dish.name} is held for no time at all.`);
  if (row.raw.minutes !== undefined) return tell(`A hold has no minutes by temperature, ${label} does.`);
  const standing = standingInHold(reading, row);
  if (standing === null) {
    const how = row.raw.pan === null ? 'without a pan' : `in ${row.raw.pan}`;
    return tell(`${dish.name} is held ${how}, but that is not what its food is in.`);
  }
  if (row.places.length !== standing.pans) {
    return tell(`${dish.name} is in ${standing.pans} pans, but ${row.places.length} are held.`);
  }
  return [];
}
