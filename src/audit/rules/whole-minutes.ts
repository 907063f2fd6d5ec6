/** Rule 10: whole minutes, and temperatures on the appliance's dial. Times are written by the zone's clock. */
import type { Dial } from '../../problem/problem.js';
import { DEGREE_SLACK } from '../option.js';
import { isPastRun } from '../past.js';
import type { Reading } from '../reading.js';
import { inDegrees, type Violation } from '../violation.js';

export function checkWholeMinutes(reading: Reading): Violation[] {
  return [...checkTimes(reading), ...checkDials(reading)];
}

function checkTimes({ clock, plan }: Reading): Violation[] {
  const times: { iso: string; steps: string[] }[] = [{ iso: plan.serve, steps: [] }];
  for (const row of plan.steps) {
    const steps = [`${row.dish}/${row.step}`];
    for (const each of [row, ...row.hands]) times.push({ iso: each.start, steps }, { iso: each.end, steps });
  }
  for (const run of plan.runs) times.push({ iso: run.start, steps: [] }, { iso: run.end, steps: [] });
  for (const dish of plan.dishes) {
    times.push({ iso: dish.ready, steps: [] });
    if (dish.serve !== null) times.push({ iso: dish.serve, steps: [] });
  }
  for (const call of plan.calls) times.push({ iso: call.at, steps: [`${call.dish}/${call.step}`] });

  return times.flatMap(({ iso, steps }): Violation[] => {
    if (!Number.isInteger(clock.minute(iso))) {
      return [{ rule: 10, code: 'minute', say: `${iso} is not a whole minute.`, steps }];
    }
    if (clock.isLocal(iso)) return [];
    return [{ rule: 10, code: 'clock', say: `${iso} is not written by the clock of ${plan.zone}.`, steps }];
  });
}

function checkDials(reading: Reading): Violation[] {
  const told = new Set<string>();
  const found: Violation[] = [];
  const runs = reading.runs.filter((run) => !isPastRun(reading, run));
  for (const each of [...runs, ...reading.rows.filter((row) => !reading.past.has(row))]) {
    const { celsius, appliance } = each.raw;
    if (each.appliance === null || celsius === null || isOnDial(each.appliance.dial, celsius)) continue;
    const key = `${appliance} ${celsius}`;
    if (told.has(key)) continue;
    told.add(key);
    found.push({ rule: 10, code: 'dial', say: `${appliance} cannot be set to ${inDegrees(celsius)}.`, steps: [] });
  }
  return found;
}

function isOnDial(dial: Dial, celsius: number): boolean {
  const value = dial.unit === 'F' ? (celsius * 9) / 5 + 32 : celsius;
  const nearest = Math.round(value / dial.step) * dial.step;
  return Math.abs(value - nearest) <= (dial.unit === 'F' ? 1.8 : 1) * DEGREE_SLACK;
}
