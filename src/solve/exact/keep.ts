/** What a neighbourhood keeps of a schedule: modes, hands, places and runs of the jobs that stay, and how these make room for each other. */
import type { Atom } from '../../constraint/engine.js';
import { type Literal, not } from '../../constraint/program.js';
import type { State } from '../../kernel/state.js';
import type { Built } from './build.js';
import type { Doing } from './times.js';

/** What a choice is about: how a step is done, who does it, which board or burner it has, in which run of a machine it is. */
export type Kind = 'mode' | 'hands' | 'unit' | 'run';

export class Keeper {
  /** Variables of literals, each with its job. */
  private readonly choices: { readonly variable: number; readonly job: number; readonly kind: Kind }[] = [];
  /** Variables of times, each with its job. */
  private readonly times: { readonly variable: number; readonly job: number }[] = [];
  private readonly orders: { readonly literal: Literal; readonly first: number; readonly second: number }[] = [];

  constructor(
    built: Built,
    private readonly jobOf: (thing: number) => number,
  ) {
    const things = new Map<Doing, number>();
    const seen = new Set<number>();
    const choice = (literal: Literal, job: number, kind: Kind): void => {
      const variable = literal >= 0 ? literal : not(literal);
      if (seen.has(variable)) return;
      seen.add(variable);
      this.choices.push({ variable, job, kind });
    };
    const { doing } = built.times;
    doing.forEach((one, a) => {
      things.set(one, a);
      const job = jobOf(a);
      this.addTimes(one, job);
      for (const literal of one.inMode) choice(literal, job, 'mode');
      for (const who of built.crews[a]!.values()) for (const literal of who.values()) choice(literal, job, 'hands');
      for (const use of built.units[a]!) for (const literal of use.values()) choice(literal, job, 'unit');
    });
    built.storages.forEach((one, job) => {
      if (one === null) return;
      things.set(one, doing.length + job);
      for (const literal of [one.happens, ...one.inMode]) choice(literal, job, 'mode');
    });
    for (const { users, inSlot } of built.runs) {
      users.forEach((user, u) => {
        for (const literal of inSlot[u]!) choice(literal, jobOf(things.get(user.doing)!), 'run');
      });
    }
    for (const { literal, first, second } of built.orders) {
      this.orders.push({ literal, first: things.get(first)!, second: things.get(second)! });
    }
  }

  private addTimes({ start, minutes }: Doing, job: number): void {
    for (const { terms } of [start, minutes]) {
      if (terms.size === 1) this.times.push({ variable: [...terms.keys()][0]!, job });
    }
  }

  /**
   * What of a schedule is about none of the jobs that are out; of those that stand still the times as well. Choices of the kind `loose` are open for
   * all jobs, and with them what comes before what, but among those that stand still. `wishes` are the schedule's values.
   */
  keep(
    state: State,
    wishes: readonly number[],
    out: ReadonlySet<number>,
    still: ReadonlySet<number>,
    loose: Kind | null,
  ): Atom[] {
    const atoms: Atom[] = [];
    for (const { variable, job } of this.times) {
      const value = wishes[variable]!;
      if (!still.has(job) || Number.isNaN(value)) continue;
      atoms.push({ half: 2 * variable, value }, { half: 2 * variable + 1, value: -value });
    }
    for (const { variable, job, kind } of this.choices) {
      const value = wishes[variable]!;
      if (out.has(job) || kind === loose || Number.isNaN(value)) continue;
      atoms.push(value === 1 ? { half: 2 * variable, value: 1 } : { half: 2 * variable + 1, value: 0 });
    }
    const activities = state.model.activities.length;
    const start = (thing: number): number =>
      thing < activities ? state.start[thing]! : state.store.start[thing - activities]!;
    const end = (thing: number): number =>
      thing < activities ? state.end(thing) : start(thing) + state.store.minutes[thing - activities]!;
    const isThere = (thing: number): boolean => thing < activities || state.store.mode[thing - activities]! >= 0;
    for (const { literal, first, second } of this.orders) {
      const [one, two] = [this.jobOf(first), this.jobOf(second)];
      if (out.has(one) || out.has(two)) continue;
      if (loose !== null && !(still.has(one) && still.has(two))) continue;
      if (isThere(first) && isThere(second) && end(first) <= start(second)) atoms.push({ half: 2 * literal, value: 1 });
    }
    return atoms;
  }
}
