/**
 * Amounts of several renewables side by side in 32-bit words, each in a field with one guard bit above it: whether all that is needed is
 * there takes one subtraction for each word. (L. Lamport, Multiple byte processing with full-word instructions, CACM 18(8), 1975.)
 */
export class Capacity {
  /** Words for each instant. */
  readonly words: number;
  /** Guard bits of each word. */
  readonly guards: Int32Array;
  /** Everything free, guards set. */
  readonly full: Int32Array;
  private readonly word: Int32Array;
  private readonly shift: Int32Array;

  /** Capacities are whole numbers below 2^31. */
  constructor(readonly capacities: readonly number[]) {
    const widths = capacities.map((capacity) => 33 - Math.clz32(capacity));
    this.word = new Int32Array(capacities.length);
    this.shift = new Int32Array(capacities.length);
    const used: number[] = [0];
    // Widest first, each into the first word that has room.
    for (const k of widths.map((_, k) => k).sort((a, b) => widths[b]! - widths[a]! || a - b)) {
      let w = used.findIndex((bits) => bits + widths[k]! <= 32);
      if (w < 0) w = used.push(0) - 1;
      this.word[k] = w;
      this.shift[k] = used[w]!;
      used[w]! += widths[k]!;
    }
    this.words = used.length;
    this.guards = new Int32Array(this.words);
    this.full = new Int32Array(this.words);
    capacities.forEach((capacity, k) => {
      const guard = 1 << (this.shift[k]! + widths[k]! - 1);
      this.guards[this.word[k]!]! |= guard;
      this.full[this.word[k]!]! |= guard | (capacity << this.shift[k]!);
    });
  }

  /** Writes what an activity needs to `needs` from `at` on. No use may be above its capacity. */
  pack(uses: readonly number[], needs: Int32Array, at: number): void {
    needs.fill(0, at, at + this.words);
    uses.forEach((use, k) => {
      if (use > this.capacities[k]!) throw new Error('more is used than there is');
      needs[at + this.word[k]!]! += use << this.shift[k]!;
    });
  }
}
