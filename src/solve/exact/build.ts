/** The whole program of one compiled meal. */

import { not, of, type Program } from '../../constraint/program.js';
import type { Compiled } from '../compile.js';
import { Apartness } from './apartness.js';
import { addChains } from './chains.js';
import { addRenewables } from './custodies.js';
import { addHands, addUnits, type Crews, type UnitUse } from './hands.js';
import { addRuns, type Runs, usersOf } from './heat.js';
import type { Rooms } from './rooms.js';
import { addStorages } from './storages.js';
import { addSurface } from './surfaces.js';
import { addTimes, type Doing, type Limits, type Times } from './times.js';

/** Loads that must not all stand on a machine with these overlaps. */
export interface Cut {
  readonly machine: number;
  /** Activities by id, then storages by job, each with the load as which it stands there. */
  readonly things: readonly {
    readonly id: number;
    readonly program: number;
    readonly load: number;
    readonly count: number;
  }[];
  /** By id. */
  readonly pairs: readonly (readonly [number, number])[];
}

export interface Built {
  readonly times: Times;
  readonly storages: readonly (Doing | null)[];
  readonly runs: readonly Runs[];
  readonly orders: Apartness['orders'];
  readonly crews: readonly Crews[];
  readonly units: readonly UnitUse[];
  /** Points that any plan outside the limits costs at least; Infinity where the limits exclude none. */
  readonly beyond: number;
}

export function build(
  program: Program,
  { problem, model, kit }: Compiled,
  rooms: Rooms,
  limits: Limits,
  cuts: readonly Cut[],
): Built {
  const times = addTimes(program, model, limits);
  const storages = addStorages(times);
  addChains(times, storages);
  const apartness = new Apartness(program);
  const day = of(program.int(0, model.serve));
  const allRuns: Runs[] = [];
  let beyond = model.horizon > times.latest ? model.rates.late * (limits.late + 1) : Number.POSITIVE_INFINITY;
  model.machines.forEach((machine, m) => {
    const { heats, cools, dial } = problem.kitchen.appliances[kit.applianceOf[m]!]!;
    const users = usersOf(times, storages, m);
    const runs = addRuns(times, m, dial, users, { room: problem.kitchen.room, heats, cools });
    if (runs === null) return;
    allRuns.push(runs);
    if (users.length > limits.runs) beyond = Math.min(beyond, machine.runCost * limits.runs);
    addSurface(times, m, users, apartness, rooms);
    program.atLeast(day.copy().plus(runs.opening).plus(-model.serve), 0, [runs.used]);
  });
  for (const activity of model.activities) {
    if (activity.ins.length === 0)
      program.atLeast(day.copy().plus(times.doing[activity.id]!.start).plus(-model.serve), 0);
  }
  program.pay(day, model.rates.day);
  const crews = addHands(times);
  const units = addUnits(times);
  addRenewables(times);
  const doing = (id: number): Doing =>
    id < model.activities.length ? times.doing[id]! : storages[id - model.activities.length]!;
  for (const { machine, things, pairs } of cuts) {
    const ways = pairs.flatMap(([a, b]) => apartness.apart(doing(a), doing(b)));
    const { states } = model.machines[machine]!;
    for (const { id, program: own, load, count } of things) {
      const { modes, inMode } = doing(id);
      const alike = modes.flatMap((mode, m) => {
        if (mode.machine !== machine || mode.load !== load || mode.loads !== count) return [];
        return states[mode.settings[0]!.state]!.program === own ? [inMode[m]!] : [];
      });
      const there = program.anyOf(alike);
      if (there !== program.yes) ways.push(not(there));
    }
    program.some(ways);
  }
  return { times, storages, runs: allRuns, orders: apartness.orders, crews, units, beyond };
}
