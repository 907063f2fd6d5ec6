/**
 * What stands together: every least set of loads that do not fit in at one instant is kept from being in at once. That loads
 * keep their spots for their whole time is not in these rows; where a schedule that was found breaks it, the overlaps that did so are
 * forbidden and the program is solved again (`peer.ts`).
 */

import { type Literal, not, type Program } from '../../constraint/program.js';
import type { Machine, StandingLoad } from '../../kernel/model.js';
import type { Apartness } from './apartness.js';
import { clashesOf } from './clashes.js';
import type { User } from './heat.js';
import type { Rooms } from './rooms.js';
import type { Times } from './times.js';

/** A load in one of a machine's programs. */
interface Load {
  readonly user: User;
  readonly program: number;
  readonly load: number;
  readonly count: number;
  readonly there: Literal;
}

/** Beyond so many least sets in a program of a machine the rest is left to the cuts. */
const MOST_SETS = 20_000;

export function addSurface(times: Times, m: number, users: readonly User[], apartness: Apartness, rooms: Rooms): void {
  const { program, model } = times;
  const machine = model.machines[m]!;
  const loads = users.flatMap((user) => loadsOf(program, machine, user));
  for (const p of new Set(loads.map((load) => load.program))) {
    const own = loads.filter((load) => load.program === p);
    addProgram(program, own, apartness, (standing) => rooms.judge(m, standing) !== 'clash');
  }
}

function addProgram(
  program: Program,
  loads: readonly Load[],
  apartness: Apartness,
  mayFit: (standing: readonly StandingLoad[]) => boolean,
): void {
  const keys = [...new Set(loads.map(({ load, count }) => `${load} ${count}`))];
  const members = keys.map((key) => loads.filter(({ load, count }) => `${load} ${count}` === key));
  const kinds = members.map(([one]) => ({ load: one!.load, count: one!.count }));
  const clashes = clashesOf(
    kinds,
    members.map((list) => list.length),
    (amounts) =>
      mayFit(
        amounts.flatMap((n, k) =>
          Array.from({ length: n }, () => ({ program: loads[0]!.program, ...kinds[k]!, start: 0, end: 1 })),
        ),
      ),
  );
  const intervals = new Map(
    loads.map((load) => {
      const { start, minutes, end } = load.user.doing;
      return [load, program.interval(start, minutes, end, [load.there])];
    }),
  );
  for (const { kinds: among, most } of clashes.caps) {
    const own = members.flatMap((list, k) => (among.has(k) ? list : []));
    const all = own.map((load) => intervals.get(load)!);
    if (own.every(({ count }) => 2 * count > most)) program.noOverlap(all);
    else {
      program.cumulative(
        all,
        own.map(({ count }) => count),
        most,
      );
    }
  }
  const sets = function* (): Generator<Load[]> {
    for (const amounts of clashes.sets) yield* setsOf(members, amounts);
  };
  let count = 0;
  for (const set of sets()) {
    if (++count > MOST_SETS) break;
    // The ways of one and the same thing are never in at once.
    if (new Set(set.map((load) => load.user)).size < set.length) continue;
    const ways = set.map(({ there }) => not(there)).filter((literal) => literal !== program.no);
    set.forEach((one, k) => {
      for (const two of set.slice(0, k)) ways.push(...apartness.apart(one.user.doing, two.user.doing));
    });
    program.some(ways);
  }
}

/** Every choice of so many of each kind, one after the other. */
function* setsOf(members: readonly (readonly Load[])[], amounts: readonly number[], from = 0): Generator<Load[]> {
  if (from === amounts.length) {
    yield [];
    return;
  }
  for (const some of combinations(members[from]!, amounts[from]!)) {
    for (const others of setsOf(members, amounts, from + 1)) yield [...some, ...others];
  }
}

function* combinations<T>(list: readonly T[], n: number, from = 0): Generator<T[]> {
  if (n === 0) {
    yield [];
    return;
  }
  for (let i = from; i <= list.length - n; i++) {
    for (const rest of combinations(list, n - 1, i + 1)) yield [list[i]!, ...rest];
  }
}

function loadsOf(program: Program, machine: Machine, user: User): Load[] {
  const found = new Map<string, { load: number; count: number; program: number; modes: number[] }>();
  for (const m of user.modes) {
    const { load, loads, settings } = user.doing.modes[m]!;
    if (load < 0) continue;
    const own = machine.states[settings[0]!.state]!.program;
    const key = `${own} ${load} ${loads}`;
    const entry = found.get(key) ?? { load, count: loads, program: own, modes: [] };
    entry.modes.push(m);
    found.set(key, entry);
  }
  return [...found.values()].map(({ modes, ...load }) => {
    const all = modes.length === user.doing.modes.length;
    return { ...load, user, there: all ? user.there : program.anyOf(modes.map((m) => user.doing.inMode[m]!)) };
  });
}
