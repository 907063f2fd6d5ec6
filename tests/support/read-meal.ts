/** Meals as the commands open them: read, with the minutes that the file leaves to the heat model. */
import { withHeat } from '../../src/heat/meal.js';
import type { Problem } from '../../src/problem/problem.js';
import { type ReadOptions, type ReadResult, readProblem, readProblemFile } from '../../src/problem/read.js';

/** Fails with the messages where something is wrong. */
export function settled(read: ReadResult): Problem {
  const result = withHeat(read);
  if (!result.ok) throw new Error(result.messages.map(({ file, line, say }) => `${file}:${line}: ${say}`).join('\n'));
  return result.problem;
}

export const readMeal = (text: string, options: Partial<ReadOptions> = {}): Problem =>
  settled(readProblem(text, { name: 'meal.yaml', ...options }));

export const readMealFile = (path: string): Problem => settled(readProblemFile(path));
