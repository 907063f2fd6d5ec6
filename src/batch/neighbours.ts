/** Small changes of a schedule, drawn by chance: each lays one out in the state, or says that it draws none this time. */
import type { Rng } from '../kernel/rng.js';
import type { State } from './state.js';

/** True where a change is laid out. */
type Neighbourhood = (state: State, rng: Rng) => boolean;

/** Name, how often it is drawn beside the others, and what it does. */
export const NEIGHBOURHOODS: readonly (readonly [string, number, Neighbourhood])[] = [
  ['job to another batch', 3, jobToBatch],
  ['job to a new batch', 2, jobToNewBatch],
  ['two jobs exchanged', 3, jobsExchanged],
  ['job in, another out', 2, jobChain],
  ['two batches repacked', 2, batchesRepacked],
  ['batch split', 1, batchSplit],
  ['block moved', 4, blockMoved],
  ['two batches exchanged', 2, batchesExchanged],
  ['block turned', 1, blockTurned],
];

const anyJob = (state: State, rng: Rng): number => rng.below(state.tables.jobs);

/** A job of the same attribute, perhaps the same. */
function likeJob(state: State, rng: Rng, job: number): number {
  const jobs = state.tables.jobsOf[state.tables.attribute[job]!]!;
  return jobs[rng.below(jobs.length)]!;
}

/** Puts a new batch in the place of an old one (-1: none). */
function replace(state: State, old: number, slot: number): void {
  state.edit(state.machineOf[old]!, state.placeOf[old]!, 1, slot);
  state.dissolve(old);
}

/** Takes a job out of its batch, which goes where nothing is left of it. */
function withdraw(state: State, job: number): void {
  const batch = state.batchOf[job]!;
  replace(state, batch, state.pool.count[batch] === 1 ? -1 : state.makeFrom(batch, job, -1));
}

function jobToBatch(state: State, rng: Rng): boolean {
  const job = anyJob(state, rng);
  const from = state.batchOf[job]!;
  const to = state.batchOf[likeJob(state, rng, job)]!;
  if (from === to || !state.pool.takes(to, job, state.machineOf[to]!)) return false;
  withdraw(state, job);
  replace(state, to, state.makeFrom(to, -1, job));
  return true;
}

/** Inserts a batch at a place drawn for it: anywhere, or beside one of its attribute. */
function insertSomewhere(state: State, rng: Rng, slot: number): boolean {
  const { tables, pool } = state;
  const job = pool.member(slot, 0);
  if (rng.below(2) === 0) {
    const machines = tables.machinesOf[job]!;
    const machine = machines[rng.below(machines.length)]!;
    if (!pool.mayGoOn(slot, machine)) return false;
    state.edit(machine, rng.below(state.length[machine]! + 1), 0, slot);
    return true;
  }
  const beside = state.batchOf[likeJob(state, rng, job)]!;
  const machine = state.machineOf[beside]!;
  if (!pool.mayGoOn(slot, machine)) return false;
  state.edit(machine, state.placeOf[beside]! + rng.below(2), 0, slot);
  return true;
}

function jobToNewBatch(state: State, rng: Rng): boolean {
  const job = anyJob(state, rng);
  if (state.pool.count[state.batchOf[job]!] === 1) return false;
  const slot = state.make();
  state.pool.add(slot, job);
  if (!insertSomewhere(state, rng, slot)) return false;
  withdraw(state, job);
  return true;
}

function jobsExchanged(state: State, rng: Rng): boolean {
  const { pool } = state;
  const x = anyJob(state, rng);
  const y = likeJob(state, rng, x);
  const [from, to] = [state.batchOf[x]!, state.batchOf[y]!];
  if (from === to) return false;
  const left = state.makeFrom(from, x, y);
  if (!pool.mayGoOn(left, state.machineOf[from]!)) return false;
  const right = state.makeFrom(to, y, x);
  if (!pool.mayGoOn(right, state.machineOf[to]!)) return false;
  replace(state, from, left);
  replace(state, to, right);
  return true;
}

/** A job joins a batch, and one of that batch goes to a third. */
function jobChain(state: State, rng: Rng): boolean {
  const { pool } = state;
  const x = anyJob(state, rng);
  const y = likeJob(state, rng, x);
  const [first, second] = [state.batchOf[x]!, state.batchOf[y]!];
  const third = state.batchOf[likeJob(state, rng, x)]!;
  if (first === second || first === third || second === third) return false;
  if (!pool.takes(third, y, state.machineOf[third]!)) return false;
  const middle = state.makeFrom(second, y, x);
  if (!pool.mayGoOn(middle, state.machineOf[second]!)) return false;
  withdraw(state, x);
  replace(state, second, middle);
  replace(state, third, state.makeFrom(third, -1, y));
  return true;
}

