import type { OvenData, OvenSchedule } from '../instances.js';
import type { Verdict } from './verdict.js';

/** Judges batches on ovens by the definition of their problem, batch by batch and oven by oven. */
export function checkOvens(data: OvenData, schedule: OvenSchedule): Verdict {
  const faults: string[] = [];
  const { weights } = data;
  const times = Array.from({ length: data.jobs.length }, () => 0);
  let value = 0;
  for (const { machine, jobs, start, end } of schedule) {
    const name = `the batch of jobs ${jobs.join(', ')}`;
    const own = jobs.flatMap((j) => data.jobs[j] ?? []);
    const oven = data.ovens[machine];
    if (oven === undefined || own.length !== jobs.length || own.length === 0) {
      faults.push(`${name} has no jobs, or jobs or an oven that are not there`);
      continue;
    }
    for (const j of jobs) times[j]!++;
    const run = Math.max(...own.map(({ shortest }) => shortest));
    if (!Number.isInteger(start) || end - start !== run)
      faults.push(`${name} runs from ${start} to ${end}, not ${run}`);
    if (own.some(({ attribute }) => attribute !== own[0]!.attribute)) faults.push(`${name} has several attributes`);
    if (own.some(({ longest }) => longest < run)) faults.push(`${name} runs ${run}, too long for one of them`);
    if (own.some(({ release }) => release > start)) faults.push(`${name} starts at ${start}, before one is released`);
    if (!own.every(({ ovens }) => ovens.includes(machine)))
      faults.push(`${name} has a job not meant for oven ${machine}`);
    const size = own.reduce((sum, job) => sum + job.size, 0);
    if (size > oven.capacity) faults.push(`${name} takes up ${size} of ${oven.capacity}`);
    if (end > data.horizon) faults.push(`${name} ends at ${end}, after the horizon`);
    value += weights.run * run + weights.tardy * own.filter(({ due }) => end > due).length;
  }
  times.forEach((count, j) => {
    if (count !== 1) faults.push(`job ${j} is in ${count} batches`);
  });
  data.ovens.forEach((oven, m) => {
    let [attribute, free] = [oven.initial, 0];
    const own = schedule.filter(({ machine, jobs }) => machine === m && data.jobs[jobs[0]!] !== undefined);
    for (const { jobs, start, end } of [...own].sort((x, y) => x.start - y.start || x.end - y.end)) {
      const next = data.jobs[jobs[0]!]!.attribute;
      const setup = data.setupTimes[attribute]![next]!;
      if (start - setup < free) faults.push(`on oven ${m}, ${start} is too early: ${free} and ${setup} to set it up`);
      if (!oven.intervals.some(({ from, to }) => from <= start - setup && end <= to)) {
        faults.push(`on oven ${m}, ${start - setup} to ${end} lies in no interval`);
      }
      value += weights.setupTime * setup + weights.setupCost * data.setupCosts[attribute]![next]!;
      [attribute, free] = [next, end];
    }
  });
  return { value, faults };
}
