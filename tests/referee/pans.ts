/** No more of a pan is in use, or away for washing, than there is. */
import type { Step } from '../../src/problem/problem.js';
import type { Landing } from './landing.js';
import { Sum } from './program.js';
import { moves, otherUsers, ownUsers } from './scope.js';
import type { Timetable } from './timetable.js';

export function addPans(table: Timetable, landings: readonly Landing[]): void {
  const { problem, program, horizon } = table;
  for (const [pan, { count, wash }] of problem.kitchen.pans.entries()) {
    const takers = problem.steps.filter((step) => step.options.some((option) => option.pan === pan));
    if (takers.length <= count) continue;
    for (let minute = 0; minute < horizon; minute++) {
      const away = new Sum();
      for (const step of takers) {
        const taken = table.started(step.id, minute, (way) => step.options[way.option]!.pan === pan);
        if (step.empties) {
          const inIt = (option: number): boolean => step.options[option]!.pan === pan;
          away.addSum(taken).addSum(
            table.ended(step.id, minute - wash, (way) => inIt(way.option)),
            -1,
          );
          continue;
        }
        const busy = program.number(0, 1);
        away.add(busy);
        for (const { letsGo, goesOn } of releases(table, landings, step, pan)) {
          // In use until the food has moved on ...
          program.order(new Sum().addSum(taken).addSum(letsGo(minute), -1), new Sum().add(busy));
          // ... and then away for its wash, unless the food goes on in the same pan.
          const washed = new Sum()
            .addSum(taken)
            .addSum(letsGo(minute - wash), -1)
            .addSum(goesOn, -1);
          program.order(washed, new Sum().add(busy));
        }
      }
      program.row(0, away, count);
    }
  }
}

interface Release {
  /** 1 if the pan has been let go, at `minute` or before. */
  letsGo(minute: number): Sum;
  /** 1 if the food goes on in the same pan, whose use then counts there. */
  readonly goesOn: Sum;
}

/** What lets a pan go; where there are several, the last of them does. */
function releases(table: Timetable, landings: readonly Landing[], step: Step, pan: number): Release[] {
  const { problem } = table;
  let last = step;
  for (;;) {
    const [next] = ownUsers(problem, last);
    if (!next) break;
    last = next;
    if (!next.options.every(moves)) continue;
    return [
      {
        letsGo: (minute) => table.started(next.id, minute),
        goesOn: table.chosen(next.id, (way) => next.options[way.option]!.pan === pan),
      },
    ];
  }
  const { course } = problem.dishes[step.dish]!;
  if (course !== null) return [{ letsGo: (minute) => landings[course]!.by(minute), goesOn: new Sum() }];
  return otherUsers(problem, last).map((user) => ({
    letsGo: (minute) => table.started(user.id, minute),
    goesOn: new Sum(),
  }));
}
