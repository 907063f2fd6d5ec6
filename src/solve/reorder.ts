/**
 * A schedule in time, and what changes of its order would save. Each change takes some rows away and adds others; the network goes on
 * from its last optimum, so that trying one costs a small part of timing the schedule anew.
 */
import { beyondCrew, extraHands } from '../kernel/cost.js';
import { isSettled } from '../kernel/model.js';
import type { State } from '../kernel/state.js';
import type { Compiled } from './compile.js';
import {
  type Entry,
  type HandOver,
  handedOver,
  type Line,
  linesOf,
  stretchEntry,
  stretchMoments,
  turnRows,
} from './lines.js';
import { addRows, machineRows } from './order-rows.js';
import { timingRuns } from './timetable.js';
import { inTime, written } from './timing.js';
import { type NodeMoment, TimingNetwork } from './timing-network.js';
import { mealRows } from './timing-rows.js';

/** `ahead`: `after` goes directly before `before` wherever it comes later. `hand`: another worker does the activity, or a stretch of it. */
export type Move =
  | { readonly kind: 'ahead'; readonly before: number; readonly after: number }
  | ({ readonly kind: 'hand'; readonly sooner: number } & HandOver);

/** Changes tried of one schedule. */
const MOST_MOVES = 80;
/** Workers to whom an activity may be handed over; of more, those who are free when it begins. */
const MOST_HANDS = 4;
/** How many places ahead an activity is tried. */
const AHEAD = 3;

export interface Loose {
  /**
   * Points for each minute for which workers, units, boards or pans are wanted twice; infinite where they cannot be. Else schedules may break these
   * rules, and those who end what has begun may change.
   */
  readonly clash: number;
  /** Points by which a change may make it dearer. */
  readonly dearer: number;
}

const STRICT: Loose = { clash: Number.POSITIVE_INFINITY, dearer: 0 };

interface Chain {
  readonly line: Line<NodeMoment>;
  /** First arc of what keeps entry i behind the one before it, and of its stay; one more at the end. */
  readonly turnArcs: number[];
  readonly stayArcs: number[];
}

export class Reorder {
  private readonly network: TimingNetwork;
  private readonly chains: Chain[] = [];
  /** Points at those times, up to a constant that is the same for every order; 0 where it has none. */
  readonly least: number;
  /** Most schedules are timed and never changed; only then is there an optimum to go back to. */
  private kept = false;
  /** The schedule in its best times; null where it has none. */
  readonly state: State | null;

  constructor(
    private readonly compiled: Compiled,
    private readonly given: State,
    private readonly loose: Loose = STRICT,
  ) {
    const network = new TimingNetwork(compiled, given, timingRuns(given), given.minutes, given.hands);
    this.network = network;
    mealRows(network);
    machineRows(network);
    for (const line of linesOf(network)) this.chains.push(this.chain(line));
    const timeOf = network.solve();
    this.state = timeOf === null ? null : this.made(given.hands, timeOf);
    this.least = timeOf === null ? 0 : network.points;
  }

  private made(hands: readonly (readonly number[])[], timeOf: (moment: NodeMoment) => number): State | null {
    const { network, given } = this;
    const make = this.isLoose ? inTime : written;
    return make(network, given.setting, hands, timeOf);
  }

  private get isLoose(): boolean {
    return this.loose.clash < Number.POSITIVE_INFINITY;
  }

  private chain(line: Line<NodeMoment>): Chain {
    const { network } = this;
    const turnArcs: number[] = [];
    const stayArcs: number[] = [];
    line.entries.forEach((entry, i) => {
      turnArcs.push(network.network.arcs);
      if (i > 0) addRows(network, turnRows(line.entries[i - 1]!, entry), this.loose.clash);
      stayArcs.push(network.network.arcs);
      addRows(network, entry.stay, this.loose.clash);
    });
    turnArcs.push(network.network.arcs);
    return { line, turnArcs, stayArcs };
  }

