import type { ShopData, ShopSchedule } from '../instances.js';
import type { Verdict } from './verdict.js';

/** Judges a shop schedule by the definition of its problem, operation by operation and pair by pair. */
export function checkShop({ jobs, machines }: ShopData, schedule: ShopSchedule): Verdict {
  const faults: string[] = [];
  const loads: { start: number; end: number; name: string }[][] = Array.from({ length: machines }, () => []);
  let value = 0;
  jobs.forEach((operations, j) => {
    let free = 0;
    operations.forEach((alternatives, k) => {
      const name = `operation ${k} of job ${j}`;
      const row = schedule[j]?.[k];
      const chosen = alternatives.find(({ machine }) => machine === row?.machine);
      if (row === undefined || chosen === undefined) {
        faults.push(`${name} has no machine that it can use`);
        return;
      }
      const { start } = row;
      const end = start + chosen.duration;
      if (!Number.isInteger(start) || start < free) faults.push(`${name} starts at ${start}, before ${free}`);
      free = end;
      value = Math.max(value, end);
      if (end > start) loads[row.machine]!.push({ start, end, name });
    });
    if ((schedule[j]?.length ?? 0) !== operations.length) faults.push(`job ${j} has a wrong number of operations`);
  });
  loads.forEach((load, machine) => {
    load.sort((a, b) => a.start - b.start);
    load.slice(1).forEach(({ start, name }, i) => {
      const before = load[i]!;
      if (start < before.end) faults.push(`${name} and ${before.name} are on machine ${machine} at once`);
    });
  });
  return { value, faults };
}
