import { Rng } from '../kernel/rng.js';
import { lowerBound } from './bounds.js';
import { Generation } from './generation.js';
import { ModeChoice, withoutUseless } from './mode-choice.js';
import { type Project, pathsOf } from './project.js';
import { type Parent, Recombination } from './recombine.js';
import { Sampler } from './sampling.js';

export interface Sequenced {
  /** Null: none was found. */
  readonly best: { readonly starts: Int32Array; readonly modes: Int32Array; readonly makespan: number } | null;
  /** No makespan is less. Infinity: there is no schedule. */
  readonly lower: number;
  /** Schedules made: passes of schedule generation, those of justification too. */
  readonly made: number;
}

interface Member extends Parent {
  /** Of its starts and modes: equal ones are taken for the same schedule. */
  readonly hash: number;
  /** Beyond the nonrenewables; such a one has no schedule. */
  readonly excess: number;
}

/** Expected number of activities that move in a child's list, and of those that change their mode. */
const SHIFTS = 3;
const MODE_CHANGES = 2;
/** How often the last pass takes the modes that end first: always would keep slow modes of few resources out. */
const CHOOSING = 0.2;
/** Parents are the better of so many, who has to go the worst of so many. */
const RIVALS = 2;
const DOOMED = 4;
/** So many children for each member without a better best one: all anew. */
const PATIENCE = 30;

/** Least, schedules for each, and most by size. */
const MEMBERS = { least: 40, schedules: 100, bySize: 1.6 } as const;

/**
 * A short makespan by a population of activity lists: peak and two-point crossover, moves of activities, double justification of every child (V. Valls, F.
 * Ballestín, S. Quintanilla, EJOR 165(2), 2005), one child at a time; started anew where it stands still. With several modes each has
 * a vector of modes beside its list, repaired where it consumes too much, and at times the last pass of justification takes the modes that end
 * first (A. Lova et al., International Journal of Production Economics 117, 2009). At most about `schedules` are made, fewer where the bound is met.
 */
export function sequence(project: Project, { schedules, seed }: { schedules: number; seed: number }): Sequenced {
  const reduced = withoutUseless(project);
  if (reduced === null) return { best: null, lower: Number.POSITIVE_INFINITY, made: 0 };
  const { best, lower, made } = new Population(reduced.project, new Rng(seed)).run(schedules);
  if (best === null) return { best, lower, made };
  const modes = best.modes.map((m, j) => reduced.kept[j]![m]!);
  return { best: { starts: best.starts, modes, makespan: best.makespan }, lower, made };
}

class Population {
  private readonly generation: Generation;
  private readonly choice: ModeChoice;
  private readonly sampler: Sampler;
  private readonly recombination: Recombination;
  private readonly keys: Float64Array;
  private readonly salt: Int32Array;
  private readonly lower: number;
  private best: Member | null = null;
  private budget = 0;

  constructor(
    private readonly project: Project,
    private readonly rng: Rng,
  ) {
    this.generation = new Generation(project);
    const { network, size } = this.generation;
    this.choice = new ModeChoice(project);
    this.choice.set(this.generation.modes);
    this.sampler = new Sampler(network);
    const horizon = project.activities.reduce(
      (sum, modes) => sum + Math.max(...modes.map(({ minutes }) => minutes)),
      0,
    );
    const lags = project.lags.reduce((sum, { low }) => sum + low, 0);
    this.recombination = new Recombination(project, network, rng, horizon + lags);
    this.keys = Float64Array.from(pathsOf(network, this.generation.minutes).tails);
    this.salt = Int32Array.from({ length: size }, () => rng.bits() | 1);
    this.lower = lowerBound(project, network);
  }

  run(schedules: number): Sequenced {
    this.budget = schedules;
    const { least, schedules: each, bySize } = MEMBERS;
    const size = Math.floor(Math.max(least, Math.min(schedules / each, bySize * this.generation.size)));
    while (this.goesOn()) this.epoch(size);
    return { best: this.best, lower: this.lower, made: this.generation.made };
  }

  private goesOn(): boolean {
    return this.generation.made < this.budget && (this.best === null || this.best.makespan > this.lower);
  }

