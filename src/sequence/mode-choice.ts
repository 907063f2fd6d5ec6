import type { Rng } from '../kernel/rng.js';
import type { Project, ProjectMode } from './project.js';

/** The project without what can never be used, and for each activity the old indices of the modes that are left. */
export interface Reduced {
  readonly project: Project;
  readonly kept: readonly (readonly number[])[];
}

/**
 * Modes fall away that use more of a renewable than there is, or more of a nonrenewable than all others leave at their least; and so
 * on until none does (A. Sprecher, S. Hartmann, A. Drexl, An exact algorithm for project scheduling with multiple modes, OR Spektrum 19, 1997). Null: an
 * activity has none left.
 */
export function withoutUseless(project: Project): Reduced | null {
  const { renewables, nonrenewables } = project;
  const fits = ({ uses }: ProjectMode): boolean => uses.every((use, k) => use <= renewables[k]!);
  let kept = project.activities.map((modes) => modes.flatMap((mode, m) => (fits(mode) ? [m] : [])));
  for (let many = -1; ; ) {
    if (kept.some((list) => list.length === 0)) return null;
    const now = kept.reduce((sum, list) => sum + list.length, 0);
    if (now === many) break;
    many = now;
    const least = nonrenewables.map((_, k) =>
      kept.map((list, j) => Math.min(...list.map((m) => project.activities[j]![m]!.consumes[k]!))),
    );
    const spare = nonrenewables.map((stock, k) => stock - least[k]!.reduce((sum, one) => sum + one, 0));
    kept = kept.map((list, j) =>
      list.filter((m) => project.activities[j]![m]!.consumes.every((amount, k) => amount - least[k]![j]! <= spare[k]!)),
    );
  }
  const activities = kept.map((list, j) => list.map((m) => project.activities[j]![m]!));
  return { project: { ...project, activities }, kept };
}

/** A mode for each activity, and what they consume together. */
export class ModeChoice {
  readonly modes: Int32Array;
  /** Beyond the nonrenewables; 0: feasible. */
  excess = 0;
  private readonly over: Int32Array;
  /** Activities that have more than one mode. */
  private readonly free: Int32Array;

  constructor(private readonly project: Project) {
    this.modes = new Int32Array(project.activities.length);
    this.over = new Int32Array(project.nonrenewables.length);
    this.free = Int32Array.from(project.activities.flatMap((modes, j) => (modes.length > 1 ? [j] : [])));
  }

  /** Whether there is anything to choose. */
  get trivial(): boolean {
    return this.free.length === 0 && this.excess === 0;
  }

  set(modes: Int32Array): void {
    this.modes.set(modes);
    this.over.forEach((_, k) => {
      this.over[k] = -this.project.nonrenewables[k]!;
    });
    this.modes.forEach((m, j) => {
      this.project.activities[j]![m]!.consumes.forEach((amount, k) => {
        this.over[k]! += amount;
      });
    });
    this.excess = this.over.reduce((sum, over) => sum + Math.max(0, over), 0);
  }

  /** What the excess would be. */
  excessWith(j: number, mode: number): number {
    const all = this.project.activities[j]!;
    const [was, is] = [all[this.modes[j]!]!.consumes, all[mode]!.consumes];
    let excess = 0;
    for (let k = 0; k < this.over.length; k++) {
      const over = this.over[k]! + is[k]! - was[k]!;
      if (over > 0) excess += over;
    }
    return excess;
  }

  change(j: number, mode: number): void {
    const all = this.project.activities[j]!;
    const [was, is] = [all[this.modes[j]!]!.consumes, all[mode]!.consumes];
    this.excess = this.excessWith(j, mode);
    for (let k = 0; k < this.over.length; k++) this.over[k]! += is[k]! - was[k]!;
    this.modes[j] = mode;
  }

  /** Another mode for some activities, `expected` of them on average. */
  mutate(expected: number, rng: Rng): void {
    const chance = expected / Math.max(1, this.free.length);
    for (const j of this.free) if (rng.real() < chance) this.change(j, rng.below(this.project.activities[j]!.length));
  }

  /** Random changes that add nothing to the excess, until there is none or patience is at an end. */
  repair(rng: Rng): void {
    const { free } = this;
    for (let left = 8 * free.length; left > 0 && this.excess > 0; left--) {
      const j = free[rng.below(free.length)]!;
      const mode = rng.below(this.project.activities[j]!.length);
      if (mode !== this.modes[j] && this.excessWith(j, mode) <= this.excess) this.change(j, mode);
    }
  }
}
