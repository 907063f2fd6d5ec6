/**
 * The objective of DESIGN 5, worked out from the plan alone. Parts are exact sums; the total is their exact sum, rounded
 * once to 0.01.
 */
import { PART_NAMES, type PartName } from '../plan/document.js';
import { HEAT_WORKS } from '../problem/problem.js';
import { cooksBeyond, degreesFromIdeal, minutesOutsideBest } from './option.js';
import { meet, type Reading } from './reading.js';

export interface Points {
  /** Rounded to 0.01. */
  readonly total: number;
  /** Each rounded to 0.01 for showing; the total is not made of these. */
  readonly parts: Readonly<Record<PartName, number>>;
}

type Parts = Record<PartName, number>;

export function pointsOf(reading: Reading): Points {
  const parts = Object.fromEntries(PART_NAMES.map((name) => [name, 0])) as Parts;
  addLate(reading, parts);
  addPairs(reading, parts);
  addWaitsForLanding(reading, parts);
  addSteps(reading, parts);
  addRuns(reading, parts);
  parts.day = reading.problem.rates.day * dayLength(reading);
  const total = PART_NAMES.reduce((sum, name) => sum + parts[name], 0);
  return {
    total: inHundredths(total),
    parts: Object.fromEntries(PART_NAMES.map((name) => [name, inHundredths(parts[name])])) as Parts,
  };
}

function inHundredths(points: number): number {
  return Math.round(points * 100) / 100;
}

/** Once for each course that has dishes. */
function addLate({ landings, problem }: Reading, parts: Parts): void {
  for (const landing of landings) {
    if (landing !== null) parts.late += problem.rates.late * (landing.lands - landing.asked);
  }
}

/**
 * For every pair "step p, then step s": the minutes between beyond the gap's low end. Nothing when p has its own `keeps`. Within
 * a dish its `wait` rate when p is the last work on the heat or comes after it, else the `gap` rate. Across dishes: from
 * a served dish the `gap` rate; from a component its own (p's dish's) `wait` rate, whichever of its steps is used, but
 * the `gap` rate when the component is never on the heat.
 */
function addPairs({ byStep, order, problem }: Reading, parts: Parts): void {
  for (const step of problem.steps) {
    for (const link of step.after) {
      const p = problem.steps[link.step];
      const before = byStep[link.step];
      const after = byStep[step.id];
      if (p === undefined || p.keeps !== null || !before || !after) continue;
      const minutes = Math.max(0, after.start - before.end - link.gap.low);
      const dish = problem.dishes[p.dish]!;
      const heated = dish.steps.some((id) => HEAT_WORKS.has(problem.steps[id]!.work));
      const waits = p.dish === step.dish ? order.cooked[p.id] === true : !dish.served && heated;
      if (waits) parts.wait += problem.rates.wait[dish.fades] * minutes;
      else parts.gap += problem.rates.gap * minutes;
    }
  }
}

/**
 * After each last step of a served dish, heated or never, the wait until its course lands. The minutes of a hold cost the
 * hold's own `fades` and count against its own `keeps`; those outside it count together against the dish's.
 */
function addWaitsForLanding({ byStep, holds, lands, order, problem }: Reading, parts: Parts): void {
  const { rates } = problem;
  for (const [index, dish] of problem.dishes.entries()) {
    const landing = lands[index];
    if (landing === null || landing === undefined) continue;
    for (const last of order.lasts[index] ?? []) {
      const row = byStep[last];
      if (!row) continue;
      const hold = dish.hold === null ? null : holds[index];
      const held = hold ? Math.max(0, hold.end - hold.start) : 0;
      const outside = Math.max(0, landing - row.end - held);
      parts.wait += rates.wait[dish.fades] * outside;
      if (outside > dish.keeps) parts.over += rates.over * (outside - dish.keeps);
      if (dish.hold === null || held === 0) continue;
      parts.wait += rates.wait[dish.hold.fades] * held;
      if (held > dish.hold.keeps) parts.over += rates.over * (held - dish.hold.keeps);
    }
  }
}

/** What each step costs by itself: heat away from the ideal, a free duration outside its best, cooks beyond those asked. */
function addSteps({ byStep, origin, problem }: Reading, parts: Parts): void {
  const { rates } = problem;
  /** Of what had to move, minutes before: a free length is judged once, by all of them. */
  const before = new Map<number, number>();
  for (const [id, row] of byStep.entries()) {
    if (row === null || row.option === null) continue;
    parts.heat += rates.heat * degreesFromIdeal(row.option, row.raw.celsius);
    const minutes = (before.get(origin[id]!) ?? 0) + row.end - row.start;
    if (origin.lastIndexOf(origin[id]!) === id) parts.rest += rates.rest * minutesOutsideBest(row.option, minutes);
    else before.set(origin[id]!, minutes);
    parts.swap += rates.swap * cooksBeyond(row.option, row);
  }
}

/** Runs beyond an appliance's first, and the minutes of runs in which nothing, not even a hold, is in it. */
function addRuns({ rows, runs, problem }: Reading, parts: Parts): void {
  for (const run of runs) {
    if (run.before !== null) parts.runs += problem.rates.runs;
    let idle = 0;
    let reached = run.start;
    const inside = rows.filter((row) => row.appliance === run.appliance && meet(row, run));
    for (const row of inside.sort((one, two) => one.start - two.start)) {
      idle += Math.max(0, row.start - reached);
      reached = Math.max(reached, row.end);
    }
    idle += Math.max(0, run.end - reached);
    parts.idle += problem.rates.idle * idle;
  }
}

/** From the first step, or the first run less its least changeover, to the asked serve. */
function dayLength({ problem, rows, runs }: Reading): number {
  const starts = [...rows.map((row) => row.start), ...runs.map((run) => run.start - run.least)];
  const known = starts.filter((start) => !Number.isNaN(start));
  return known.length === 0 ? 0 : Math.max(0, problem.serve - Math.min(...known));
}
