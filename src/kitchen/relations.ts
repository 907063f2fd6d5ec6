/**
 * Rectangles by relations: for every two that conflict, which stands left, right, before or behind. Complete for any
 * conflict graph and any obstacles; bounds on the low corners follow from the relations, and as soon as all boxes clear
 * each other at their lowest corners, that is a packing.
 */
import type { Boxes, BoxSearch } from './corners.js';
import { SLACK } from './footprint.js';
import type { Work } from './work.js';

/** x and y bounds of each box (low, then high for each), its turn (2: open), and the relations that are still open. */
interface State {
  readonly low: [Float64Array, Float64Array];
  readonly high: [Float64Array, Float64Array];
  readonly turn: Uint8Array;
  /** Four bits for each pair: left, right, before, behind. */
  readonly open: Uint8Array;
}

/** Bits 1 and 2: first left of (right of) second; 4 and 8: first before (behind) second. */
const RELATIONS = [1, 2, 4, 8] as const;

/** Searches as far as the work goes. Deterministic. */
export function packRelations(boxes: Boxes, work: Work): BoxSearch {
  return new RelationSearch(boxes, work).run();
}

class RelationSearch {
  private readonly n: number;
  /** Free boxes first, then obstacles. */
  private readonly total: number;
  private readonly first: number[] = [];
  private readonly second: number[] = [];
  private found: State | null = null;

  constructor(
    private readonly boxes: Boxes,
    private readonly work: Work,
  ) {
    const n = boxes.width.length;
    this.n = n;
    this.total = n + boxes.obstacles.length;
    const size = (i: number) => boxes.width[i]! * boxes.depth[i]!;
    const pairs: [number, number][] = [];
    for (let i = 0; i < n; i++) {
      for (let j = i + 1; j < n; j++) if (boxes.conflict[i * n + j] === 1) pairs.push([i, j]);
      for (let k = 0; k < boxes.obstacles.length; k++) if (boxes.hits(i, k)) pairs.push([i, n + k]);
    }
    // Large boxes first: their relations settle most.
    const weight = ([i, j]: [number, number]) => size(i) + (j < n ? size(j) : 1);
    pairs.sort((a, b) => weight(b) - weight(a) || a[0] - b[0] || a[1] - b[1]);
    for (const [i, j] of pairs) {
      this.first.push(i);
      this.second.push(j);
    }
  }

  run(): BoxSearch {
    const { bounds, obstacles, turnable } = this.boxes;
    const low: [Float64Array, Float64Array] = [new Float64Array(this.total), new Float64Array(this.total)];
    const high: [Float64Array, Float64Array] = [new Float64Array(this.total), new Float64Array(this.total)];
    const turn = new Uint8Array(this.n);
    for (let i = 0; i < this.n; i++) {
      turn[i] = turnable[i] ? 2 : 0;
      low[0][i] = bounds.left;
      low[1][i] = bounds.front;
      high[0][i] = bounds.right - this.least(i, 0, turn);
      high[1][i] = bounds.back - this.least(i, 1, turn);
    }
    obstacles.forEach((box, k) => {
      low[0][this.n + k] = box.left;
      high[0][this.n + k] = box.left;
      low[1][this.n + k] = box.front;
      high[1][this.n + k] = box.front;
    });
    this.step({ low, high, turn, open: new Uint8Array(this.first.length).fill(15) });
    const { found } = this;
    if (found === null) return { spots: null, complete: !this.work.spent };
    const spots = { x: found.low[0].slice(0, this.n), y: found.low[1].slice(0, this.n), turned: found.turn };
    return { spots, complete: true };
  }

  /** Extent along an axis (0: x), the smaller one where the turn is open. */
  private least(i: number, axis: 0 | 1, turn: Uint8Array): number {
    const { width, depth, obstacles } = this.boxes;
    if (i >= this.n) {
      const box = obstacles[i - this.n]!;
      return axis === 0 ? box.right - box.left : box.back - box.front;
    }
    const along = axis === 0 ? width[i]! : depth[i]!;
    if (turn[i] === 0) return along;
    const across = axis === 0 ? depth[i]! : width[i]!;
    return turn[i] === 1 ? across : Math.min(along, across);
  }

