/**
 * The dual of a minimum cost flow, which schedulers need: potentials p that minimise sum of pull[i] p[i] + sum over arcs of cap x
 * max(0, weight - (p[to] - p[from])). An arc of infinite cap is the constraint p[to] - p[from] >= weight. Pulls sum to zero. Whole
 * weights give whole potentials. Pulls and caps are best given as whole numbers, so that flows are exact.
 *
 * After `solve`, arcs may be added and muted, and `again` goes on from the last optimum: flows stay as they are, so the tree stays
 * feasible. `keep` and `restore` go back to an optimum.
 */
import { ArcTable } from './arc-table.js';
import { FlowTree, MUTE } from './flow-tree.js';

export class Network {
  private readonly table = new ArcTable();
  private readonly pull: number[] = [];
  private tree: FlowTree | null = null;

  /** Adds a node and returns its index. */
  node(): number {
    return this.pull.push(0) - 1;
  }

  /** The index of the next arc. */
  get arcs(): number {
    return this.table.count;
  }

  arc(from: number, to: number, weight: number, cap: number): void {
    this.table.add(from, to, weight, cap);
  }

  addPull(node: number, pull: number): void {
    this.pull[node] = this.pull[node]! + pull;
  }

  /** Potentials, node 0 at 0; null where no potentials keep all constraints, or nothing bounds the cost below. */
  solve(): Float64Array | null {
    this.tree = new FlowTree(this.table, this.pull);
    return this.tree.run(Number.POSITIVE_INFINITY) ? this.tree.potentials() : null;
  }

  /** After `solve`: takes a constraint away. */
  mute(arc: number): void {
    this.table.weight[arc] = MUTE;
  }

  /** After `solve` and changes: whether there are potentials that cost less than `most`; they are the best then. */
  again(most: number): boolean {
    this.tree!.settle();
    return this.tree!.run(most);
  }

  /** After `solve` or `again`: potentials, node 0 at 0. */
  potentials(): Float64Array {
    return this.tree!.potentials();
  }

  /** After `solve` or `again`: the arc's flow, which is its constraint's multiplier. */
  flow(arc: number): number {
    return this.table.flow[arc]!;
  }

  /** A constraint as it stands: p[to] - p[from] >= weight, or `cap` a unit for less. */
  row(arc: number): { readonly from: number; readonly to: number; readonly weight: number; readonly cap: number } {
    const { from, to, weight, cap } = this.table;
    return { from: from[arc]!, to: to[arc]!, weight: weight[arc]!, cap: cap[arc]! };
  }

  /** After `solve`: another weight; `again` then goes on from the last optimum. */
  reweigh(arc: number, weight: number): void {
    this.table.weight[arc] = weight;
  }

  /** After `solve` or `again`: the least cost. */
  get cost(): number {
    return this.tree!.cost();
  }

  /** Remembers the optimum for `restore`. */
  keep(): void {
    this.tree!.keep();
  }

  restore(): void {
    this.tree!.restore();
  }
}
