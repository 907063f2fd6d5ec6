/** Work that a search may still do, counted in nodes and not in seconds, so that every machine stops at the same place. */
export class Work {
  constructor(private left: number) {}

  /** Takes some; false once none is left. */
  take(amount: number): boolean {
    this.left -= amount;
    return this.left >= 0;
  }

  get spent(): boolean {
    return this.left < 0;
  }

  /** A part that a search may use up by itself; what it leaves flows back through `settle`. */
  part(share: number): Work {
    return new Work(Math.max(0, this.left) * share);
  }

  /** Takes off what a part has used. */
  settle(part: Work, share: number): void {
    this.left -= Math.max(0, this.left) * share - Math.max(0, part.left);
  }
}
