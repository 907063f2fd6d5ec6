/** What is taken of hands, burners, boards and heat, minute by minute, of an order that is being made. Pans are not reckoned with. */
import { type ActivityMode, type Model, type StandingLoad, stretchesOf, transitionTime } from '../../kernel/model.js';
import { connected } from '../../kernel/standing.js';
import type { Span } from './free-hands.js';

/** What is on a machine. */
interface On {
  readonly start: number;
  readonly end: number;
  readonly state: number;
  readonly load: StandingLoad | null;
}

/** A way of doing an activity, and when. */
export interface Taking extends Span {
  readonly id: number;
  readonly way: ActivityMode;
  readonly setting: number;
}

export class Taken {
  private readonly busy: Uint8Array[];
  private readonly units: Uint8Array[];
  private readonly benches: Uint16Array[];
  private readonly on: On[][];

  /** By what is settled, of a schedule that is under way. */
  constructor(private readonly model: Model) {
    const { horizon, workers, units, renewables, machines, activities } = model;
    this.busy = workers.map(({ stays }) => {
      const row = new Uint8Array(horizon + 1).fill(1);
      for (const { from, to } of stays) row.fill(0, Math.max(0, from), Math.min(horizon, to));
      return row;
    });
    this.units = Array.from({ length: units }, () => new Uint8Array(horizon + 1));
    this.benches = renewables.map(() => new Uint16Array(horizon + 1));
    this.on = machines.map(() => []);
    for (const { id, modes } of activities) {
      const as = model.progress!.settled[id]!;
      if (as === null) continue;
      const { start, minutes, hands, units: own } = as;
      this.take({ id, way: modes[0]!, setting: 0, start, minutes }, hands, own);
    }
  }

  take({ id, way, setting, start, minutes }: Taking, hands: readonly number[], units: readonly number[]): void {
    const end = start + minutes;
    const flat = stretchesOf(way.attention, minutes);
    for (const [i, w] of hands.entries()) {
      const k = 2 * Math.floor(i / way.attention.crew);
      if (k < flat.length) this.busy[w]!.fill(1, start + flat[k]!, start + flat[k]! + flat[k + 1]!);
    }
    for (const unit of units) this.units[unit]!.fill(1, start, end);
    if (way.bench >= 0) for (let t = start; t < end; t++) this.benches[way.bench]![t]!++;
    if (way.machine < 0) return;
    const { state } = way.settings[setting]!;
    const { program } = this.model.machines[way.machine]!.states[state]!;
    const spot = this.model.progress!.spots[id]!;
    const load = { program, load: way.load, count: way.loads, start, end, ...(spot >= 0 && { spot }) };
    this.on[way.machine]!.push({ start, end, state, load: way.load < 0 ? null : load });
  }

  /** Those who are free for each stretch in turn, `usual` before others; null where too few are. */
  handsFor({ way, start, minutes }: Taking, usual: readonly number[] | null): number[] | null {
    const { attention, able } = way;
    const { crew } = attention;
    const flat = stretchesOf(attention, minutes);
    const everybody = this.model.workers.map((_, w) => w);
    const out: number[] = [];
    for (let k = 0; k < flat.length; k += 2) {
      const from = start + flat[k]!;
      const to = from + flat[k + 1]!;
      const own = usual?.slice((k / 2) * crew, (k / 2 + 1) * crew) ?? [];
      const list = [...new Set([...own, ...out, ...everybody])];
      const free = list.filter((w) => (able >> w) % 2 === 1 && !this.busy[w]!.subarray(from, to).includes(1));
      if (free.length < crew) return null;
      out.push(...free.slice(0, crew));
    }
    return out;
  }

  /** As many as are needed, `usual` before others; null where too few are free. */
  unitsFor({ way, start, minutes }: Taking, usual: readonly number[] | null): number[] | null {
    const isFree = (unit: number): boolean => !this.units[unit]!.subarray(start, start + minutes).includes(1);
    const list = [...new Set([...(usual ?? []), ...way.units])].filter(
      (unit) => way.units.includes(unit) && isFree(unit),
    );
    return list.length < way.unitCount ? null : list.slice(0, way.unitCount);
  }

  /** Whether its board is free, and its appliance at its heat with room for it. */
  hasPlace({ way, setting, start, minutes }: Taking): boolean {
    const end = start + minutes;
    if (way.bench >= 0) {
      const { capacity } = this.model.renewables[way.bench]!;
      if (this.benches[way.bench]!.subarray(start, end).some((count) => count >= capacity)) return false;
    }
    if (way.machine < 0) return true;
    const machine = this.model.machines[way.machine]!;
    const { state } = way.settings[setting]!;
    if (start < this.model.progress!.ready[way.machine]![state]!) return false;
    const own: On = { start, end, state, load: null };
    const apart = (one: On, two: On): boolean =>
      one.state === two.state || two.start >= one.end + transitionTime(machine, one.state, two.state);
    const others = this.on[way.machine]!;
    if (!others.every((other) => (other.start <= start ? apart(other, own) : apart(own, other)))) return false;
    if (way.load < 0) return true;
    const { program } = machine.states[state]!;
    const standing = others.flatMap(({ load }) => load ?? []);
    return machine.fits(connected(standing, { program, load: way.load, count: way.loads, start, end }));
  }
}
