import { Rng } from '../kernel/rng.js';
import { construct } from './dispatch.js';
import { type Insertion, Insertions } from './insertion.js';
import { MachineOrders } from './machine-orders.js';
import { type Operations, operationsOf, type Shop, shopBound } from './shop.js';

export interface ShopPlan {
  /** Of each operation, job after job. */
  readonly starts: Int32Array;
  readonly machines: Int32Array;
  readonly makespan: number;
  readonly lower: number;
  /** Schedules made: one for each move. */
  readonly made: number;
}

/** Good schedules that are kept, one for so many: each is the best of its line, and the search goes back to one and on from there by some random moves. */
const LINES = { each: 12_500, most: 4 } as const;
/** Moves without a better schedule before it does so. */
const PATIENCE = 600;
const SHAKES = { least: 3, more: 12 } as const;
/** Least tenure of what is forbidden, and how many more at most. */
const TENURE = { least: 3, more: 6 } as const;

/**
 * Tabu search over the orders on machines (E. Nowicki, C. Smutnicki, A fast taboo search algorithm for the job shop problem, Management Science
 * 42(6), 1996): operations of a longest path are put elsewhere, on their machine or on another. Every move makes one schedule; moves that are only
 * estimated are not counted.
 */
export function sequenceShop(shop: Shop, { schedules, seed }: { schedules: number; seed: number }): ShopPlan {
  const search = new ShopSearch(shop, new Rng(seed));
  return search.run(schedules);
}

class ShopSearch {
  private readonly operations: Operations;
  private readonly now: MachineOrders;
  private readonly best: MachineOrders;
  private readonly lead: MachineOrders;
  private readonly insertions: Insertions;
  private readonly lower: number;
  /** Until which move the first may not come before the second again on a machine. */
  private readonly forbidden: Int32Array;
  /** Until which move an operation may not come back to a machine. */
  private readonly banned: Int32Array;
  /** Block of each operation on the path that is looked at; -1: none. The first on the path is `lastBlock`, the last is 0. */
  private readonly block: Int32Array;
  private lastBlock = 0;
  private made = 0;

  constructor(
    private readonly shop: Shop,
    private readonly rng: Rng,
  ) {
    this.operations = operationsOf(shop);
    const { size } = this.operations;
    this.now = this.fresh();
    this.best = this.fresh();
    this.lead = this.fresh();
    this.insertions = new Insertions(this.now);
    this.lower = shopBound(shop, this.operations);
    this.forbidden = new Int32Array(size * size);
    this.block = new Int32Array(size).fill(-1);
    this.banned = new Int32Array(size * shop.machines);
  }

  run(schedules: number): ShopPlan {
    const { now, best, rng } = this;
    this.made = 1;
    construct(now, null);
    best.copy(now);
    const many = Math.max(1, Math.min(LINES.most, Math.floor(schedules / LINES.each)));
    const lines: MachineOrders[] = [];
    while (this.goesOn(schedules)) {
      let line: MachineOrders;
      if (lines.length < many) {
        if (lines.length > 0) {
          this.made++;
          construct(now, rng);
        }
        line = this.fresh();
        line.copy(now);
        lines.push(line);
      } else {
        const [one, other] = [0, 1].map(() => lines[rng.below(many)]!) as [MachineOrders, MachineOrders];
        line = one.makespan <= other.makespan ? one : other;
        now.copy(line);
        this.shake();
      }
      this.follow(line, schedules);
    }
    const { heads, machine, makespan } = best;
    return { starts: heads.slice(), machines: machine.slice(), makespan, lower: this.lower, made: this.made };
  }

  private fresh(): MachineOrders {
    return new MachineOrders(this.operations, this.shop.machines);
  }

  private goesOn(schedules: number): boolean {
    return this.made < schedules && this.best.makespan > this.lower;
  }

  /** Move after move until nothing better comes; the best of them takes the line's place unless it is worse. */
  private follow(line: MachineOrders, schedules: number): void {
    const { now, best, lead } = this;
    this.forbidden.fill(0);
    this.banned.fill(0);
    lead.copy(now);
    if (lead.makespan < best.makespan) best.copy(lead);
    for (let stale = 0; stale <= PATIENCE && this.goesOn(schedules); stale++) {
      const move = this.choose();
      if (move === null) {
        this.made++;
        break;
      }
      this.make(move);
      if (now.makespan >= lead.makespan) continue;
      lead.copy(now);
      stale = 0;
      if (lead.makespan < best.makespan) best.copy(lead);
    }
    if (lead.makespan <= line.makespan) line.copy(lead);
  }

  /** Operations of one longest path, drawn where it parts. */
  private criticalPath(): number[] {
    const { now, rng } = this;
    const { size, heads, minutes, previous } = now;
    const { before } = this.operations;
    const ends = Array.from({ length: size }, (_, v) => v).filter((v) => heads[v]! + minutes[v]! === now.makespan);
    const path: number[] = [];
    for (let v = ends[rng.below(ends.length)] ?? -1; v >= 0; ) {
      path.push(v);
      const reaches = [before[v]!, previous[v]!].filter((w) => w >= 0 && heads[w]! + minutes[w]! === heads[v]!);
      v = reaches.length === 0 ? -1 : reaches[rng.below(reaches.length)]!;
    }
    return path;
  }