/** The jobs of two batches dealt out anew: the longest, the first due or whichever first, into either where they fit. */
function batchesRepacked(state: State, rng: Rng): boolean {
  const { pool, tables } = state;
  const x = anyJob(state, rng);
  const [from, to] = [state.batchOf[x]!, state.batchOf[likeJob(state, rng, x)]!];
  if (from === to || pool.count[from]! + pool.count[to]! < 3) return false;
  const jobs = [...pool.jobsIn(from), ...pool.jobsIn(to)];
  const by = rng.below(4);
  if (by === 0) jobs.sort((i, j) => tables.shortest[j]! - tables.shortest[i]!);
  else if (by === 1) jobs.sort((i, j) => tables.due[i]! - tables.due[j]!);
  else if (by === 2) jobs.sort((i, j) => tables.release[i]! - tables.release[j]!);
  else rng.shuffle(jobs);
  const batches = [state.make(), state.make()] as const;
  const machines = [state.machineOf[from]!, state.machineOf[to]!] as const;
  const first = rng.below(2);
  for (const job of jobs) {
    const lead = rng.below(8) === 0 ? 1 - first : first;
    const k = pool.takes(batches[lead]!, job, machines[lead]!) ? lead : 1 - lead;
    if (!pool.takes(batches[k]!, job, machines[k]!)) return false;
    pool.add(batches[k]!, job);
  }
  [from, to].forEach((old, k) => {
    replace(state, old, pool.count[batches[k]!] === 0 ? -1 : batches[k]!);
  });
  return true;
}

/** Some of a batch's jobs, those that run longest or are released or due last, or any, go into a new one. */
function batchSplit(state: State, rng: Rng): boolean {
  const { pool, tables } = state;
  const job = anyJob(state, rng);
  const batch = state.batchOf[job]!;
  const count = pool.count[batch]!;
  if (count < 3) return false;
  const key = [tables.shortest, tables.release, tables.due][rng.below(3)]!;
  const [stay, leave] = [state.make(), state.make()];
  for (let k = 0; k < count; k++) {
    const member = pool.member(batch, k);
    pool.add(key[member]! >= key[job]! ? leave : stay, member);
  }
  if (pool.count[stay] === 0 || pool.count[leave] === 0) return false;
  if (!insertSomewhere(state, rng, leave)) return false;
  replace(state, batch, stay);
  return true;
}

/** One to three neighbouring batches to another place, of any machine that may take them. */
function blockMoved(state: State, rng: Rng): boolean {
  const { pool, tables } = state;
  const job = anyJob(state, rng);
  const batch = state.batchOf[job]!;
  const [machine, place] = [state.machineOf[batch]!, state.placeOf[batch]!];
  const length = Math.min(rng.below(2) === 0 ? 1 : 1 + rng.below(4), state.length[machine]! - place);
  const row = state.rows[machine]!;
  let to = machine;
  if (rng.below(2) === 0) {
    const machines = tables.machinesOf[job]!;
    to = machines[rng.below(machines.length)]!;
  }
  let at: number;
  if (to === machine) {
    at = rng.below(2) === 0 ? rng.below(state.length[machine]! + 1) : place - 3 + rng.below(length + 7);
    if (at < 0 || at > state.length[machine]! || (at >= place && at <= place + length)) return false;
  } else {
    for (let k = 0; k < length; k++) if (!pool.mayGoOn(row[place + k]!, to)) return false;
    at = rng.below(state.length[to]! + 1);
  }
  state.edit(machine, place, length, -1);
  state.edit(to, at, 0, batch);
  for (let k = 1; k < length; k++) state.alsoInsert(row[place + k]!);
  return true;
}

function batchesExchanged(state: State, rng: Rng): boolean {
  const { pool } = state;
  const [x, y] = [state.batchOf[anyJob(state, rng)]!, state.batchOf[anyJob(state, rng)]!];
  if (x === y) return false;
  const [mx, my] = [state.machineOf[x]!, state.machineOf[y]!];
  if (mx !== my && !(pool.mayGoOn(x, my) && pool.mayGoOn(y, mx))) return false;
  state.edit(mx, state.placeOf[x]!, 1, y);
  state.edit(my, state.placeOf[y]!, 1, x);
  return true;
}

/** Some neighbouring batches in the opposite order. */
function blockTurned(state: State, rng: Rng): boolean {
  const batch = state.batchOf[anyJob(state, rng)]!;
  const [machine, place] = [state.machineOf[batch]!, state.placeOf[batch]!];
  const length = 3 + rng.below(4);
  if (place + length > state.length[machine]!) return false;
  const row = state.rows[machine]!;
  state.edit(machine, place, length, row[place + length - 1]!);
  for (let k = length - 2; k >= 0; k--) state.alsoInsert(row[place + k]!);
  return true;
}
