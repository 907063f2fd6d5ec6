/**
 * What stands together: every least set of loads that do not fit in at one instant is kept from being in at once. That loads
 * keep their spots for their whole time is not in these rows; where a schedule found breaks it, the overlaps that did so are forbidden
 * and the program is solved again (`apart` in `Standing`).
 */
import type { Machine } from '../../../src/kernel/model.js';
import type { User } from './heat.js';
import { type Literal, not, type Program } from './program.js';
import type { Doing, Times } from './times.js';

/** A load in a machine's program. */
interface Load {
  readonly user: User;
  readonly program: number;
  readonly load: number;
  readonly count: number;
  readonly there: Literal;
}

/** Sets that share one instant and one program, at least one pair of which must be apart in time. */
export interface Clash {
  readonly machine: number;
  /** Pairs of things done (activities, then storages) that overlap. */
  readonly pairs: readonly (readonly [Doing, Doing])[];
}

/** Beyond so many least sets the rest is left to the cuts. */
const MOST_SETS = 20_000;

export class Apartness {
  private readonly known = new Map<string, Literal>();
  private readonly ids = new Map<Doing, number>();

  constructor(private readonly program: Program) {}

  private id(doing: Doing): number {
    const id = this.ids.get(doing) ?? this.ids.size;
    this.ids.set(doing, id);
    return id;
  }

  /** Literals of which one holds where the two are apart in time. */
  apart(one: Doing, two: Doing): Literal[] {
    return [this.before(one, two), this.before(two, one)];
  }

  private before(one: Doing, two: Doing): Literal {
    const key = `${this.id(one)} ${this.id(two)}`;
    let literal = this.known.get(key);
    if (literal === undefined) {
      literal = this.program.bool();
      this.program.atLeast(two.start.copy().plus(one.end, -1), 0, [literal]);
      this.known.set(key, literal);
    }
    return literal;
  }
}

/** Returns false where some sets were left out. */
export function addSurface(times: Times, m: number, users: readonly User[], apartness: Apartness): boolean {
  const { program, model } = times;
  const machine = model.machines[m]!;
  const loads = users.flatMap((user) => loadsOf(program, machine, user));
  let complete = true;
  for (const p of new Set(loads.map((load) => load.program))) {
    const own = loads.filter((load) => load.program === p);
    const sets = leastClashes(machine, own);
    if (sets === null) {
      complete = false;
      continue;
    }
    const pairs = sets.filter((set) => set.length === 2).map((set) => [set[0]!, set[1]!] as const);
    for (const clique of cliques(own.length, pairs)) {
      program.noOverlap(
        clique.map((i) => {
          const { user, there } = own[i]!;
          const { start, minutes, end } = user.doing;
          return program.interval(start, minutes, end, [there]);
        }),
      );
    }
    for (const set of sets.filter((one) => one.length > 2)) {
      const ways = set.map((i) => not(own[i]!.there)).filter((literal) => literal !== program.no);
      set.forEach((i, k) => {
        for (const j of set.slice(0, k)) ways.push(...apartness.apart(own[i]!.user.doing, own[j]!.user.doing));
      });
      program.some(ways);
    }
  }
  return complete;
}

function loadsOf(program: Program, machine: Machine, user: User): Load[] {
  const found = new Map<string, { load: number; count: number; program: number; modes: number[] }>();
  for (const m of user.modes) {
    const { load, loads, settings } = user.doing.modes[m]!;
    if (load < 0) continue;
    const own = machine.states[settings[0]!.state]!.program;
    const key = `${own} ${load} ${loads}`;
    const entry = found.get(key) ?? { load, count: loads, program: own, modes: [] };
    entry.modes.push(m);
    found.set(key, entry);
  }
  return [...found.values()].map(({ modes, ...load }) => {
    const all = modes.length === user.doing.modes.length;
    return { ...load, user, there: all ? user.doing.happens : program.anyOf(modes.map((m) => user.doing.inMode[m]!)) };
  });
}

/** Least sets (rising indices) that do not fit at one instant; null where they are too many. */
function leastClashes(machine: Machine, loads: readonly Load[]): number[][] | null {
  const fits = (set: readonly number[]): boolean =>
    machine.fits(
      set.map((i) => ({ program: loads[i]!.program, load: loads[i]!.load, count: loads[i]!.count, start: 0, end: 1 })),
    );
  const clashes: number[][] = [];
  let layer: number[][] = loads.map((_, i) => [i]);
  while (layer.length > 0) {
    const next: number[][] = [];
    for (const set of layer) {
      for (let i = set.at(-1)! + 1; i < loads.length; i++) {
        // The ways of one and the same thing are never in at once.
        if (set.some((j) => loads[j]!.user.doing === loads[i]!.user.doing)) continue;
        const more = [...set, i];
        if (clashes.some((clash) => clash.every((j) => more.includes(j)))) continue;
        (fits(more) ? next : clashes).push(more);
        if (clashes.length + next.length > MOST_SETS) return null;
      }
    }
    layer = next;
  }
  return clashes;
}

/** Cliques that cover all edges, greedily. */
function cliques(count: number, edges: readonly (readonly [number, number])[]): number[][] {
  const linked = (a: number, b: number): boolean =>
    edges.some(([x, y]) => (x === a && y === b) || (x === b && y === a));
  const left = new Set(edges.map(([a, b]) => `${a} ${b}`));
  const found: number[][] = [];
  for (const [a, b] of edges) {
    if (!left.has(`${a} ${b}`)) continue;
    const clique = [a, b];
    for (let i = 0; i < count; i++) {
      if (!clique.includes(i) && clique.every((j) => linked(i, j))) clique.push(i);
    }
    for (const i of clique) for (const j of clique) left.delete(`${i} ${j}`);
    found.push(clique);
  }
  return found;
}
