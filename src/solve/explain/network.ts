/**
 * A simple temporal network (R. Dechter, I. Meiri and J. Pearl, Artificial Intelligence 49, 1991): moments, and least distances
 * between them. It keeps the earliest time of every moment while distances are added and taken back.
 */

/** `to` comes at least `least` minutes after `from`. */
export interface Distance {
  readonly from: number;
  readonly to: number;
  readonly least: number;
}

export class Network {
  /** Earliest time of each moment; moment 0 is minute 0. */
  earliest: Int32Array;
  private readonly edges: Distance[] = [];
  private readonly leaving: number[][];
  /** Distances followed so far, and what its users count besides. */
  work = 0;

  constructor(moments: number) {
    this.earliest = new Int32Array(moments);
    this.leaving = Array.from({ length: moments }, () => []);
  }

  /** Adds distances; false where they contradict what is there (they then stay until `back` is called). */
  add(distances: readonly Distance[]): boolean {
    for (const distance of distances) {
      this.leaving[distance.from]!.push(this.edges.length);
      this.edges.push(distance);
    }
    return this.settle(distances);
  }

  mark(): { readonly edges: number; readonly earliest: Int32Array } {
    return { edges: this.edges.length, earliest: this.earliest.slice() };
  }

  /** Forgets everything since a mark. */
  back(mark: { readonly edges: number; readonly earliest: Int32Array }): void {
    while (this.edges.length > mark.edges) this.leaving[this.edges.pop()!.from]!.pop();
    this.earliest = mark.earliest.slice();
  }

  /** Moves moments later until all distances hold; one that is moved in too many rounds lies on a circle that never closes. */
  private settle(fresh: readonly Distance[]): boolean {
    const { earliest } = this;
    const queue: number[] = [];
    const waits = new Uint8Array(earliest.length);
    const rounds = new Int32Array(earliest.length);
    const follow = ({ from, to, least }: Distance): boolean => {
      this.work++;
      const at = earliest[from]! + least;
      if (at <= earliest[to]!) return true;
      // A latest time is written as a distance to minute 0, which may never move.
      if (to === 0) return false;
      earliest[to] = at;
      if (waits[to] === 1) return true;
      waits[to] = 1;
      rounds[to] = rounds[to]! + 1;
      queue.push(to);
      return rounds[to]! <= earliest.length + 1;
    };
    for (const distance of fresh) if (!follow(distance)) return false;
    for (let head = 0; head < queue.length; head++) {
      const moment = queue[head]!;
      waits[moment] = 0;
      for (const edge of this.leaving[moment]!) if (!follow(this.edges[edge]!)) return false;
    }
    return true;
  }
}