  /** From a new population until nothing comes of it. */
  private epoch(size: number): void {
    const members = this.founders(size);
    const known = new Set(members.map(({ hash }) => hash));
    let lead = members.reduce((a, b) => (isBetter(b, a) ? b : a), members[0]!);
    for (let stale = 0; stale < PATIENCE * size && this.goesOn(); stale++) {
      const child = this.childOf(this.rival(members), this.rival(members));
      if (known.has(child.hash)) continue;
      const at = this.doomed(members);
      if (isBetter(members[at]!, child)) continue;
      known.delete(members[at]!.hash);
      known.add(child.hash);
      members[at] = child;
      if (!isBetter(child, lead)) continue;
      lead = child;
      stale = 0;
    }
  }

  private founders(size: number): Member[] {
    const members: Member[] = [];
    const list = new Int32Array(this.generation.size);
    do {
      this.sampler.draw(this.keys, this.rng, list);
      if (!this.choice.trivial) {
        this.choice.set(Int32Array.from(this.project.activities, (modes) => this.rng.below(modes.length)));
        this.choice.repair(this.rng);
      }
      members.push(this.grown(list));
    } while (members.length < size && this.goesOn());
    return members;
  }

  private rival(members: readonly Member[]): Member {
    let best = members[this.rng.below(members.length)]!;
    for (let k = 1; k < RIVALS; k++) {
      const other = members[this.rng.below(members.length)]!;
      if (isBetter(other, best)) best = other;
    }
    return best;
  }

  private doomed(members: readonly Member[]): number {
    let worst = this.rng.below(members.length);
    for (let k = 1; k < DOOMED; k++) {
      const other = this.rng.below(members.length);
      if (isBetter(members[worst]!, members[other]!)) worst = other;
    }
    return worst;
  }

  private childOf(one: Member, other: Member): Member {
    const { recombination, choice, rng } = this;
    if (one === other) recombination.copy(one);
    else if (one.excess === 0 && other.excess === 0 && rng.real() < 0.5) recombination.peak(one, other);
    else recombination.twoPoint(one, other);
    recombination.shift(SHIFTS);
    if (!choice.trivial) {
      choice.set(one.modes.map((mode, j) => (recombination.second[j] ? other.modes[j]! : mode)));
      choice.mutate(MODE_CHANGES, rng);
      choice.repair(rng);
    }
    return this.grown(recombination.child);
  }

  /** The list, in the modes chosen, as a schedule justified to the right and to the left. */
  private grown(source: Int32Array): Member {
    const { generation, choice } = this;
    const list = source.slice();
    const starts = new Int32Array(generation.size);
    if (choice.excess > 0) {
      generation.made++;
      const { excess } = choice;
      const modes = choice.modes.slice();
      return { list, starts, modes, makespan: Number.POSITIVE_INFINITY, excess, hash: this.hashOf(starts, modes) };
    }
    if (!choice.trivial) for (let j = 0; j < generation.size; j++) generation.setMode(j, choice.modes[j]!);
    let makespan = generation.forwards(list, starts);
    generation.byEnd(starts, makespan, list);
    makespan = generation.backwards(list, starts);
    generation.byStart(starts, list);
    makespan =
      choice.trivial || this.rng.real() >= CHOOSING
        ? generation.forwards(list, starts)
        : generation.forwardsChoosing(list, starts, choice);
    generation.inOrder(starts, list);
    const modes = generation.modes.slice();
    const member = { list, starts, modes, makespan, excess: 0, hash: this.hashOf(starts, modes) };
    if (this.best === null || makespan < this.best.makespan) this.best = member;
    return member;
  }

  private hashOf(starts: Int32Array, modes: Int32Array): number {
    let hash = 0;
    for (let j = 0; j < starts.length; j++)
      hash = (Math.imul(hash, 31) + Math.imul(this.salt[j]!, starts[j]! * 8 + modes[j]!)) | 0;
    return hash;
  }
}

const isBetter = (a: Member, b: Member): boolean =>
  a.excess < b.excess || (a.excess === b.excess && a.makespan < b.makespan);
