import { type Network, type Project, pathsOf } from './project.js';

/** No schedule is shorter: the critical path, and each renewable's work between the heads and tails of those that use it. */
export function lowerBound(project: Project, network: Network): number {
  const shortest = project.activities.map((modes) => Math.min(...modes.map(({ minutes }) => minutes)));
  const { heads, tails } = pathsOf(network, shortest);
  let bound = shortest.reduce((most, minutes, j) => Math.max(most, heads[j]! + minutes + tails[j]!), 0);
  project.renewables.forEach((capacity, k) => {
    const work = project.activities.map((modes) => Math.min(...modes.map(({ minutes, uses }) => minutes * uses[k]!)));
    const users = work.flatMap((amount, j) => (amount > 0 ? [j] : []));
    bound = Math.max(bound, energy(users, work, heads, tails, capacity));
  });
  return bound;
}

/** For every least head and least tail: those that have at least these do all their work in between. */
function energy(
  users: readonly number[],
  work: readonly number[],
  heads: Int32Array,
  tails: Int32Array,
  capacity: number,
): number {
  let most = 0;
  const byTail = [...users].sort((a, b) => tails[b]! - tails[a]!);
  for (const head of new Set(users.map((j) => heads[j]!))) {
    let sum = 0;
    for (const j of byTail) {
      if (heads[j]! < head) continue;
      sum += work[j]!;
      most = Math.max(most, head + Math.ceil(sum / capacity) + tails[j]!);
    }
  }
  return most;
}
