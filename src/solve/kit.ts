/** The kitchen's appliances, burners, boards and pans as machines, units and renewables of the scheduling model. */
import type { Machine, Renewable, StandingLoad } from '../kernel/model.js';
import { arrange, type Placed } from '../kitchen/arrange.js';
import { goesBeside, type Stood } from '../kitchen/beside.js';
import { shelvesOf } from '../kitchen/surface-of.js';
import { dialSettings } from '../problem/heat.js';
import type { Hold, Load, Problem } from '../problem/problem.js';

/** Rare crowded sets are given up early; all that is usual is settled with far less. */
const FIT_NODES = 20_000;

interface HeatState {
  /** Index of the appliance's mode. */
  readonly program: number;
  /** °C. */
  readonly level: number;
}

export class Kit {
  /** Machine of each appliance; -1 for cooktops. */
  readonly machineOf: readonly number[];
  /** Appliance of each machine. */
  readonly applianceOf: readonly number[];
  readonly machines: readonly Machine[];
  /** Every burner of the kitchen. */
  readonly units: readonly { readonly appliance: number; readonly burner: number }[];
  /** Boards first, then the pans. */
  readonly renewables: readonly Renewable[];
  readonly boards = 0;
  private readonly states: HeatState[][];
  private readonly loads: Load[] = [];
  private readonly kept: (readonly Placed[])[] = [];
  private readonly layouts: Map<string, readonly Placed[] | null>[];

  constructor(private readonly problem: Problem) {
    const { appliances, boards, pans } = problem.kitchen;
    const heated = appliances.map((_, a) => a).filter((a) => appliances[a]!.surface.kind !== 'burners');
    this.applianceOf = heated;
    this.machineOf = appliances.map((_, a) => heated.indexOf(a));
    this.states = heated.map((a) => heatStates(problem, a));
    this.layouts = heated.map(() => new Map());
    this.machines = heated.map((_, m) => this.machine(m));
    this.units = appliances.flatMap((appliance, a) =>
      appliance.surface.kind === 'burners'
        ? appliance.surface.burners.map((_, burner) => ({ appliance: a, burner }))
        : [],
    );
    this.renewables = [{ capacity: boards, tail: 0 }, ...pans.map((pan) => ({ capacity: pan.count, tail: pan.wash }))];
  }

  stateOf(machine: number, program: number, celsius: number): number {
    return this.states[machine]!.findIndex((s) => s.program === program && s.level === celsius);
  }

  unitOf(appliance: number, burner: number): number {
    return this.units.findIndex((u) => u.appliance === appliance && u.burner === burner);
  }

  panOf(pan: number): number {
    return 1 + pan;
  }

  /** Index of a kind of load; equal loads share it. */
  loadOf(load: Load): number {
    const key = JSON.stringify(load);
    const known = this.loads.findIndex((l) => JSON.stringify(l) === key);
    return known >= 0 ? known : this.loads.push(load) - 1;
  }

  /** Index for `StandingLoad.spot`: where loads stand already. */
  keep(placed: readonly Placed[]): number {
    return this.kept.push(placed) - 1;
  }

  private machine(m: number): Machine {
    const appliance = this.problem.kitchen.appliances[this.applianceOf[m]!]!;
    const states = this.states[m]!;
    const n = states.length;
    const transition = new Int32Array((n + 1) * (n + 1));
    for (let from = 0; from <= n; from++) {
      const low = from === n ? this.problem.kitchen.room : states[from]!.level;
      for (let to = 0; to < n; to++) {
        const rise = states[to]!.level - low;
        transition[from * (n + 1) + to] = Math.ceil(
          (rise >= 0 ? rise / appliance.heats : -rise / appliance.cools) - 1e-9,
        );
      }
    }
    const { runs, idle } = this.problem.rates;
    return { states, transition, runCost: runs, idleCost: idle, fits: (loads) => this.layout(m, loads) !== null };
  }

  /** Levels and spots, load by load (`count` of each in turn); null where they do not fit together. */
  layout(m: number, loads: readonly StandingLoad[]): Placed[][] | null {
    const placed: Placed[][] = loads.map(() => []);
    for (const group of groupsInTime(loads)) {
      const found = this.layoutGroup(m, loads, group);
      if (found === null) return null;
      let at = 0;
      for (const i of group) for (let k = 0; k < loads[i]!.count; k++) placed[i]!.push(found[at++]!);
    }
    return placed;
  }

