/** When each step runs, one variable for each step, way and minute at which it might start. */
import type { Problem } from '../../src/problem/problem.js';
import { Program, Sum, type Variable } from './program.js';
import { levelsOf, type Way, waysOf } from './ways.js';

export interface Start {
  readonly way: Way;
  readonly at: number;
  readonly variable: Variable;
}

export type Choose = (way: Way) => boolean;

const all: Choose = () => true;

export class Timetable {
  readonly program = new Program();
  readonly levels;
  /** By step. */
  readonly starts: readonly (readonly Start[])[];

  /** Minutes 0 to `horizon`; `deadlines` by step: the latest end that its course's latest landing allows. */
  constructor(
    readonly problem: Problem,
    readonly horizon: number,
    deadlines: readonly number[],
  ) {
    this.levels = levelsOf(problem);
    const ways = problem.steps.map((step) => waysOf(problem, step, this.levels));
    const shortest = ways.map((list) => Math.min(...list.map((way) => way.minutes)));
    const earliest = earliestStarts(problem, shortest);
    const latest = latestEnds(problem, shortest, deadlines);
    this.starts = problem.steps.map((step) => {
      const found: Start[] = [];
      for (const way of ways[step.id]!) {
        for (let at = earliest[step.id]!; at + way.minutes <= latest[step.id]!; at++) {
          found.push({ way, at, variable: this.program.binary() });
        }
      }
      const once = new Sum();
      for (const start of found) once.add(start.variable);
      this.program.row(1, once, 1);
      for (const start of found) this.program.pay(new Sum().add(start.variable), start.way.points);
      return found;
    });
  }

  private sum(step: number, factor: (start: Start) => number): Sum {
    const total = new Sum();
    for (const start of this.starts[step]!) {
      const value = factor(start);
      if (value !== 0) total.add(start.variable, value);
    }
    return total;
  }

  startOf(step: number): Sum {
    return this.sum(step, ({ at }) => at);
  }

  endOf(step: number): Sum {
    return this.sum(step, ({ at, way }) => at + way.minutes);
  }

  /** 1 if it is done in such a way. */
  chosen(step: number, choose: Choose): Sum {
    return this.sum(step, ({ way }) => (choose(way) ? 1 : 0));
  }

  /** 1 if it has started, at `minute` or before, in such a way. */
  started(step: number, minute: number, choose: Choose = all): Sum {
    return this.sum(step, ({ way, at }) => (at <= minute && choose(way) ? 1 : 0));
  }

  /** 1 if it has ended, at `minute` or before, in such a way. */
  ended(step: number, minute: number, choose: Choose = all): Sum {
    return this.sum(step, ({ way, at }) => (at + way.minutes <= minute && choose(way) ? 1 : 0));
  }

  /** 1 if it is under way in [minute, minute + 1) in such a way. */
  during(step: number, minute: number, choose: Choose = all): Sum {
    return this.sum(step, ({ way, at }) => (at <= minute && minute < at + way.minutes && choose(way) ? 1 : 0));
  }
}

/** No step can start sooner, by the steps before it. */
function earliestStarts(problem: Problem, shortest: readonly number[]): number[] {
  const earliest = problem.steps.map(() => 0);
  for (const _ of problem.steps) {
    for (const step of problem.steps) {
      for (const { step: before, gap } of step.after) {
        earliest[step.id] = Math.max(earliest[step.id]!, earliest[before]! + shortest[before]! + gap.low);
      }
    }
  }
  return earliest;
}

/** No step can end later, by the steps after it. */
function latestEnds(problem: Problem, shortest: readonly number[], deadlines: readonly number[]): number[] {
  const latest = [...deadlines];
  for (const _ of problem.steps) {
    for (const step of problem.steps) {
      for (const { step: before, gap } of step.after) {
        latest[before] = Math.min(latest[before]!, latest[step.id]! - shortest[step.id]! - gap.low);
      }
    }
  }
  return latest;
}
