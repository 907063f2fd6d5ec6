/** First schedules: one job after the other where it costs least. */
import type { State } from './state.js';

/** Builds a schedule in a state, with the jobs in an order given. Each job has a machine that it can be on. */
export function construct(state: State, order: readonly number[]): void {
  const { tables, pool } = state;
  state.load([]);
  for (const job of order) {
    let best = Number.POSITIVE_INFINITY;
    let [batch, machine, place] = [-1, -1, -1];
    const seen = new Set<number>();
    for (const other of tables.jobsOf[tables.attribute[job]!]!) {
      const slot = state.batchOf[other]!;
      if (slot < 0 || seen.has(slot)) continue;
      seen.add(slot);
      if (!pool.takes(slot, job, state.machineOf[slot]!)) continue;
      join(state, slot, job);
      const price = state.priceOf(best);
      state.reject();
      if (price < best) [best, batch] = [price, slot];
    }
    for (const m of tables.machinesOf[job]!) {
      for (let at = 0; at <= state.length[m]!; at++) {
        open(state, m, at, job);
        const price = state.priceOf(best);
        state.reject();
        if (price < best) [best, batch, machine, place] = [price, -1, m, at];
      }
    }
    if (batch >= 0) join(state, batch, job);
    else open(state, machine, place, job);
    state.cost += state.priceOf(best);
    state.commit();
  }
}

function join(state: State, slot: number, job: number): void {
  state.begin();
  state.edit(state.machineOf[slot]!, state.placeOf[slot]!, 1, state.makeFrom(slot, -1, job));
  state.dissolve(slot);
}

function open(state: State, machine: number, place: number, job: number): void {
  state.begin();
  const slot = state.make();
  state.pool.add(slot, job);
  state.edit(machine, place, 0, slot);
}
