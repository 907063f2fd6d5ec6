/**
 * Rule 4: an appliance is in one heat run at a time; every step in it lies inside a run whose mode is its own and whose
 * temperature lies in its range. A hold lies in a run whose temperature is one of its own and the mode's.
 */

import { DEGREE_SLACK, isHeatAsked } from '../option.js';
import { isPastRun } from '../past.js';
import type { Reading, Row, Run } from '../reading.js';
import { inDegrees, type Violation } from '../violation.js';

export function checkRuns(reading: Reading): Violation[] {
  const found: Violation[] = [];
  const tell = (code: string, say: string, steps: string[] = []): number => found.push({ rule: 4, code, say, steps });
  const { clock } = reading;

  for (const run of reading.runs) {
    const { appliance, mode, celsius } = run.raw;
    const at = `${appliance} at ${clock.show(run.start)}`;
    if (run.appliance === null || run.mode === null) {
      tell('mode', `The plan runs ${appliance} in ${mode}, which this kitchen does not have.`);
      continue;
    }
    if (isPastRun(reading, run)) continue;
    if (!(run.end > run.start)) tell('empty', `The run of ${at} has no length.`);
    // The furthest earlier end, not only the run just before: a long run may enclose several.
    const clash = earlierRuns(run).find((before) => before.end > run.start);
    if (clash !== undefined) tell('two', `${at} begins a run in ${mode} while it is still in ${clash.raw.mode}.`);
    if (celsius < run.mode.heat.low - DEGREE_SLACK || celsius > run.mode.heat.high + DEGREE_SLACK) {
      tell('range', `${at} is to be at ${inDegrees(celsius)}, which ${mode} does not reach.`);
    }
  }

  for (const row of reading.rows) {
    if (row.appliance === null || row.appliance.modes.length === 0 || reading.past.has(row)) continue;
    if (!isHeatOfRow(row)) {
      tell('heat', `${row.label} is done at ${inDegrees(row.raw.celsius ?? Number.NaN)}, outside its range.`, [
        row.label,
      ]);
    }
    const around = reading.runs.filter(
      (run) => run.appliance === row.appliance && run.start <= row.start && row.end <= run.end,
    );
    const own = around.find((run) => run.raw.mode === row.raw.mode) ?? around[0];
    if (own === undefined) {
      tell('outside', `${row.label} is in ${row.raw.appliance} while that is not in one run.`, [row.label]);
    } else if (own.raw.mode !== row.raw.mode) {
      tell('other', `${row.label} needs ${row.raw.mode}, but ${row.raw.appliance} is in ${own.raw.mode}.`, [row.label]);
    } else if (!(Math.abs(own.raw.celsius - (row.raw.celsius ?? Number.NaN)) <= DEGREE_SLACK)) {
      const given = inDegrees(row.raw.celsius ?? Number.NaN);
      tell('celsius', `${row.label} says ${given}, its run ${inDegrees(own.raw.celsius)}.`, [row.label]);
    }
  }
  return found;
}

function earlierRuns(run: Run): Run[] {
  const list: Run[] = [];
  for (let each = run.before; each !== null; each = each.before) list.push(each);
  return list;
}

function isHeatOfRow(row: Row): boolean {
  const { celsius } = row.raw;
  if (!row.isHold) return row.option === null || isHeatAsked(row.option, celsius);
  const heat = row.dish?.hold?.heat;
  if (heat === undefined) return true;
  return celsius !== null && celsius >= heat.low - DEGREE_SLACK && celsius <= heat.high + DEGREE_SLACK;
}
