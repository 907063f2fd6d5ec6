/** What is noted when a cook ticks something off: one tick may tell several things. */
import { stepKey } from '../../problem/hours.js';
import type { Day } from '../journal/day.js';
import type { Body } from '../journal/entries.js';
import type { Call } from './calls.js';

/** A call that was heeded. A step that begins ends those under way that it comes after, and serving a course its last steps. */
export function marksOf(day: Day, { kind, key, step }: Call): Body[] {
  const { problem } = day;
  if (step === null) return [{ kind: 'heeded', call: key }];
  const done = (id: number): Body => ({ kind: 'done', step: stepKey(problem, id) });
  switch (kind) {
    case 'start': {
      const before = problem.steps[step]!.after.map((link) => link.step).filter((id) => isUnderWay(day, id));
      return [...before.map(done), { kind: 'started', step: stepKey(problem, step) }];
    }
    case 'end':
    case 'off':
      return [done(step)];
    case 'serve': {
      const { course } = problem.dishes[problem.steps[step]!.dish]!;
      const last = problem.dishes.flatMap(({ course: own, served, steps }) =>
        served && own === course ? steps.filter((id) => isUnderWay(day, id)) : [],
      );
      return [...last.map(done), { kind: 'heeded', call: key }];
    }
    default:
      return [{ kind: 'heeded', call: key }];
  }
}

const isUnderWay = ({ steps }: Day, id: number): boolean => steps.get(id)?.end === null;
