/** A small seeded generator (xorshift128, G. Marsaglia, Journal of Statistical Software 8(14), 2003): the same on every machine. */
export class Rng {
  private x: number;
  private y: number;
  private z: number;
  private w: number;

  constructor(seed: number) {
    this.x = mixed(seed);
    this.y = mixed(this.x + 362436069);
    this.z = mixed(this.y + 521288629);
    this.w = mixed(this.z + 88675123) | 1;
  }

  /** 32 random bits, unsigned. */
  bits(): number {
    const t = this.x ^ (this.x << 11);
    this.x = this.y;
    this.y = this.z;
    this.z = this.w;
    this.w = this.w ^ (this.w >>> 19) ^ t ^ (t >>> 8);
    return this.w >>> 0;
  }

  /** In [0, 1). */
  real(): number {
    return this.bits() / 4294967296;
  }

  /** In [0, n). */
  below(n: number): number {
    return Math.floor(this.real() * n);
  }

  shuffle<T>(list: T[]): T[] {
    for (let i = list.length - 1; i > 0; i--) {
      const j = this.below(i + 1);
      const kept = list[i]!;
      list[i] = list[j]!;
      list[j] = kept;
    }
    return list;
  }
}

/** All bits of a whole number spread over all bits of another (finalizer of MurmurHash3, A. Appleby, public domain): neighbouring seeds draw nothing alike. */
function mixed(n: number): number {
  let h = n | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return h ^ (h >>> 16);
}