  /** Changes that may save something, the most promising first: those of neighbours whose order costs points. */
  moves(): Move[] {
    const found = new Map<string, { move: Move; rate: number }>();
    const add = (move: Move, rate: number): void => {
      const key =
        move.kind === 'ahead'
          ? `${move.before} ${move.after}`
          : `${move.a} ${move.stretch} ${move.from} ${move.to} ${move.sooner}`;
      const known = found.get(key);
      if (known === undefined || known.rate < rate) found.set(key, { move, rate });
    };
    const { network } = this;
    const { model } = this.compiled;
    for (const { arc, one, two } of network.turns) {
      const rate = network.rate(arc);
      if (rate > 1e-9 && one >= 0 && two >= 0) add({ kind: 'ahead', before: one, after: two }, rate);
    }
    for (const { line, turnArcs, stayArcs } of this.chains) {
      for (let i = 1; i < line.entries.length; i++) {
        let rate = 0;
        for (let arc = turnArcs[i]!; arc < stayArcs[i]!; arc++) rate += network.rate(arc);
        if (rate <= 1e-9) continue;
        const two = line.entries[i]!.a;
        for (let k = i - 1; k >= Math.max(0, i - AHEAD); k--) {
          const one = line.entries[k]!.a;
          if (one !== two && !(isSettled(model, one) && isSettled(model, two)))
            add({ kind: 'ahead', before: one, after: two }, rate / (i - k));
        }
        if (line.worker < 0) continue;
        for (const entry of [line.entries[i]!, line.entries[i - 1]!]) {
          const { a, stretch, settled } = entry;
          if (settled && (!this.isLoose || entry.at < model.progress!.now)) continue;
          for (const to of this.ableBeside(a, line.worker)) {
            if (settled && this.isElsewhere(to, entry)) continue;
            const over = { kind: 'hand', a, from: line.worker, to } as const;
            for (const sooner of [0, 1]) {
              if (!settled) add({ ...over, stretch: -1, sooner }, rate / (2 + sooner));
              if (this.isLoose) add({ ...over, stretch, sooner }, rate / (2 + sooner));
            }
          }
        }
      }
    }
    return [...found.values()]
      .sort((x, y) => y.rate - x.rate)
      .slice(0, MOST_MOVES)
      .map(({ move }) => move);
  }

  /** Whether what is settled has a worker at the time of an entry. */
  private isElsewhere(worker: number, { at, until }: Entry<NodeMoment>): boolean {
    const entries = this.chains.find(({ line }) => line.worker === worker)?.line.entries ?? [];
    return entries.some((other) => other.settled && other.at < until && at < other.until);
  }

  private ableBeside(a: number, worker: number): number[] {
    const { given } = this;
    const { able } = this.compiled.model.progress?.settled[a] ?? given.modeOf(a);
    const others = this.compiled.model.workers.map((_, w) => w).filter((w) => w !== worker && (able >> w) % 2 !== 0);
    if (others.length <= MOST_HANDS) return others;
    const start = given.start[a]!;
    return others.filter((w) => given.busy[w]![start] === 0).slice(0, MOST_HANDS);
  }

  /** Points that a change saves; where it saves none or cannot be, not above 0: as few as it may cost. */
  saving(move: Move): number {
    const extra = this.change(move);
    const most = this.least + this.loose.dearer;
    const saved =
      extra !== null && this.network.again(most - extra)
        ? this.least - this.network.points - extra
        : 0 - this.loose.dearer;
    this.network.network.restore();
    return saved;
  }

  /** The schedule with a change, in time; null where that cannot be. */
  taken(move: Move): State | null {
    const { network, given } = this;
    const possible = this.change(move) !== null && network.again(this.least + this.loose.dearer);
    const hands = given.hands.slice();
    if (move.kind === 'hand') hands[move.a] = handedOver(given, move) ?? given.hands[move.a]!;
    const next = possible ? this.made(hands, network.times()) : null;
    network.network.restore();
    return next;
  }

  /** Takes away and adds rows; the points beside the network's that the change costs, null where it cannot be. */
  private change(move: Move): number | null {
    if (!this.kept) this.network.network.keep();
    this.kept = true;
    if (move.kind === 'hand') return this.handOver(move);
    const { before, after } = move;
    for (const chain of this.chains) this.advance(chain, before, after);
    const { network, given } = this;
    const from = given.start[before]!;
    for (const { arc, one, two } of network.turns) {
      if (two !== after || one < 0 || (one !== before && given.start[one]! < from)) continue;
      network.network.mute(arc);
      network.apart(network.end(two), network.start(one), 0);
    }
    return 0;
  }

