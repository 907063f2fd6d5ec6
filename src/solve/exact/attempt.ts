/**
 * One program of a meal in the engine: neighbourhoods of the best schedule, the whole, and the bound in turn, each for a slice of the work.
 * Neighbourhoods as in P. Laborie, D. Godard, Self-adapting large neighborhood search, MISTA 2007.
 */
import { Engine, type Outcome } from '../../constraint/engine.js';
import { EngineProgram } from '../../constraint/engine-program.js';
import { type Best, Optimiser } from '../../constraint/optimiser.js';
import type { Rng } from '../../kernel/rng.js';
import type { State } from '../../kernel/state.js';
import { AdaptiveChoice } from '../adaptive-choice.js';
import type { Compiled } from '../compile.js';
import { anyJobs, type Destroy, dearest, nearInTime, runTogether, sameNeeds, twoRuns } from '../destroy.js';
import { type Built, build, type Cut } from './build.js';
import { Keeper, type Kind } from './keep.js';
import type { Rooms } from './rooms.js';
import { scheduleOf } from './schedule.js';
import type { Limits } from './times.js';
import { wishesOf } from './wishes.js';

/** Scales tried, the coarsest first: hundredths, the °F in which dials are marked, then finer. */
const SCALES = [100, 900, 3600, 36_000, 180_000, 1_000_000];

/** What one neighbourhood is searched for, in entries of the trail and in failures. */
const NEAR = { work: 300_000, failures: 100 };

/** Work of the first turn of each kind, and by how much the turns grow. */
const SLICE = 20_000;
const LONGER = 1.2;

/** Turns of neighbourhoods are as many times as long. Searches of the whole find as much in their time, and prove. */
const NEAR_SHARE = 0.5;

/** Of so many jobs a neighbourhood is no longer one. */
const MOST_OUT = 0.8;

const NEIGHBOURHOODS: readonly Destroy[] = [anyJobs, nearInTime, runTogether, twoRuns, dearest, sameNeeds];

/** In so many neighbourhoods choices of one kind are open for all jobs. */
const LOOSE = 0.5;
const KINDS = ['hands', 'run'] as const satisfies readonly Kind[];

/** How much a neighbourhood leaves open: jobs taken out of it, on average, and the share of the others whose times may move. */
interface Reach {
  size: number;
  freedom: number;
}

export interface Judge {
  /** The best schedule so far and its points. */
  readonly best: State;
  readonly points: number;
  /** Takes a schedule that costs so much in the program, less than the best; false where the program has to be written anew. */
  take(state: State, cost: number): boolean;
  raise(bound: number): void;
  readonly shouldStop?: (() => boolean) | undefined;
}

export class Attempt {
  private readonly engine = new Engine();
  private readonly built: Built;
  private readonly optimiser: Optimiser;
  private readonly keeper: Keeper;
  private readonly scale: number;
  private readonly choice = new AdaptiveChoice(NEIGHBOURHOODS.length);
  private wishes: readonly number[] = [];
  private harvested: Best | null = null;
  /** Of neighbourhoods in which no choices are open for all jobs, and of those in which one kind is. */
  private readonly plain: Reach = { size: 2, freedom: 0.5 };
  private readonly loose: Record<(typeof KINDS)[number], Reach> = {
    hands: { size: 1, freedom: 0.5 },
    run: { size: 1, freedom: 0.5 },
  };

