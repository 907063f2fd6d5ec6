/** Which of several ways to try next: the more often one helped lately, the likelier (S. Ropke, D. Pisinger, Transportation Science 40(4), 2006). */
import type { Rng } from '../kernel/rng.js';

/** What is left of a weight after a try that helped, and what it gains. */
const HELPED = { left: 0.9, more: 0.4 };
/** What is left of a weight after a try in vain, and the least that it comes to: what does not help now may help later. */
const IN_VAIN = { left: 0.995, least: 0.3 };

export class AdaptiveChoice {
  private readonly weights: number[];

  constructor(ways: number) {
    this.weights = Array.from({ length: ways }, () => 1);
  }

  next(rng: Rng): number {
    let at = rng.real() * this.weights.reduce((sum, weight) => sum + weight, 0);
    for (let way = 0; way < this.weights.length; way++) {
      at -= this.weights[way]!;
      if (at < 0) return way;
    }
    return this.weights.length - 1;
  }

  tried(way: number, helped: boolean): void {
    const weight = this.weights[way]!;
    this.weights[way] = helped ? weight * HELPED.left + HELPED.more : Math.max(IN_VAIN.least, weight * IN_VAIN.left);
  }
}
