/** When each course lands. */
import { Sum, type Variable } from './program.js';
import type { Timetable } from './timetable.js';

export interface Landing {
  readonly time: Sum;
  /** By minute: 1 if it lands then. */
  readonly at: ReadonlyMap<number, Variable>;
  /** 1 if it has landed, at `minute` or before. */
  by(minute: number): Sum;
}

/** Each course lands at one minute, no sooner than asked and at most `allowed` later; lateness is paid. */
export function addLandings(table: Timetable, asked: readonly number[], allowed: number): Landing[] {
  const { program, problem } = table;
  return asked.map((from) => {
    const at = new Map<number, Variable>();
    const once = new Sum();
    const time = new Sum();
    for (let minute = from; minute <= from + allowed; minute++) {
      const variable = program.binary();
      at.set(minute, variable);
      once.add(variable);
      time.add(variable, minute);
    }
    program.row(1, once, 1);
    program.pay(new Sum().addSum(time).addConstant(-from), problem.rates.late);
    const by = (limit: number): Sum => {
      const sum = new Sum();
      for (const [minute, variable] of at) if (minute <= limit) sum.add(variable);
      return sum;
    };
    return { time, at, by };
  });
}