  private advance(chain: Chain, before: number, after: number): void {
    const { entries } = chain.line;
    const to = entries.findIndex((entry) => entry.a === before);
    if (to < 0) return;
    const order = entries.map((_, i) => i);
    let moved = to;
    for (let i = to + 1; i < entries.length; i++) {
      if (entries[i]!.a !== after) continue;
      order.splice(i, 1);
      order.splice(moved++, 0, i);
    }
    if (moved > to) this.relink(chain, order);
  }

  /** Rows of a line whose entries come in another order, some of them left out. */
  private relink({ line: { entries }, turnArcs, stayArcs }: Chain, order: readonly number[]): void {
    const kept = new Set<number>();
    const fresh: [number, number][] = [];
    for (let k = 1; k < order.length; k++) {
      if (order[k] === order[k - 1]! + 1) kept.add(order[k]!);
      else fresh.push([order[k - 1]!, order[k]!]);
    }
    for (let i = 1; i < entries.length; i++) {
      if (!kept.has(i)) for (let arc = turnArcs[i]!; arc < stayArcs[i]!; arc++) this.network.network.mute(arc);
    }
    for (const [i, k] of fresh) addRows(this.network, turnRows(entries[i]!, entries[k]!), this.loose.clash);
  }

  private handOver(move: Extract<Move, { kind: 'hand' }>): number | null {
    const { network, given } = this;
    const { a, from, to, sooner } = move;
    const hands = handedOver(given, move);
    if (hands === null) return null;
    const { model } = this.compiled;
    const { crew } = given.modeOf(a).attention;
    const fresh: Entry<NodeMoment>[] = [];
    for (const [k, stretch] of stretchMoments(network, a).entries()) {
      if (move.stretch >= 0 && move.stretch !== k) continue;
      if (!given.hands[a]!.slice(k * crew, (k + 1) * crew).includes(from)) continue;
      if (!model.workers[to]!.stays.some((s) => s.from <= stretch.at && stretch.at < s.to)) return null;
      fresh.push(stretchEntry(network, to, a, k, stretch));
    }
    const old = this.chains.find(({ line }) => line.worker === from)!;
    const goes = (entry: Entry<NodeMoment>): boolean =>
      entry.a === a && (move.stretch < 0 || move.stretch === entry.stretch);
    const left = old.line.entries.map((_, i) => i).filter((i) => !goes(old.line.entries[i]!));
    this.relink(old, left);
    old.line.entries.forEach((entry, i) => {
      if (!goes(entry)) return;
      for (let arc = old.stayArcs[i]!; arc < old.turnArcs[i + 1]!; arc++) network.network.mute(arc);
    });
    this.receive(this.chains.find(({ line }) => line.worker === to) ?? null, fresh, sooner);
    return model.rates.swap * (beyondCrew(hands, crew) - extraHands(given, a));
  }

  /** Puts entries into a worker's line by time, `sooner` places ahead of where they would come. */
  private receive(chain: Chain | null, fresh: readonly Entry<NodeMoment>[], sooner: number): void {
    const { network } = this;
    const entries = chain === null ? [] : chain.line.entries;
    const merged: { entry: Entry<NodeMoment>; index: number }[] = entries.map((entry, index) => ({ entry, index }));
    for (const entry of fresh) {
      addRows(network, entry.stay, this.loose.clash);
      let at = merged.findIndex((other) => other.entry.at > entry.at);
      if (at < 0) at = merged.length;
      merged.splice(Math.max(0, at - sooner), 0, { entry, index: -1 });
    }
    for (let k = 1; k < merged.length; k++) {
      const [one, two] = [merged[k - 1]!, merged[k]!];
      if (one.index < 0 || two.index < 0) addRows(network, turnRows(one.entry, two.entry), this.loose.clash);
      else continue;
      if (two.index > 0 && chain !== null) {
        for (let arc = chain.turnArcs[two.index]!; arc < chain.stayArcs[two.index]!; arc++) network.network.mute(arc);
      }
    }
  }
}
