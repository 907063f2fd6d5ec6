import type { Rng } from '../kernel/rng.js';
import type { MachineOrders } from './machine-orders.js';

/**
 * A first schedule, by a priority rule: of the operations that may come next the one with most of its job to go, on the machine where it ends
 * first. With a generator what is to go counts for anything from half to one and a half times as much. What stood on the machines goes.
 */
export function construct(orders: MachineOrders, rng: Rng | null): void {
  const { size, modes, before, after } = orders.operations;
  orders.first.fill(-1);
  const rest = new Float64Array(size);
  for (let v = size - 1; v >= 0; v--) {
    const minutes = modes[v]!.reduce((sum, mode) => sum + mode.minutes, 0) / modes[v]!.length;
    rest[v] = minutes + (after[v]! >= 0 ? rest[after[v]!]! : 0);
  }
  if (rng !== null) for (let v = 0; v < size; v++) rest[v]! *= 0.5 + rng.real();
  const open = Array.from({ length: size }, (_, v) => v).filter((v) => before[v]! < 0);
  const last = orders.first.slice();
  const free = new Int32Array(last.length);
  const ends = new Int32Array(size);
  while (open.length > 0) {
    let pick = 0;
    for (let i = 1; i < open.length; i++) if (rest[open[i]!]! > rest[open[pick]!]!) pick = i;
    const v = open.splice(pick, 1)[0]!;
    const ready = before[v]! >= 0 ? ends[before[v]!]! : 0;
    let [mode, end] = [0, Number.POSITIVE_INFINITY];
    modes[v]!.forEach(({ machine, minutes }, m) => {
      const at = Math.max(ready, free[machine]!) + minutes;
      if (at < end) [mode, end] = [m, at];
    });
    const { machine } = modes[v]![mode]!;
    orders.putIn(v, mode, last[machine]!);
    last[machine] = v;
    free[machine] = end;
    ends[v] = end;
    if (after[v]! >= 0) open.push(after[v]!);
  }
  orders.measure();
}