  /** Tells `hear` of all moves of operations of a longest path that can shorten it. */
  private moves(hear: (move: Insertion) => void): void {
    const path = this.criticalPath();
    this.markBlocks(path);
    for (const v of path) {
      this.insertions.of(v, (mode, before, estimate) => {
        if (this.breaksBlock(v, mode, before)) hear({ v, mode, before, estimate });
      });
    }
    for (const v of path) this.block[v] = -1;
  }

  /** Numbers of the blocks: stretches of a path on one machine. The path runs from its end to its beginning. */
  private markBlocks(path: readonly number[]): void {
    let number = 0;
    path.forEach((v, i) => {
      if (i > 0 && this.now.next[v] !== path[i - 1]) number++;
      this.block[v] = number;
    });
    this.lastBlock = number;
  }

  /** Only a new first or last operation of a block can shorten the path; at the path's ends only those at its inner side. */
  private breaksBlock(v: number, mode: number, before: number): boolean {
    const { now, block } = this;
    const { machine } = this.operations.modes[v]![mode]!;
    if (machine !== now.machine[v]) return true;
    const own = block[v]!;
    const inBlock = (x: number): boolean => x >= 0 && block[x] === own;
    const [p, n] = [now.previous[v]!, now.next[v]!];
    let after = before >= 0 ? now.next[before]! : now.first[machine]!;
    if (after === v) after = n;
    const atFront = !inBlock(p) || !inBlock(before);
    const atBack = !inBlock(n) || !inBlock(after);
    if (!inBlock(p) && !inBlock(n)) return now.minutes[v] !== this.operations.modes[v]![mode]!.minutes;
    return (atFront && own !== this.lastBlock) || (atBack && own !== 0);
  }

  /** The best move that is not forbidden, or is better than everything before; else any. */
  private choose(): Insertion | null {
    const { rng } = this;
    let best: Insertion | null = null;
    let any: Insertion | null = null;
    let [ties, all] = [0, 0];
    this.moves((move) => {
      if (rng.below(++all) === 0) any = move;
      if (best !== null && move.estimate > best.estimate) return;
      if (move.estimate >= this.best.makespan && this.isForbidden(move)) return;
      ties = best !== null && move.estimate === best.estimate ? ties + 1 : 1;
      if (rng.below(ties) === 0) best = move;
    });
    return best ?? any;
  }

  private isForbidden({ v, mode, before }: Insertion): boolean {
    const { now, forbidden, banned, made } = this;
    const { machine } = this.operations.modes[v]![mode]!;
    if (machine !== now.machine[v]) return banned[v * this.shop.machines + machine]! > made;
    return this.passed(v, before, (x, later) => forbidden[later ? x * now.size + v : v * now.size + x]! > made);
  }

  /** Whether something holds of any operation that v passes on its machine; `later`: v comes after it. */
  private passed(v: number, before: number, test: (x: number, later: boolean) => boolean): boolean {
    const { now } = this;
    // The new place is later if `before` stands somewhere behind v.
    const later = before >= 0 && this.standsBehind(before, v);
    if (later) {
      for (let x = now.next[v]!; ; x = now.next[x]!) {
        if (test(x, true)) return true;
        if (x === before) return false;
      }
    }
    for (let x = now.previous[v]!; x >= 0 && x !== before; x = now.previous[x]!) if (test(x, false)) return true;
    return false;
  }

  private standsBehind(x: number, v: number): boolean {
    for (let w = this.now.next[v]!; w >= 0; w = this.now.next[w]!) if (w === x) return true;
    return false;
  }

  private make({ v, mode, before }: Insertion): void {
    const { now, rng, forbidden, banned } = this;
    const { machine } = this.operations.modes[v]![mode]!;
    const [home, behind] = [now.machine[v]!, now.previous[v]!];
    const was = this.operations.modes[v]!.findIndex((one) => one.machine === home && one.minutes === now.minutes[v]);
    this.made++;
    const until = this.made + TENURE.least + rng.below(TENURE.more);
    if (machine === home) {
      this.passed(v, before, (x, later) => {
        forbidden[later ? v * now.size + x : x * now.size + v] = until;
        return false;
      });
    } else {
      banned[v * this.shop.machines + home] = until;
    }
    now.takeOut(v);
    now.putIn(v, mode, before);
    if (now.measure()) return;
    // Operations that take no time can make a circle: back.
    now.takeOut(v);
    now.putIn(v, was, behind);
    now.measure();
  }

  private shake(): void {
    for (let left = SHAKES.least + this.rng.below(SHAKES.more); left > 0; left--) {
      let move: Insertion | null = null;
      let all = 0;
      this.moves((one) => {
        if (this.rng.below(++all) === 0) move = one;
      });
      if (move === null) return;
      this.make(move);
    }
  }
}