  constructor(
    private readonly compiled: Compiled,
    rooms: Rooms,
    limits: Limits,
    cuts: readonly Cut[],
    private readonly judge: Judge,
    private readonly rng: Rng,
  ) {
    const program = new EngineProgram(this.engine);
    this.built = build(program, compiled, rooms, limits, cuts);
    const entries = [...program.costs.terms].filter(([, value]) => value !== 0);
    const whole = (scale: number): boolean =>
      entries.every(([, value]) => Math.abs(value * scale - Math.round(value * scale)) < 1e-6);
    this.scale = SCALES.find(whole) ?? SCALES.at(-1)!;
    const terms = entries.map(([v, factor]) => ({
      half: factor > 0 ? 2 * v : 2 * v + 1,
      weight: Math.round(Math.abs(factor) * this.scale),
    }));
    this.optimiser = new Optimiser(this.engine, terms, Math.round(program.costs.constant * this.scale), this.below());
    const { activities } = compiled.model;
    this.keeper = new Keeper(this.built, (thing) =>
      thing < activities.length ? activities[thing]!.job : thing - activities.length,
    );
    this.guide();
  }

  get work(): number {
    return this.engine.work;
  }

  get isProven(): boolean {
    return this.optimiser.isProven;
  }

  private below(): number {
    return Math.ceil(this.judge.points * this.scale - 0.5);
  }

  private guide(): void {
    this.wishes = wishesOf(this.built, this.judge.best, this.engine.store.variables);
    this.engine.branching.guide(this.wishes);
  }

  /** Until the best is proven or the work is done; false where the program has to be written anew. */
  run(work: number): boolean {
    const { engine, optimiser, judge } = this;
    const { shouldStop } = judge;
    const goesOn = (until: number): boolean =>
      !optimiser.isProven && engine.work < Math.min(until, work) && !shouldStop?.();
    for (let slice = SLICE; goesOn(work); slice *= LONGER) {
      let until = engine.work + NEAR_SHARE * slice;
      while (goesOn(until) && this.plain.size <= MOST_OUT * this.compiled.model.jobs.length) {
        if (!this.near()) return false;
      }
      until = engine.work + slice;
      while (goesOn(until) && optimiser.improve(Math.min(until, work) - engine.work, shouldStop)) {
        if (!this.harvest()) return false;
      }
      until = engine.work + slice;
      while (goesOn(until) && optimiser.lift(Math.min(until, work) - engine.work, shouldStop)) {
        if (!this.harvest()) return false;
      }
      judge.raise(optimiser.bound / this.scale);
    }
    return true;
  }

  /** Looks for a better schedule that differs in a few jobs. */
  private near(): boolean {
    const { judge, rng, optimiser } = this;
    const way = this.choice.next(rng);
    const loose = rng.real() < LOOSE ? KINDS[rng.below(KINDS.length)]! : null;
    const reach = loose === null ? this.plain : this.loose[loose];
    const size = Math.max(1, Math.round(reach.size));
    const out = new Set(NEIGHBOURHOODS[way]!(judge.best, size, rng).jobs);
    const still = new Set<number>();
    for (const { id } of this.compiled.model.jobs) if (!out.has(id) && rng.real() >= reach.freedom) still.add(id);
    let found: Outcome['kind'];
    do {
      const atoms = this.keeper.keep(judge.best, this.wishes, out, still, loose);
      found = optimiser.improveWithin(atoms, NEAR, judge.shouldStop);
      this.choice.tried(way, found === 'solved');
      adapt(reach, found);
      if (found === 'solved' && !this.harvest()) return false;
    } while (found === 'solved' && !optimiser.isProven);
    return true;
  }

  private harvest(): boolean {
    const { optimiser, judge } = this;
    if (optimiser.best === this.harvested) return true;
    this.harvested = optimiser.best;
    const { cost, values } = this.harvested!;
    if (!judge.take(scheduleOf(this.compiled.model, this.built, values), cost / this.scale)) return false;
    optimiser.expect(this.below());
    this.guide();
    return true;
  }
}

/** Neighbourhoods grow while they are gone through to their end. */
function adapt(reach: Reach, found: Outcome['kind']): void {
  if (found === 'stopped') {
    reach.size = Math.max(1, reach.size * 0.95);
    reach.freedom = Math.max(0.05, reach.freedom * 0.8);
  }
  if (found === 'refuted') {
    reach.size += 0.15;
    reach.freedom = Math.min(1, reach.freedom + 0.03);
  }
}
