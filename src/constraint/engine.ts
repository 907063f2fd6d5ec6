/**
 * Lazy clause generation (O. Ohrimenko, P. J. Stuckey, M. Codish, Propagation via lazy clause generation, Constraints 14(3), 2009): bounds are
 * propagated, failures are explained and learned from, the search begins anew now and then.
 */
import { Analysis } from './analysis.js';
import { Branching } from './branching.js';
import { Clauses } from './clauses.js';
import { Differences } from './differences.js';
import { Atoms, type Explainer, type Propagator } from './explainer.js';
import { type Row, Rows } from './rows.js';
import { DECIDED, type Half, Store } from './store.js';

export interface Atom {
  readonly half: Half;
  readonly value: number;
}

export type Outcome =
  /** All variables have a value: `values()`. */
  | { readonly kind: 'solved' }
  /** There is no solution in which all these assumptions hold; none: there is no solution at all. */
  | { readonly kind: 'refuted'; readonly core: readonly Atom[] }
  | { readonly kind: 'stopped' };

/** Failures before the first new beginning, times the numbers 1 1 2 1 1 2 4 … (M. Luby, A. Sinclair, D. Zuckerman, 1993). */
const RESTART = 100;
/** Learned clauses kept at first, and how much more after each clearing. */
const KEPT = 3000;
const MORE = 500;

export class Engine {
  readonly store = new Store();
  readonly rows: Rows;
  readonly differences: Differences;
  readonly branching: Branching;
  /** Work done: entries of the trail that were propagated. */
  work = 0;
  failures = 0;
  /** Every search stops after so many in all. */
  mostFailures = Number.POSITIVE_INFINITY;
  private readonly clauses: Clauses;
  private readonly explainers: Explainer[] = [];
  private readonly propagators: Propagator[] = [];
  /** By half: places of the propagators that then wait for their turn, and those of them that hear of it. */
  private readonly listening: number[][] = [];
  private readonly hearing: Required<Pick<Propagator, 'hear'>>[][] = [];
  private waiting = new Uint8Array(0);
  private readonly analysis: Analysis;
  private heard = 0;
  private broken = false;
  /** There are variables, rows or propagators of which the rest has not heard. */
  private changed = true;
  private given: readonly Atom[] = [];
  private mostLearned = KEPT;

  constructor() {
    this.clauses = new Clauses(this.store, 0);
    this.rows = new Rows(this.store, 1);
    this.differences = new Differences(this.store, 2);
    this.branching = new Branching(this.store);
    this.explainers.push(this.clauses, this.rows, this.differences);
    this.analysis = new Analysis(this.store, this.explainers, (half) => this.branching.involve(half));
  }

  /** `decide`: whether it is searched for a value; otherwise it has what the rest leaves as its least. */
  addVariable(low: number, high: number, activity = 0, decide = true): number {
    this.changed = true;
    const v = this.store.addVariable(low, high);
    this.branching.addVariable(v, activity, decide);
    return v;
  }

  /** The number by which the propagator is to raise bounds. */
  addPropagator(make: (number: number) => Propagator): void {
    this.changed = true;
    const propagator = make(this.explainers.length);
    this.explainers.push(propagator);
    const place = this.propagators.push(propagator) - 1;
    for (const half of propagator.halves) {
      while (this.listening.length <= half) {
        this.listening.push([]);
        this.hearing.push([]);
      }
      this.listening[half]!.push(place);
      if (hears(propagator)) this.hearing[half]!.push(propagator);
    }
    this.waiting = new Uint8Array(this.propagators.length).fill(1);
  }

  addRow(row: Row): void {
    this.changed = true;
    this.rows.add(row);
  }

  /** One half plus another is at most so much, where the atom holds. */
  addDifference(first: Half, second: Half, most: number, when: Atom | null): void {
    this.changed = true;
    this.differences.add(first, second, most, when);
  }

