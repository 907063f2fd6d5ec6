/** Parts of the engine that raise bounds and can say afterwards why. */
import type { Half } from './store.js';

/** A list of atoms; what its arrays hold beyond its length is left from before it was cleared. */
export class Atoms {
  readonly halves: number[] = [];
  readonly values: number[] = [];
  length = 0;

  add(half: Half, k: number): void {
    const at = this.length++;
    this.halves[at] = half;
    this.values[at] = k;
  }

  clear(): void {
    this.length = 0;
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
  /** Halves after whose rise it propagates. */
  readonly halves: Iterable<Half>;
  /** For those that want to know which half rose. */
  hear?(half: Half): void;
  /** Raises what follows from the bounds; false where nothing is left (the store's `failure`). */
  propagate(): boolean;
  /** Bounds fell back, and what was heard and not yet acted on is to be forgotten. */
  forget?(): void;
  /** At the root: looks at everything when it next propagates. */
  lookAtAll?(): void;
}
