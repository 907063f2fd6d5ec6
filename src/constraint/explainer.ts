/** Parts of the engine that raise bounds and can say afterwards why. */
import type { Half } from './store.js';

/** A list of atoms. */
export class Atoms {
  readonly halves: number[] = [];
  readonly values: number[] = [];

  get length(): number {
    return this.halves.length;
  }

  add(half: Half, k: number): void {
    this.halves.push(half);
    this.values.push(k);
  }

  clear(): void {
    this.halves.length = 0;
    this.values.length = 0;
  }
}

export interface Explainer {
  /**
   * Atoms that held before an entry of the trail and from which the atom follows: one that this part raised with this detail, or a
   * weaker one of the same half.
   */
  explain(half: Half, k: number, detail: number, entry: number, into: Atoms): void;
}

export interface Propagator extends Explainer {
  /** Halves whose rise it wants to hear of. */
  readonly halves: Iterable<Half>;
  hear(half: Half): void;
  /** Raises what follows from what was heard; false where nothing is left (the store's `failure`). */
  propagate(): boolean;
  /** Forgets what was heard and not yet acted on. */
  forget(): void;
  /** At the root: looks at everything when it next propagates. */
  lookAtAll(): void;
}
