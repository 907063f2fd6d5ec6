/** Why there is no plan, in a cook's words. */
import type { Compiled } from './compile.js';

export interface Reason {
  readonly say: string;
}

export function explainNone(compiled: Compiled, jobs: readonly number[]): Reason[] {
  const { problem } = compiled;
  return jobs.map((j) => ({ say: `${problem.dishes[j]!.name} finds no place` }));
}
