/**
 * What no schedule can cost less than: each attribute's runs, setups and jobs that are tardy in any case, each at its least. The relaxation of
 * sizes (filling batches from the longest job on, jobs may be torn) is that of F. Da Ros, M.-L. Lackner, N. Musliu, Theoretical lower bounds
 * for the oven scheduling problem, arXiv 2410.01368, sharpened by dual feasible functions of sizes (S. P. Fekete, J. Schepers, New classes of
 * fast lower bounds for bin packing problems, Mathematical Programming 91, 2001).
 */
import type { Tables } from './tables.js';

/** Infinity where some job can be on no machine. */
export function lowerBound(tables: Tables): number {
  if (tables.machinesOf.some((machines) => machines.length === 0)) return Number.POSITIVE_INFINITY;
  let sum = 0;
  for (let a = 0; a < tables.attributes; a++) {
    const jobs = Array.from(tables.jobsOf[a]!);
    if (jobs.length === 0) continue;
    sum += tables.runPrice * least(tables, jobs, (j) => tables.shortest[j]!);
    sum += leastSetups(tables, a, Math.ceil(least(tables, jobs, () => 1) - 1e-9));
  }
  for (let j = 0; j < tables.jobs; j++) if (isTardyAlways(tables, j)) sum += tables.tardyPrice;
  return sum;
}

/** The least sum over batches of the largest `weight` of their jobs: with shortest times that of the runs, with ones that of batches. */
function least(tables: Tables, jobs: readonly number[], weight: (job: number) => number): number {
  const together = Math.max(bySizes(tables, jobs, weight), byLongest(tables, jobs, weight));
  // Jobs of one machine only, and those of all the others that have but one, never meet.
  let apart = 0;
  for (let m = 0; m < tables.machines; m++) {
    const own = jobs.filter((j) => tables.machinesOf[j]!.length === 1 && tables.machinesOf[j]![0] === m);
    if (own.length > 0) apart += Math.max(bySizes(tables, own, weight), byLongest(tables, own, weight));
  }
  return Math.max(together, apart);
}

/** Jobs may be torn, their sizes are seen through each dual feasible function; the largest weights fill the first batches. */
function bySizes(tables: Tables, jobs: readonly number[], weight: (job: number) => number): number {
  const room = Math.max(...jobs.flatMap((j) => Array.from(tables.machinesOf[j]!, (m) => tables.capacity[m]!)));
  if (room <= 0) return Math.max(...jobs.map(weight));
  const order = [...jobs].sort((x, y) => weight(y) - weight(x));
  let most = 0;
  for (const small of new Set([0, ...jobs.map((j) => tables.size[j]!).filter((size) => 2 * size <= room)])) {
    let [left, sum] = [0, 0];
    for (const j of order) {
      const size = tables.size[j]!;
      // Who leaves less room than the smallest that count has the batch alone; who is smaller does not count.
      let seen = size > room - small ? room : size < small ? 0 : size;
      while (seen > left) {
        seen -= left;
        left = room;
        sum += weight(j);
      }
      left -= seen;
    }
    most = Math.max(most, sum);
  }
  return most;
}

/** Batches as large as one likes; but none runs longer than any of its jobs may. */
function byLongest(tables: Tables, jobs: readonly number[], weight: (job: number) => number): number {
  // Each batch runs for some job's shortest time. In order of these times, `least[k]`: all jobs that may not run beyond time k have a batch.
  const order = [...jobs].sort((x, y) => tables.shortest[x]! - tables.shortest[y]!);
  const times = [...new Set(order.map((j) => tables.shortest[j]!))];
  const costs = times.map((time) => Math.min(...jobs.filter((j) => tables.shortest[j] === time).map(weight)));
  const sums: number[] = [];
  const missed = (after: number, before: number): boolean =>
    jobs.some((j) => tables.shortest[j]! > after && tables.longest[j]! < before);
  times.forEach((time, k) => {
    let cheapest = missed(-1, time) ? Number.POSITIVE_INFINITY : 0;
    for (let i = 0; i < k; i++) {
      if (sums[i]! < cheapest && !missed(times[i]!, time)) cheapest = sums[i]!;
    }
    sums.push(cheapest + costs[k]!);
  });
  return sums.at(-1)!;
}

/** Every batch follows something; where no machine is set to the attribute at first, one of them follows another attribute. */
function leastSetups(tables: Tables, attribute: number, batches: number): number {
  const { attributes, setupPrice, initial } = tables;
  const befores = Array.from({ length: attributes }, (_, b) => b).filter(
    (b) => tables.jobsOf[b]!.length > 0 || initial.includes(b),
  );
  const price = (b: number): number => setupPrice[b * attributes + attribute]!;
  const cheapest = Math.min(...befores.map(price));
  const others = befores.filter((b) => b !== attribute);
  const entry = initial.includes(attribute) || others.length === 0 ? cheapest : Math.min(...others.map(price));
  return entry + (batches - 1) * cheapest;
}

function isTardyAlways(tables: Tables, job: number): boolean {
  return Array.from(tables.machinesOf[job]!).every(
    (m) => tables.earliestEnd[job * tables.machines + m]! > tables.due[job]!,
  );
}
