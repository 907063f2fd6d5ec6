/** Claims on appliances with heat runs: one state at a time, and what stands together must find room. */
import type { Activity, Machine, Model } from '../../kernel/model.js';
import { transitionTime } from '../../kernel/model.js';
import { arrangement } from '../../kitchen/arrange.js';
import { shelvesOf } from '../../kitchen/surface-of.js';
import type { Kitchen, Load, Option } from '../../problem/problem.js';
import { type Claim, during, type Pool } from './claim.js';

/** Sets that are not settled with so much are taken to fit. */
const FIT_NODES = 3000;

/** Loads of one activity in one mode of the appliance. */
interface Loads {
  readonly load: Load;
  readonly count: number;
}

/** The kitchen, and the options that an activity's modes stand for, one for each. */
export interface Scene {
  readonly kitchen: Kitchen;
  readonly options: (activity: number) => readonly Option[];
}

/** One pool for each machine that some activity cannot do without. */
export function machinePools(scene: Scene, model: Model): Pool[] {
  return model.machines.map((machine, m) => {
    const bound = model.activities.filter((activity) => activity.modes.every((mode) => mode.machine === m));
    return machinePool(scene, machine, bound);
  });
}

function machinePool(scene: Scene, machine: Machine, bound: readonly Activity[]): Pool {
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
        const loads = set.map((claim) => loadsOf(scene, machine, activityOf.get(claim.activity)!, program));
        fits = !misfits(scene, activityOf.get(set[0]!.activity)!, program, loads);
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
  return { claims: bound.map((one) => during(one.id)), clash, narrow: null, spaced: true, apart };
}

/** What an activity puts there in a program; null where it has a choice, or puts nothing. */
function loadsOf(scene: Scene, machine: Machine, activity: Activity, program: number): Loads | null {
  const found = new Map<string, Loads>();
  for (const [index, mode] of activity.modes.entries()) {
    if (machine.states[mode.settings[0]!.state]!.program !== program) continue;
    const { load } = scene.options(activity.id)[index]!;
    if (mode.load < 0 || load === null) return null;
    found.set(`${mode.load} ${mode.loads}`, { load, count: mode.loads });
  }
  return found.size === 1 ? [...found.values()][0]! : null;
}

function misfits(scene: Scene, activity: Activity, program: number, loads: readonly (Loads | null)[]): boolean {
  const place = scene
    .options(activity.id)
    .map((option) => option.place)
    .find((one) => one.kind === 'heated');
  if (place === undefined) return false;
  const appliance = scene.kitchen.appliances[place.appliance]!;
  const standings = loads.flatMap((one) =>
    one === null ? [] : Array.from({ length: one.count }, () => ({ ...one.load, start: 0, end: 1, fixed: null })),
  );
  const found = arrangement(shelvesOf(appliance, appliance.modes[program]!), standings, FIT_NODES);
  return found.placed === null && found.proof;
}
