/** The rest in which a piece that comes off the heat reaches its peak. */
import { HEAT_WORKS, type ProblemAsRead } from './problem.js';

/** Id of the first step of work `rest` that follows a step in its dish, with none on the heat between; null where there is none. */
export function restAfter(steps: ProblemAsRead['steps'], id: number): number | null {
  const next = steps.filter(({ dish, after }) => dish === steps[id]!.dish && after.some(({ step }) => step === id));
  const rest = next.find(({ work }) => work === 'rest');
  if (rest) return rest.id;
  for (const step of next) {
    const later = HEAT_WORKS.has(step.work) ? null : restAfter(steps, step.id);
    if (later !== null) return later;
  }
  return null;
}
