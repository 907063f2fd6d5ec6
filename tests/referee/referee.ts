/**
 * The referee: the exact optimum of a small problem, from the rules and the points alone, as a program with one variable for each
 * step, way and minute. Plain and slow; shares nothing with the solver. See scope.ts for what it judges.
 */
import { HEAT_WORKS, type Problem } from '../../src/problem/problem.js';
import { addHands } from './hands.js';
import { addHeat } from './heat.js';
import { addLandings, type Landing } from './landing.js';
import { addPans } from './pans.js';
import { addPlaces } from './places.js';
import { Sum } from './program.js';
import { assertInScope, ownUsers } from './scope.js';
import { Timetable } from './timetable.js';

/** A step as it is done; minutes after `start`. */
export interface Row {
  readonly dish: string;
  readonly step: string;
  readonly option: number;
  readonly celsius: number | null;
  /** Told only where it matters which. */
  readonly level: number | null;
  readonly burner: number | null;
  readonly start: number;
  readonly end: number;
  readonly hands: readonly { readonly cook: number; readonly start: number; readonly end: number }[];
}

export interface Verdict {
  /** To 0.01. */
  readonly points: number;
  /** By step. */
  readonly rows: readonly Row[];
  /** Minutes after its asked time, by course. */
  readonly late: readonly number[];
}

/** How far beyond the asked time it looks before it says that there is no plan at all, minutes. */
export const PATIENCE = 15;

/**
 * The best plan, or null where there is none that is late by a quarter of an hour or less. A plan that is later than `allowed` costs
 * at least its points a minute, so a better one is proven best once it costs less than that.
 *
 * @throws OutOfScope for a problem that it does not judge.
 */
export async function referee(problem: Problem): Promise<Verdict | null> {
  assertInScope(problem);
  let allowed = 0;
  for (;;) {
    const verdict = await judge(problem, allowed);
    if (verdict && verdict.points <= problem.rates.late * (allowed + 1)) return verdict;
    if (allowed >= PATIENCE) return verdict;
    allowed = verdict ? Math.ceil(verdict.points / problem.rates.late) : Math.min(PATIENCE, allowed * 2 + 1);
  }
}

/** The best plan among those that are late by at most `allowed` minutes. */
async function judge(problem: Problem, allowed: number): Promise<Verdict | null> {
  const asked = problem.courses.map((course) => problem.serve + course.at);
  const horizon = Math.max(...asked) + allowed;
  const deadlines = problem.steps.map((step) => {
    const { course } = problem.dishes[step.dish]!;
    return course === null ? horizon : asked[course]! + allowed;
  });
  const table = new Timetable(problem, horizon, deadlines);
  const landings = addLandings(table, asked, allowed);
  addOrder(table);
  addWaits(table, landings);
  addPlaces(table);
  const firstHeats = addHeat(table);
  addPans(table, landings);
  const parts = addHands(table);
  addDay(table, firstHeats);

  const solution = await table.program.solve();
  if (!solution) return null;
  const late = landings.map((landing, c) => {
    let at = asked[c]!;
    for (const [minute, variable] of landing.at) if (solution.value(variable) > 0.5) at = minute;
    return at - asked[c]!;
  });
  const rows = problem.steps.map((step): Row => {
    const start = table.starts[step.id]!.find((each) => solution.value(each.variable) > 0.5)!;
    const { option, celsius, level, burner, minutes } = start.way;
    const hands = parts.filter((part) => part.step === step.id && solution.value(part.variable) > 0.5);
    return {
      dish: problem.dishes[step.dish]!.name,
      step: step.name,
      option,
      celsius,
      level,
      burner,
      start: start.at,
      end: start.at + minutes,
      hands: hands.map(({ cook, start: from, end }) => ({ cook, start: from, end })),
    };
  });
  return { points: Math.round(solution.objective * 100) / 100, rows, late };
}

/** Each step starts within its gap after each step that it follows. */
function addOrder(table: Timetable): void {
  const { program, problem } = table;
  for (const step of problem.steps) {
    for (const { step: before, gap } of step.after) {
      for (let minute = 0; minute <= table.horizon; minute++) {
        program.order(table.started(step.id, minute), table.ended(before, minute - gap.low));
        if (gap.high >= table.horizon) continue;
        program.order(table.ended(before, minute), table.started(step.id, minute + gap.high));
      }
    }
  }
}

/** Waiting between steps, waiting for the landing, and waiting beyond what the dish keeps. */
function addWaits(table: Timetable, landings: readonly Landing[]): void {
  const { program, problem } = table;
  const { rates } = problem;
  const cooked = problem.steps.map((step) => isCooked(problem, step.id));
  for (const step of problem.steps) {
    for (const { step: before, gap } of step.after) {
      const from = problem.steps[before]!;
      const dish = problem.dishes[from.dish]!;
      if (from.keeps !== null) continue;
      const across = from.dish !== step.dish;
      const dear = cooked[before]! && !(across && dish.served);
      const waiting = new Sum().addSum(table.startOf(step.id)).addSum(table.endOf(before), -1).addConstant(-gap.low);
      program.pay(waiting, dear ? rates.wait[dish.fades] : rates.gap);
    }
  }
  for (const step of problem.steps) {
    const dish = problem.dishes[step.dish]!;
    if (dish.course === null || ownUsers(problem, step).length > 0) continue;
    const landing = landings[dish.course]!;
    for (let minute = 0; minute <= table.horizon; minute++)
      program.order(landing.by(minute), table.ended(step.id, minute));
    const waiting = new Sum().addSum(landing.time).addSum(table.endOf(step.id), -1);
    program.pay(waiting, rates.wait[dish.fades]);
    if (dish.keeps === Infinity) continue;
    const over = program.number(0, table.horizon);
    program.order(new Sum().addSum(waiting).addConstant(-dish.keeps), new Sum().add(over));
    program.pay(new Sum().add(over), rates.over);
  }
}

/** Its dish's last work on the heat, or after it. In a chain: no later step is on the heat, and it or one before it is. */
function isCooked(problem: Problem, id: number): boolean {
  const { steps } = problem.dishes[problem.steps[id]!.dish]!;
  const last = steps.findLastIndex((each) => HEAT_WORKS.has(problem.steps[each]!.work));
  return last >= 0 && steps.indexOf(id) >= last;
}

/** From the first step or changeover to the asked time. */
function addDay(table: Timetable, firstHeats: readonly Sum[]): void {
  const { program, problem } = table;
  const begin = program.number(0, table.horizon);
  for (const step of problem.steps) program.order(new Sum().add(begin), table.startOf(step.id));
  for (const heat of firstHeats) program.order(new Sum().add(begin), heat);
  program.pay(new Sum().add(begin, -1).addConstant(problem.serve), problem.rates.day);
}
