/** Arcs of a flow network as columns of typed arrays that grow. */

const FIRST_ROOM = 512;

export class ArcTable {
  count = 0;
  from = new Int32Array(FIRST_ROOM);
  to = new Int32Array(FIRST_ROOM);
  weight = new Float64Array(FIRST_ROOM);
  cap = new Float64Array(FIRST_ROOM);
  flow = new Float64Array(FIRST_ROOM);
  /** 0 where the flow is none, 1 where it is all that the arc holds, 2 in the tree. */
  place = new Uint8Array(FIRST_ROOM);

  /** Adds an arc without flow and returns its index. */
  add(from: number, to: number, weight: number, cap: number): number {
    if (this.count === this.from.length) this.grow();
    const a = this.count++;
    this.from[a] = from;
    this.to[a] = to;
    this.weight[a] = weight;
    this.cap[a] = cap;
    this.flow[a] = 0;
    this.place[a] = 0;
    return a;
  }

  private grow(): void {
    const room = this.count * 2;
    const wider = <A extends Int32Array | Float64Array | Uint8Array>(old: A, fresh: A): A => {
      fresh.set(old);
      return fresh;
    };
    this.from = wider(this.from, new Int32Array(room));
    this.to = wider(this.to, new Int32Array(room));
    this.weight = wider(this.weight, new Float64Array(room));
    this.cap = wider(this.cap, new Float64Array(room));
    this.flow = wider(this.flow, new Float64Array(room));
    this.place = wider(this.place, new Uint8Array(room));
  }
}