  /** At the root: one of these atoms holds. */
  addClause(atoms: readonly Atom[]): void {
    const { store } = this;
    const open = new Map<Half, number>();
    for (const { half, value } of atoms) {
      if (store.holds(half, value)) return;
      if (store.cannotHold(half, value)) continue;
      // Of two atoms of one half the weaker one follows from the other.
      open.set(half, Math.min(value, open.get(half) ?? Number.POSITIVE_INFINITY));
    }
    const list = new Atoms();
    for (const [half, value] of open) list.add(half, value);
    if (list.length === 0) this.broken = true;
    else if (list.length === 1) this.broken ||= !store.raise(list.halves[0]!, list.values[0]!, DECIDED, 0);
    else this.clauses.add(list, 0);
  }

  /** At the root: the atom holds for good. False where it cannot. */
  fix(half: Half, value: number): boolean {
    this.broken ||= !this.store.raise(half, value, DECIDED, 0);
    return !this.broken;
  }

  private propagate(): boolean {
    const { store, clauses, rows, differences, propagators, listening, hearing, waiting } = this;
    const { trail } = store;
    /** No propagator before this one waits. */
    let next = 0;
    for (;;) {
      while (this.heard < trail.length) {
        const at = this.heard++;
        this.work++;
        const half = trail.half[at]!;
        const earlier = trail.before[at]!;
        const from = earlier < 0 ? store.base[half]! : trail.value[earlier]!;
        const to = trail.value[at]!;
        if (!differences.hear(half, from, to)) return false;
        rows.hear(half);
        if (half < listening.length) {
          const places = listening[half]!;
          for (let i = 0; i < places.length; i++) waiting[places[i]!] = 1;
          if (places.length > 0 && places[0]! < next) next = places[0]!;
          const list = hearing[half]!;
          for (let i = 0; i < list.length; i++) list[i]!.hear(half);
        }
        if (!clauses.propagate(half, from, to)) return false;
      }
      if (!rows.propagate()) return false;
      if (this.heard < trail.length) continue;
      for (; next < waiting.length && this.heard === trail.length; next++) {
        if (waiting[next] === 0) continue;
        waiting[next] = 0;
        if (!propagators[next]!.propagate()) return false;
      }
      if (this.heard === trail.length && rows.idle) return true;
    }
  }

  private back(level: number): void {
    const { branching, store } = this;
    store.backTo(level, (half) => {
      const v = half >> 1;
      if (store.isFixed(v)) branching.wish[v] = store.lowOf(v);
      branching.free(v);
    });
    this.heard = Math.min(this.heard, store.trail.length);
    this.forget();
  }

  private forget(): void {
    this.rows.forget();
    for (const propagator of this.propagators) propagator.forget?.();
    this.waiting.fill(0);
  }

  /** Back to the root, where variables, clauses and rows may be added. False where nothing is possible any more. */
  toRoot(): boolean {
    this.back(0);
    if (this.broken) return false;
    if ((this.changed && !this.lookAtAll()) || !this.propagate()) {
      this.broken = true;
      this.forget();
      return false;
    }
    this.store.settle();
    this.heard = 0;
    return true;
  }

  private lookAtAll(): boolean {
    this.changed = false;
    this.heard = 0;
    this.rows.lookAtAll();
    this.waiting.fill(1);
    for (const propagator of this.propagators) propagator.lookAtAll?.();
    return this.differences.lookAtAll();
  }

  valueOf(v: number): number {
    return this.store.lowOf(v);
  }

  values(): number[] {
    return Array.from({ length: this.store.variables }, (_, v) => this.store.lowOf(v));
  }

  /**
   * Searches where all these atoms hold, which are decided at once: quick for many, but where there is no solution nothing is said of
   * which of them are to blame.
   */
  solveWithin(given: readonly Atom[], work: number, failures: number, shouldStop?: () => boolean): Outcome {
    if (!this.toRoot()) return { kind: 'refuted', core: [] };
    this.given = given;
    const { mostFailures } = this;
    this.mostFailures = Math.min(mostFailures, this.failures + failures);
    const outcome = this.search([], work, shouldStop);
    this.given = [];
    this.mostFailures = mostFailures;
    return outcome;
  }

