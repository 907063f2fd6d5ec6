/** A small seeded source of chance: the same seed gives the same draws on every machine. */
export class Random {
  private state: number;

  constructor(seed: number) {
    this.state = (Math.imul(seed, 0x9e3779b1) ^ 0x5bd1e995) >>> 0;
    for (let k = 0; k < 4; k++) this.next();
  }

  /** In [0, 1). Marsaglia's xorshift of 32 bits with a multiplied output. */
  private next(): number {
    let x = this.state || 0x6d2b79f5;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.state = x >>> 0;
    return (Math.imul(this.state, 0x2c1b3c6d) >>> 0) / 2 ** 32;
  }

  /** A whole number, both ends included. */
  int(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }

  chance(share: number): boolean {
    return this.next() < share;
  }

  pick<T>(list: readonly T[]): T {
    return list[Math.floor(this.next() * list.length)]!;
  }

  /** Some of a list, in its order; at least one. */
  some<T>(list: readonly T[], share: number): T[] {
    const found = list.filter(() => this.chance(share));
    return found.length > 0 ? found : [this.pick(list)];
  }
}