  /**
   * As `layout`, where `wishes` says which spots would be liked (indices from `keep`; -1: any): those are had, in order of time, as long as
   * what has its spot already leaves room, and all or none where the rest finds no room beside them.
   */
  layoutAs(m: number, loads: readonly StandingLoad[], wishes: readonly number[]): Placed[][] | null {
    const stood: Stood[] = [];
    const order = loads.map((_, i) => i).sort((i, j) => loads[i]!.start - loads[j]!.start || i - j);
    const settle = (i: number, spot: number): boolean => {
      const { load, start, end, program } = loads[i]!;
      const appliance = this.problem.kitchen.appliances[this.applianceOf[m]!]!;
      const shelves = shelvesOf(appliance, appliance.modes[program]!);
      const own = this.kept[spot]!.map((fixed) => ({ ...this.loads[load]!, start, end, fixed }));
      if (loads[i]!.spot === undefined && !own.every((one) => goesBeside(shelves, one, stood))) return false;
      stood.push(...own);
      return true;
    };
    for (const i of order) if (loads[i]!.spot !== undefined) settle(i, loads[i]!.spot!);
    const liked = new Map<number, number>();
    for (const i of order) {
      const spot = wishes[i]!;
      if (loads[i]!.spot === undefined && spot >= 0 && settle(i, spot)) liked.set(i, spot);
    }
    const asLiked = loads.map((load, i) => (liked.has(i) ? { ...load, spot: liked.get(i)! } : load));
    return this.layout(m, asLiked) ?? this.layout(m, loads);
  }

  /** One group that hangs together in time; kept by what overlaps what, since the times themselves do not matter. */
  private layoutGroup(m: number, loads: readonly StandingLoad[], group: readonly number[]): readonly Placed[] | null {
    let key = `${loads[group[0]!]!.program}`;
    for (let i = 0; i < group.length; i++) {
      const one = loads[group[i]!]!;
      key += `;${one.load},${one.count}${one.spot === undefined ? '' : `@${one.spot}`}:`;
      for (let j = 0; j < i; j++) {
        const two = loads[group[j]!]!;
        key += two.start < one.end && one.start < two.end ? '1' : '0';
      }
    }
    const cache = this.layouts[m]!;
    let found = cache.get(key);
    if (found === undefined) {
      const appliance = this.problem.kitchen.appliances[this.applianceOf[m]!]!;
      const shelves = shelvesOf(appliance, appliance.modes[loads[group[0]!]!.program]!);
      const standings = group.flatMap((i) => {
        const { load, count, start, end, spot } = loads[i]!;
        const { footprint, height } = this.loads[load]!;
        const kept = spot === undefined ? [] : this.kept[spot]!;
        return Array.from({ length: count }, (_, k) => ({ footprint, height, start, end, fixed: kept[k] ?? null }));
      });
      found = arrange(shelves, standings, FIT_NODES);
      cache.set(key, found);
    }
    return found;
  }
}

/** Groups that hang together in time; within a group by start, end and kind, so that equal patterns look equal. */
function groupsInTime(loads: readonly StandingLoad[]): number[][] {
  const order = loads.map((_, i) => i);
  order.sort((i, j) => {
    const a = loads[i]!;
    const b = loads[j]!;
    return a.start - b.start || a.end - b.end || a.load - b.load || a.count - b.count || i - j;
  });
  const groups: number[][] = [];
  let until = Number.NEGATIVE_INFINITY;
  for (const i of order) {
    const { start, end } = loads[i]!;
    if (start >= until) groups.push([i]);
    else groups[groups.length - 1]!.push(i);
    until = Math.max(until, end);
  }
  return groups;
}

/** Every mode and temperature that any option of the appliance may use. */
function heatStates(problem: Problem, appliance: number): HeatState[] {
  const found = new Map<string, HeatState>();
  for (const step of problem.steps) {
    for (const { place, settings } of step.options) {
      if (place.kind !== 'heated' || place.appliance !== appliance) continue;
      for (const level of settings) found.set(`${place.mode} ${level}`, { program: place.mode, level });
    }
  }
  for (const { hold } of problem.dishes) {
    if (hold === null) continue;
    problem.kitchen.appliances[appliance]!.modes.forEach((_, program) => {
      for (const level of holdSettings(problem, appliance, program, hold))
        found.set(`${program} ${level}`, { program, level });
    });
  }
  return [...found.values()].sort((a, b) => a.program - b.program || a.level - b.level);
}

/** Temperatures of an appliance's mode in which a dish may be held, °C. */
export function holdSettings(problem: Problem, appliance: number, program: number, hold: Hold): number[] {
  const { dial, modes } = problem.kitchen.appliances[appliance]!;
  const { heat } = modes[program]!;
  const low = Math.max(heat.low, hold.heat.low);
  const high = Math.min(heat.high, hold.heat.high);
  return low > high ? [] : dialSettings(dial, low, high);
}