  /** Decides what is given; false where it cannot all hold. */
  private decideGiven(): boolean {
    const { store, given } = this;
    store.newLevel();
    for (const { half, value } of given) if (!store.raise(half, value, DECIDED, 0)) return false;
    return this.propagate();
  }

  /** Searches under assumptions until the work is done. The values found stay until the next call. */
  solve(assumptions: readonly Atom[], work: number, shouldStop?: () => boolean): Outcome {
    if (!this.toRoot()) return { kind: 'refuted', core: [] };
    return this.search(assumptions, work, shouldStop);
  }

  private search(assumptions: readonly Atom[], work: number, shouldStop?: () => boolean): Outcome {
    const { store, analysis, branching, given } = this;
    const floor = given.length > 0 ? 1 : 0;
    const until = this.work + work;
    let turn = 0;
    let left = RESTART * luby(turn);
    for (;;) {
      if (!this.propagate()) {
        this.failures++;
        left--;
        if (store.level === 0) {
          this.broken = true;
          this.forget();
          return { kind: 'refuted', core: [] };
        }
        // Of a failure among what was given there may be no single point to learn from.
        if (store.level <= floor) {
          this.back(0);
          return { kind: 'refuted', core: [] };
        }
        if (!analysis.learn(floor)) {
          if (floor === 0) this.broken = true;
          this.back(0);
          return { kind: 'refuted', core: [] };
        }
        this.learn();
        branching.decay();
        this.clauses.decay();
        if (this.work > until || this.failures >= this.mostFailures || (this.failures % 64 === 0 && shouldStop?.())) {
          this.back(0);
          return { kind: 'stopped' };
        }
        continue;
      }
      if (left <= 0) {
        this.back(0);
        left = RESTART * luby(++turn);
        if (this.clauses.learnedCount > this.mostLearned) {
          if (!this.toRoot()) return { kind: 'refuted', core: [] };
          this.clauses.clear();
          this.mostLearned += MORE;
        }
        continue;
      }
      if (this.work > until) {
        this.back(0);
        return { kind: 'stopped' };
      }
      if (floor === 1 && store.level === 0) {
        if (this.decideGiven()) continue;
        this.back(0);
        return { kind: 'refuted', core: [] };
      }
      let decision: Atom | null = null;
      while (store.level < assumptions.length) {
        const one = assumptions[store.level]!;
        if (store.cannotHold(one.half, one.value)) {
          const core = analysis.decisionsAgainst(one.half, one.value);
          return { kind: 'refuted', core: [...core.map((d) => asAssumption(assumptions, d)), one] };
        }
        store.newLevel();
        if (!store.holds(one.half, one.value)) {
          decision = one;
          break;
        }
      }
      if (decision === null) {
        decision = branching.next();
        if (decision === null) return { kind: 'solved' };
        store.newLevel();
      }
      store.raise(decision.half, decision.value, DECIDED, 0);
    }
  }

  private learn(): void {
    const { store, clauses } = this;
    const { atoms, level, spans } = this.analysis.learned;
    this.back(level);
    if (atoms.length === 1) {
      this.broken ||= !store.raise(atoms.halves[0]!, atoms.values[0]!, DECIDED, 0);
      return;
    }
    const clause = clauses.add(atoms, spans);
    store.raise(atoms.halves[0]!, atoms.values[0]!, 0, clause);
  }
}

const hears = (propagator: Propagator): propagator is Propagator & Required<Pick<Propagator, 'hear'>> =>
  propagator.hear !== undefined;

/** The assumption that a decision was. */
function asAssumption(assumptions: readonly Atom[], decision: Atom): Atom {
  return assumptions.find((one) => one.half === decision.half && one.value === decision.value) ?? decision;
}

/** 1 1 2 1 1 2 4 1 1 2 1 1 2 4 8 … */
function luby(i: number): number {
  let size = 1;
  let power = 0;
  while (size < i + 1) {
    size = 2 * size + 1;
    power++;
  }
  let at = i;
  while (size - 1 !== at) {
    size = (size - 1) >> 1;
    power--;
    at %= size;
  }
  return 2 ** power;
}
