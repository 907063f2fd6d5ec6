/** Claims on appliances with heat runs: one state at a time, and what stands together must find room. */
import type { Activity, Machine, Model } from '../../kernel/model.js';
import { transitionTime } from '../../kernel/model.js';
import { arrangement } from '../../kitchen/arrange.js';
import { shelvesOf } from '../../kitchen/surface-of.js';
import type { Load, Problem } from '../../problem/problem.js';
import { type Claim, during, type Pool } from './claim.js';

/** Loads of one activity in one mode of the appliance. */
interface Loads {
  readonly load: Load;
  readonly count: number;
}

/** One pool for each machine that some activity cannot do without. */
export function machinePools(problem: Problem, model: Model): Pool[] {
  return model.machines.map((machine, m) => {
    const bound = model.activities.filter((activity) => activity.modes.every((mode) => mode.machine === m));
    return machinePool(problem, machine, bound);
  });
}

function machinePool(problem: Problem, machine: Machine, bound: readonly Activity[]): Pool {
  const states = new Map(
    bound.map((one) => [one.id, new Set(one.modes.flatMap((mode) => mode.settings.map((s) => s.state)))]),
  );
  const stand = new Map<string, boolean>();
  const activityOf = new Map(bound.map((one) => [one.id, one]));

  /** Whether it is proven that these cannot stand together in the states that all of them allow. */
  const crowded = (set: readonly Claim[], common: readonly number[]): boolean => {
    const programs = [...new Set(common.map((s) => machine.states[s]!.program))];
    return programs.every((program) => {
      const key = `${program}:${set.map((claim) => claim.activity).sort((a, b) => a - b)}`;
      let fits = stand.get(key);
      if (fits === undefined) {
        const loads = set.map((claim) => loadsOf(problem, machine, activityOf.get(claim.activity)!, program));
        fits = !misfits(problem, activityOf.get(set[0]!.activity)!, program, loads);
        stand.set(key, fits);
      }
      return !fits;
    });
  };
  const clash = (set: readonly Claim[]): boolean => {
    const [first, ...others] = set.map((claim) => states.get(claim.activity)!);
    const common = [...first!].filter((state) => others.every((other) => other.has(state)));
    return common.length === 0 || crowded(set, common);
  };
  const apart = (before: Claim, after: Claim): number => {
    let least = Number.POSITIVE_INFINITY;
    for (const a of states.get(before.activity)!) {
      for (const b of states.get(after.activity)!) least = Math.min(least, transitionTime(machine, a, b));
    }
    return least;
  };
  return { claims: bound.map((one) => during(one.id)), clash, monotone: true, spaced: true, apart };
}

/** What an activity puts there in a program; null where it has a choice, or puts nothing. */
function loadsOf(problem: Problem, machine: Machine, activity: Activity, program: number): Loads | null {
  const found = new Map<string, Loads>();
  for (const [index, mode] of activity.modes.entries()) {
    if (machine.states[mode.settings[0]!.state]!.program !== program) continue;
    const { load } = problem.steps[activity.id]!.options[index]!;
    if (mode.load < 0 || load === null) return null;
    found.set(`${mode.load} ${mode.loads}`, { load, count: mode.loads });
  }
  return found.size === 1 ? [...found.values()][0]! : null;
}

function misfits(problem: Problem, activity: Activity, program: number, loads: readonly (Loads | null)[]): boolean {
  const place = problem.steps[activity.id]!.options.map((option) => option.place).find((one) => one.kind === 'heated');
  if (place === undefined) return false;
  const appliance = problem.kitchen.appliances[place.appliance]!;
  const standings = loads.flatMap((one) =>
    one === null ? [] : Array.from({ length: one.count }, () => ({ ...one.load, start: 0, end: 1, fixed: null })),
  );
  const found = arrangement(shelvesOf(appliance, appliance.modes[program]!), standings);
  return found.placed === null && found.proof;
}
