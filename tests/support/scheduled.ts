/** Schedules of a compiled meal as the search leaves them, for tests of what comes after it. */
import type { State } from '../../src/kernel/state.js';
import type { Compiled } from '../../src/solve/compile.js';
import { earliestStarts, pathsOf } from '../../src/solve/paths.js';
import { AS_IT_IS, search } from '../../src/solve/search.js';

/** A schedule as construction leaves it (`work` 0) or after some search, its times not yet polished; null where jobs are left out. */
export function scheduled(compiled: Compiled, seed: number, work: number): State | null {
  const { model } = compiled;
  const earliest = earliestStarts(model);
  if (earliest === null) return null;
  const found = search(model, {
    seed,
    work,
    earliest,
    paths: pathsOf(model),
    polish: (state) => state,
    reorder: AS_IT_IS,
    bound: 0,
  });
  return found.unplaced.length > 0 ? null : found.state;
}
