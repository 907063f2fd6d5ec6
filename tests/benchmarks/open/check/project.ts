import type { ProjectData, ProjectSchedule } from '../instances.js';
import type { Verdict } from './verdict.js';

/** Judges a project schedule by the definition of its problem; uses are added up at every instant at which something begins. */
export function checkProject(data: ProjectData, { starts, modes }: ProjectSchedule): Verdict {
  const faults: string[] = [];
  const { activities, precedences, lags, renewables, nonrenewables } = data;
  if (starts.length !== activities.length || modes.length !== activities.length) {
    return { value: Number.NaN, faults: ['not every activity has a start and a mode'] };
  }
  const chosen = activities.map((list, j) => list[modes[j]!]);
  if (chosen.some((mode) => mode === undefined)) return { value: Number.NaN, faults: ['an unknown mode'] };
  const mode = (j: number) => chosen[j]!;
  starts.forEach((start, j) => {
    if (!Number.isInteger(start) || start < 0) faults.push(`activity ${j} starts at ${start}`);
  });
  for (const { from, to } of precedences) {
    if (starts[to]! < starts[from]! + mode(from).duration) faults.push(`activity ${to} starts before ${from} ends`);
  }
  for (const { from, to, lag } of lags) {
    if (starts[to]! < starts[from]! + lag) faults.push(`activity ${to} starts less than ${lag} after ${from}`);
  }
  for (const time of new Set(starts)) {
    const running = activities
      .map((_, j) => j)
      .filter((j) => starts[j]! <= time && time < starts[j]! + mode(j).duration);
    renewables.forEach((capacity, k) => {
      const used = running.reduce((sum, j) => sum + mode(j).uses[k]!, 0);
      if (used > capacity) faults.push(`at ${time} resource ${k} is used ${used} times, there are ${capacity}`);
    });
  }
  nonrenewables.forEach((stock, k) => {
    const used = chosen.reduce((sum, one) => sum + one!.consumes[k]!, 0);
    if (used > stock) faults.push(`of nonrenewable resource ${k} ${used} are used, there are ${stock}`);
  });
  return { value: starts.at(-1)!, faults };
}

/** The longest path from source to sink by precedences alone, each activity in its shortest mode. */
export function criticalPath({ activities, precedences }: ProjectData): number {
  const earliest = activities.map(() => 0);
  // As often as there are activities is enough, whatever the order of the arcs.
  for (let round = 0, moved = true; moved && round <= activities.length; round++) {
    moved = false;
    for (const { from, to } of precedences) {
      const end = earliest[from]! + Math.min(...activities[from]!.map(({ duration }) => duration));
      if (earliest[to]! >= end) continue;
      earliest[to] = end;
      moved = true;
    }
  }
  return earliest.at(-1)!;
}
