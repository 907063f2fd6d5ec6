/** Which board each activity has that needs one. */
import type { State } from '../kernel/state.js';
import type { Compiled } from './compile.js';
import { cookedSteps } from './rates.js';

/**
 * In the order of their starts, so that there is always one left. A piece that is still raw goes on the last free board, all else on the first,
 * so that the two meet only where there are too few. Where the schedule is under way, what has begun keeps its board, and the others get
 * those that they were to have or, where these are taken, rather one that nothing else is to have.
 */
export function boardNumbers({ problem, model, kit }: Compiled, state: State): Map<number, number> {
  const { progress } = model;
  const wanted = (a: number): number => progress?.usual[a]?.bench ?? -1;
  const users = model.activities.map((a) => a.id).filter((a) => state.modeOf(a).bench === kit.boards);
  users.sort((a, b) => state.start[a]! - state.start[b]! || a - b);
  const cooked = cookedSteps(problem);
  const all = Array.from({ length: problem.kitchen.boards }, (_, board) => board);
  const out = new Map<number, number>();
  for (const a of users) if (progress?.settled[a] && wanted(a) >= 0) out.set(a, wanted(a));
  for (const a of users.filter((each) => !out.has(each))) {
    const beside = users.filter((b) => b !== a && meets(state, a, b));
    const taken = new Set(beside.flatMap((b) => out.get(b) ?? []));
    const spoken = new Set(beside.filter((b) => !out.has(b)).map(wanted));
    const free = all.filter((board) => !taken.has(board));
    const own = free.filter((board) => board === wanted(a));
    const spare = free.filter((board) => !spoken.has(board));
    const raw = problem.dishes[problem.steps[a]!.dish]!.piece !== null && !cooked[a]!;
    const best = [own, spare, free].find((list) => list.length > 0) ?? [0];
    out.set(a, raw ? best.at(-1)! : best[0]!);
  }
  return out;
}

const meets = (state: State, a: number, b: number): boolean =>
  state.start[a]! < state.end(b) && state.start[b]! < state.end(a);
