/**
 * What a plan says of cores, as far as it can be judged without a model of heat: that it is pulled at what the file asks for, or so that
 * it rises to it; that its windows hold their ends; that peaks are peaks.
 */
import type { Reading, Row } from '../reading.js';
import { inDegrees, inMinutes, type Violation } from '../violation.js';

/** Temperatures are given to 0.1 °C, and both sides round. */
const ROUNDING = 0.1 + 1e-9;
/** °C by which a predicted peak may miss what was asked for: whole minutes take some of a short rest. */
const NEAR = 3;

export function checkCores(reading: Reading): Violation[] {
  return [
    ...reading.rows.flatMap((row) => checkPull(reading, row)),
    ...reading.dishRows.flatMap((_, dish) => checkPeak(reading, dish)),
  ];
}

function checkPull(reading: Reading, { raw, label, option, start, end }: Row): Violation[] {
  const found: Violation[] = [];
  const tell = (say: string): number => found.push({ rule: 0, code: 'core', say, steps: [label] });
  const { pull, window } = raw;
  const asked = option?.core ?? null;
  if (pull !== undefined && option !== null) {
    if (asked === null) tell(`${label} is done to no core, but the plan pulls it at ${inDegrees(pull)}.`);
    else if (option.atPeak ? pull > asked + ROUNDING : Math.abs(pull - asked) > ROUNDING) {
      tell(
        `${label} asks for ${inDegrees(asked)}${option.atPeak ? ' at rest' : ''}, but the plan pulls it at ${inDegrees(pull)}.`,
      );
    }
  }
  if (window === undefined) return found;
  if (option !== null && option.forecasts === null)
    tell(`The minutes of ${label} come from no model, but the plan gives it a window.`);
  const [from, to] = [reading.clock.minute(window.from), reading.clock.minute(window.to)];
  if (!(start <= from && from <= end && end <= to))
    tell(`${label} ends at ${reading.clock.show(end)}, outside its window.`);
  if (!(window.late >= 0 && window.late <= Math.max(0, to - end)))
    tell(`${label} cannot make its dish ${inMinutes(window.late)} late.`);
  return found;
}

function checkPeak(reading: Reading, dish: number): Violation[] {
  const { core, dish: name } = reading.dishRows[dish] ?? {};
  if (core === undefined || name === undefined) return [];
  const found: Violation[] = [];
  const tell = (say: string): number => found.push({ rule: 0, code: 'core', say, steps: [] });
  const row = reading.rows.findLast((each) => each.raw.dish === name && each.raw.window !== undefined);
  if (row === undefined) tell(`The core of ${name} comes from no model.`);
  else if (row.raw.pull !== core.pull) tell(`${row.label} and ${name} are pulled at two temperatures.`);
  if (core.peak === null) return found;
  if (core.peak < core.pull - ROUNDING || core.peak < (core.atServe ?? core.peak) - ROUNDING) {
    tell(`${name} is hotter than its peak of ${inDegrees(core.peak)}.`);
  }
  const asked = row?.option?.atPeak ? row.option.core : null;
  if (asked !== null && core.peak < asked - NEAR) {
    tell(`${name} should rise to ${inDegrees(asked)}, but rises to ${inDegrees(core.peak)}.`);
  }
  return found;
}
