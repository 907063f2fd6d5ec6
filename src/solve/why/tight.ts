/**
 * What holds each moment of a schedule where it is. The best times of an order are those that keep all rows and leave the rows with
 * flow as they are (complementary slackness), again a set of differences: shortest ways in it say how far a moment could move
 * at no cost, and the rows on such a way are what stops it.
 */
import type { ReasonNetwork, RuleRow } from './reason-network.js';

/** `sooner`: what keeps a moment from coming before its time; `later`: from coming after it. */
export type Side = 'sooner' | 'later';

/** One step of a chain: `node` cannot move by itself, since `other` stays where it is. */
export interface Tie {
  readonly node: number;
  readonly other: number;
  readonly row: RuleRow;
  /** True: a rule would be broken. False: it would cost points. */
  readonly rule: boolean;
  /** The row would be kept, but what it presses together would part, and something wait. */
  readonly back: boolean;
}

export interface Hold {
  /** Minutes that each moment could move at no cost, all else moving along. */
  readonly free: Float64Array;
  /** From the moment to minute 0. */
  readonly chain: (node: number) => Tie[];
}

/** Slacks (minutes) and flows (whole numbers, see `timing-network.ts`) below these are none. */
const TINY = 1e-6;
const NO_FLOW = 0.5;

/** Hops count so little that they only choose between ways of the same slack. */
const HOP = 1 / 4096;

interface Edge {
  readonly to: number;
  readonly slack: number;
  readonly tie: Tie;
}

/** By the rules alone, whatever it costs: also where the schedule's times are not the best of its order. */
export function holdsByRule(network: ReasonNetwork, times: Float64Array): Record<Side, Hold> {
  const rules = network.rows.filter(({ cap }) => !Number.isFinite(cap));
  return holdsWith(
    rules,
    times,
    rules.map(() => 0),
  );
}

/** Null where the schedule's times are not the best of its order, so that flows say nothing of them. */
export function holdsOf(network: ReasonNetwork, times: Float64Array): Record<Side, Hold> | null {
  const flows = network.rows.map(({ arc }) => network.network.flow(arc));
  const best = network.rows.every((row, i) => {
    const slack = slackOf(times, row);
    const flow = flows[i]!;
    const keeps = slack > -TINY || flow > row.cap - NO_FLOW;
    return keeps && (slack < TINY || flow < NO_FLOW);
  });
  return best ? holdsWith(network.rows, times, flows) : null;
}

const slackOf = (times: Float64Array, { from, to, weight }: RuleRow): number => times[to]! - times[from]! - weight;

function holdsWith(rows: readonly RuleRow[], times: Float64Array, flows: readonly number[]): Record<Side, Hold> {
  const edges = { sooner: listed(times.length), later: listed(times.length) };
  rows.forEach((row, i) => {
    const slack = slackOf(times, row);
    const flow = flows[i]!;
    const { from, to } = row;
    const rule = !Number.isFinite(row.cap);
    if (flow < row.cap - NO_FLOW) {
      // `to` holds `from` back, and `from` holds `to`.
      edges.later[to]!.push({ to: from, slack, tie: { node: from, other: to, row, rule, back: false } });
      edges.sooner[from]!.push({ to, slack, tie: { node: to, other: from, row, rule, back: false } });
    }
    if (flow > NO_FLOW) {
      edges.later[from]!.push({ to, slack: -slack, tie: { node: to, other: from, row, rule: false, back: true } });
      edges.sooner[to]!.push({ to: from, slack: -slack, tie: { node: from, other: to, row, rule: false, back: true } });
    }
  });
  return { sooner: shortest(edges.sooner), later: shortest(edges.later) };
}

const listed = (count: number): Edge[][] => Array.from({ length: count }, () => []);

/** Shortest ways from minute 0 (E. W. Dijkstra, Numerische Mathematik 1, 1959), by slack and then by few ties. */
function shortest(edges: readonly (readonly Edge[])[]): Hold {
  const n = edges.length;
  const free = new Float64Array(n).fill(Number.POSITIVE_INFINITY);
  const tie: (Tie | null)[] = new Array(n).fill(null);
  const done = new Uint8Array(n);
  free[0] = 0;
  for (;;) {
    let next = -1;
    for (let v = 0; v < n; v++) if (done[v] === 0 && (next < 0 || free[v]! < free[next]!)) next = v;
    if (next < 0 || free[next] === Number.POSITIVE_INFINITY) break;
    done[next] = 1;
    for (const edge of edges[next]!) {
      const at = free[next]! + Math.max(0, edge.slack) + HOP;
      if (at >= free[edge.to]!) continue;
      free[edge.to] = at;
      tie[edge.to] = edge.tie;
    }
  }
  const chain = (node: number): Tie[] => {
    const out: Tie[] = [];
    for (let at = node; at !== 0 && tie[at] !== null; at = tie[at]!.other) out.push(tie[at]!);
    return out;
  };
  return { free: free.map(Math.floor), chain };
}
