/** Shop scheduling: jobs are chains of operations, each done on one of its machines; a machine does one at a time; the makespan is to be short. */
export interface ShopMode {
  readonly machine: number;
  readonly minutes: number;
}

export interface Shop {
  readonly machines: number;
  /** Of each job its operations in order, of each operation the ways to do it: at least one. */
  readonly jobs: readonly (readonly (readonly ShopMode[])[])[];
}

/** All operations in one row, job after job. */
export interface Operations {
  readonly size: number;
  readonly modes: readonly (readonly ShopMode[])[];
  /** The operation before and after in its job; -1: none. */
  readonly before: Int32Array;
  readonly after: Int32Array;
}

export function operationsOf({ jobs }: Shop): Operations {
  const modes = jobs.flat();
  const before = new Int32Array(modes.length).fill(-1);
  const after = new Int32Array(modes.length).fill(-1);
  let at = 0;
  for (const { length } of jobs) {
    for (let k = 0; k < length; k++) {
      if (k > 0) before[at + k] = at + k - 1;
      if (k < length - 1) after[at + k] = at + k + 1;
    }
    at += length;
  }
  return { size: modes.length, modes, before, after };
}

/** No schedule is shorter: the longest job, and what each machine, or all of them together, have to do between heads and tails. */
export function shopBound({ machines }: Shop, { size, modes, before, after }: Operations): number {
  const least = modes.map((all) => Math.min(...all.map(({ minutes }) => minutes)));
  const heads = new Int32Array(size);
  const tails = new Int32Array(size);
  for (let v = 0; v < size; v++) if (before[v]! >= 0) heads[v] = heads[before[v]!]! + least[before[v]!]!;
  for (let v = size - 1; v >= 0; v--) if (after[v]! >= 0) tails[v] = tails[after[v]!]! + least[after[v]!]!;
  let bound = least.reduce((most, minutes, v) => Math.max(most, heads[v]! + minutes + tails[v]!), 0);
  bound = Math.max(bound, Math.ceil(least.reduce((sum, minutes) => sum + minutes, 0) / Math.max(1, machines)));
  for (let machine = 0; machine < machines; machine++) {
    const only = modes.flatMap((all, v) => (all.every((mode) => mode.machine === machine) ? [v] : []));
    if (only.length > 0) bound = Math.max(bound, oneMachine(only, least, heads, tails));
  }
  return bound;
}

/** For every least head and least tail: those that have at least these are done one after the other in between (J. Carlier, EJOR 11, 1982). */
function oneMachine(list: readonly number[], least: readonly number[], heads: Int32Array, tails: Int32Array): number {
  let most = 0;
  const byTail = [...list].sort((a, b) => tails[b]! - tails[a]!);
  for (const head of new Set(list.map((v) => heads[v]!))) {
    let sum = 0;
    for (const v of byTail) {
      if (heads[v]! < head) continue;
      sum += least[v]!;
      most = Math.max(most, head + sum + tails[v]!);
    }
  }
  return most;
}
