/** The whole program of one compiled meal. */
import type { Compiled } from '../../../src/solve/compile.js';
import { Apartness } from './apartness.js';
import { addRenewables } from './custodies.js';
import { addHands, addUnits, type Crews, type UnitUse } from './hands.js';
import { addRuns, usersOf } from './heat.js';
import { not, of, Program } from './program.js';
import type { Rooms } from './rooms.js';
import { addStorages } from './storages.js';
import { addSurface } from './surfaces.js';
import { addTimes, type Doing, type Limits, type Times } from './times.js';

/** Things done (activities by id, then storages by job) that must not all be in at once as they were. */
export type Cut = readonly (readonly [number, number])[];

export interface Built {
  readonly program: Program;
  readonly times: Times;
  readonly storages: readonly (Doing | null)[];
  readonly crews: readonly Crews[];
  readonly units: readonly UnitUse[];
  /** Points that any plan outside the limits costs at least; Infinity where the limits exclude none. */
  readonly beyond: number;
}

export function build({ problem, model, kit }: Compiled, rooms: Rooms, limits: Limits, cuts: readonly Cut[]): Built {
  const program = new Program();
  const times = addTimes(program, model, limits);
  const storages = addStorages(times);
  const apartness = new Apartness(program);
  const day = of(program.int(0, model.serve));
  let beyond = model.horizon > times.latest ? model.rates.late * (limits.late + 1) : Number.POSITIVE_INFINITY;
  model.machines.forEach((machine, m) => {
    const { heats, cools, dial } = problem.kitchen.appliances[kit.applianceOf[m]!]!;
    const users = usersOf(times, storages, m);
    const runs = addRuns(times, m, dial, users, { room: problem.kitchen.room, heats, cools });
    if (runs === null) return;
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
  const thing = (id: number): Doing =>
    id < model.activities.length ? times.doing[id]! : storages[id - model.activities.length]!;
  for (const cut of cuts) {
    const ways = cut.flatMap(([a, b]) => apartness.apart(thing(a), thing(b)));
    const things = new Set(cut.flat());
    for (const id of things) if (thing(id).happens !== program.yes) ways.push(not(thing(id).happens));
    program.some(ways);
  }
  return { program, times, storages, crews, units, beyond };
}
