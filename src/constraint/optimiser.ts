/**
 * The least cost of a program, from both sides. From above: each solution forbids all that is not better. From below: all terms are assumed to
 * be at their least; a core of those that cannot all be raises the bound, and their sum takes their place among the terms (OLL: B. Andres et al.,
 * ICLP 2012; A. Morgado, C. Dodaro, J. Marques-Silva, CP 2014), the dearest terms first.
 */

import type { Atom, Engine, Outcome } from './engine.js';
import { Atoms } from './explainer.js';
import type { Half } from './store.js';

export interface Term {
  readonly half: Half;
  /** Positive whole number. */
  weight: number;
}

export interface Best {
  readonly cost: number;
  readonly values: readonly number[];
}

export class Optimiser {
  best: Best | null = null;
  /** No solution costs less. */
  bound: number;
  /** The upper half of the cost without its constant. */
  private readonly total: Half;
  private terms: Term[];
  private stratum: number;
  private refuted = false;

  constructor(
    readonly engine: Engine,
    private readonly given: readonly Term[],
    private readonly constant: number,
    private below = Number.POSITIVE_INFINITY,
  ) {
    this.terms = given.map(({ half, weight }) => ({ half, weight }));
    const { store } = engine;
    const low = given.reduce((sum, { half, weight }) => sum + weight * store.low[half]!, 0);
    const high = given.reduce((sum, { half, weight }) => sum - weight * store.low[half ^ 1]!, 0);
    this.total = 2 * engine.addVariable(low, high, 0, false) + 1;
    engine.addRow({
      halves: [...given.map((term) => term.half), this.total],
      factors: [...given.map((term) => term.weight), 1],
      most: 0,
      when: new Atoms(),
    });
    this.stratum = Math.max(1, ...given.map((term) => term.weight));
    this.bound = this.lowest();
  }

  /** Whether the bound has met the best, or there is no solution (better than what was given). */
  get isProven(): boolean {
    return this.refuted || this.below <= this.bound;
  }

  private lowest(): number {
    const { store } = this.engine;
    return this.terms.reduce((sum, { half, weight }) => sum + weight * store.base[half]!, this.constant);
  }

  private costNow(): number {
    const { store } = this.engine;
    return this.given.reduce((sum, { half, weight }) => sum + weight * store.low[half]!, this.constant);
  }

  private accept(): void {
    const cost = this.costNow();
    if (this.best !== null && cost >= this.best.cost) return;
    this.best = { cost, values: this.engine.values() };
    this.expect(cost);
    this.engine.branching.guide(this.best.values);
  }

  /** Only solutions of less cost than this are looked for from now on. */
  expect(cost: number): void {
    this.below = Math.min(this.below, cost);
  }

  /** Back to the root, with all that is known of the cost; false where nothing is left. */
  private begin(): boolean {
    const { engine } = this;
    if (!engine.toRoot()) return false;
    const least = this.constant - (this.below - 1);
    if (this.below === Number.POSITIVE_INFINITY || engine.store.base[this.total]! >= least) return true;
    return engine.fix(this.total, least) && engine.toRoot();
  }

  private close(): void {
    this.refuted = true;
    this.bound = Math.max(this.bound, this.below);
  }

  /** Looks for a better solution; true where one was found. */
  improve(work: number, shouldStop?: () => boolean): boolean {
    if (this.isProven) return false;
    if (!this.begin()) {
      this.close();
      return false;
    }
    const { kind } = this.engine.solve([], work, shouldStop);
    if (kind === 'solved') this.accept();
    if (kind === 'refuted') this.close();
    return kind === 'solved';
  }

  /** Looks for a better solution in which all these atoms hold. */
  improveWithin(
    given: readonly Atom[],
    limits: { readonly work: number; readonly failures: number },
    shouldStop?: () => boolean,
  ): Outcome['kind'] {
    if (!this.begin()) {
      this.close();
      return 'refuted';
    }
    const { kind } = this.engine.solveWithin(given, limits.work, limits.failures, shouldStop);
    if (kind === 'solved') this.accept();
    return kind;
  }

  /** Raises the bound by one core, or takes a solution in which all assumed terms are at their least. False where the work ran out. */
  lift(work: number, shouldStop?: () => boolean): boolean {
    const { engine } = this;
    const { store } = engine;
    if (this.isProven) return false;
    if (!this.begin()) {
      this.close();
      return true;
    }
    this.bound = Math.max(this.bound, this.lowest());
    if (this.isProven) return true;
    this.harden();
    const assumed = this.terms
      .filter(({ half, weight }) => weight >= this.stratum && store.base[half]! < -store.base[half ^ 1]!)
      .sort((a, b) => b.weight - a.weight || a.half - b.half);
    const outcome = engine.solve(
      assumed.map(({ half }): Atom => ({ half: half ^ 1, value: -store.base[half]! })),
      work,
      shouldStop,
    );
    if (outcome.kind === 'stopped') return false;
    if (outcome.kind === 'solved') {
      this.accept();
      if (this.stratum === 1) this.close();
      else this.lower();
      return true;
    }
    if (outcome.core.length === 0) {
      this.close();
      return true;
    }
    this.replace(outcome.core);
    return true;
  }

  private lower(): void {
    const below = this.terms.map((term) => term.weight).filter((weight) => weight < this.stratum);
    const next = Math.max(1, ...below);
    this.stratum = below.length === 0 ? 1 : Math.min(next, Math.max(1, Math.floor(this.stratum / 2)));
  }

  /** No term may cost alone more than the best is above what all terms cost at their least. */
  private harden(): void {
    const { engine } = this;
    const slack = this.below - 1 - this.lowest();
    if (slack === Number.POSITIVE_INFINITY) return;
    for (const { half, weight } of this.terms) {
      const more = Math.floor(slack / weight);
      const most = engine.store.base[half]! + more;
      if (most < -engine.store.base[half ^ 1]!) engine.fix(half ^ 1, -most);
    }
  }

  private replace(core: readonly Atom[]): void {
    const { engine } = this;
    engine.toRoot();
    const { store } = engine;
    const own = core.map((atom) => this.terms.find((term) => term.half === (atom.half ^ 1))!);
    if (own.length === 1) {
      engine.fix(own[0]!.half, 1 - core[0]!.value);
      engine.toRoot();
      this.bound = Math.max(this.bound, this.lowest());
      return;
    }
    const weight = Math.min(...own.map((term) => term.weight));
    const low = core.reduce((sum, atom) => sum - atom.value, 0);
    const high = own.reduce((sum, term) => sum - store.base[term.half ^ 1]!, 0);
    const sum = engine.addVariable(low + 1, high, 0, false);
    engine.addRow({
      halves: [...own.map((term) => term.half), 2 * sum + 1],
      factors: [...own.map(() => 1), 1],
      most: 0,
      when: new Atoms(),
    });
    for (const term of own) term.weight -= weight;
    this.terms = this.terms.filter((term) => term.weight > 0);
    this.terms.push({ half: 2 * sum, weight });
    if (!engine.toRoot()) this.close();
    else this.bound = Math.max(this.bound, this.lowest());
  }
}