  private step(state: State): void {
    if (!this.work.take(1)) return;
    if (!this.settle(state)) return;
    const pair = this.clash(state);
    if (pair < 0) {
      const i = state.turn.indexOf(2);
      if (i < 0) this.found = state;
      else this.branchTurn(state, i);
      return;
    }
    const i = this.first[pair]!;
    const j = this.second[pair]!;
    const unsure = state.turn[i] === 2 ? i : j < this.n && state.turn[j] === 2 ? j : -1;
    if (unsure >= 0) {
      this.branchTurn(state, unsure);
      return;
    }
    // Each relation in turn, without those that were tried before it.
    let left = state.open[pair]!;
    for (const relation of RELATIONS) {
      if ((left & relation) === 0) continue;
      left &= ~relation;
      const next = copy(state);
      next.open[pair] = relation;
      this.step(next);
      if (this.found !== null || this.work.spent) return;
    }
  }

  private branchTurn(state: State, i: number): void {
    for (const turn of [0, 1]) {
      const next = copy(state);
      next.turn[i] = turn;
      next.high[0][i] = Math.min(next.high[0][i]!, this.boxes.bounds.right - this.least(i, 0, next.turn));
      next.high[1][i] = Math.min(next.high[1][i]!, this.boxes.bounds.back - this.least(i, 1, next.turn));
      this.step(next);
      if (this.found !== null || this.work.spent) return;
    }
  }

  /** Tightens the bounds until nothing changes; false where some box has no room left. */
  private settle(state: State): boolean {
    const { low, high } = state;
    for (let i = 0; i < this.n; i++) {
      if (low[0][i]! > high[0][i]! + SLACK || low[1][i]! > high[1][i]! + SLACK) return false;
    }
    let again = true;
    while (again) {
      again = false;
      for (let p = 0; p < this.first.length; p++) {
        const i = this.first[p]!;
        const j = this.second[p]!;
        let open = state.open[p]!;
        if ((open & 1) !== 0 && !this.can(state, i, j, 0)) open &= ~1;
        if ((open & 2) !== 0 && !this.can(state, j, i, 0)) open &= ~2;
        if ((open & 4) !== 0 && !this.can(state, i, j, 1)) open &= ~4;
        if ((open & 8) !== 0 && !this.can(state, j, i, 1)) open &= ~8;
        if (open === 0) return false;
        state.open[p] = open;
        if (open === 1) again = this.enforce(state, i, j, 0) || again;
        else if (open === 2) again = this.enforce(state, j, i, 0) || again;
        else if (open === 4) again = this.enforce(state, i, j, 1) || again;
        else if (open === 8) again = this.enforce(state, j, i, 1) || again;
      }
    }
    return true;
  }

  private can(state: State, i: number, j: number, axis: 0 | 1): boolean {
    return state.low[axis][i]! + this.least(i, axis, state.turn) <= state.high[axis][j]! + SLACK;
  }

  /** i ends before j begins along the axis; true where a bound moved. */
  private enforce(state: State, i: number, j: number, axis: 0 | 1): boolean {
    const low = state.low[axis];
    const high = state.high[axis];
    const extent = this.least(i, axis, state.turn);
    let moved = false;
    if (j < this.n && low[j]! < low[i]! + extent) {
      low[j] = low[i]! + extent;
      moved = true;
    }
    if (i < this.n && high[i]! > high[j]! - extent) {
      high[i] = high[j]! - extent;
      moved = true;
    }
    return moved;
  }

  /** The first pair that overlaps when every box stands at its lowest corner, or -1. */
  private clash(state: State): number {
    for (let p = 0; p < this.first.length; p++) {
      const i = this.first[p]!;
      const j = this.second[p]!;
      if (this.apart(state, i, j, 0) || this.apart(state, i, j, 1)) continue;
      return p;
    }
    return -1;
  }

  private apart(state: State, i: number, j: number, axis: 0 | 1): boolean {
    const low = state.low[axis];
    return (
      low[i]! + this.least(i, axis, state.turn) <= low[j]! + SLACK ||
      low[j]! + this.least(j, axis, state.turn) <= low[i]! + SLACK
    );
  }
}

function copy(state: State): State {
  return {
    low: [state.low[0].slice(), state.low[1].slice()],
    high: [state.high[0].slice(), state.high[1].slice()],
    turn: state.turn.slice(),
    open: state.open.slice(),
  };
}
