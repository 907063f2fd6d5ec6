/**
 * Heat runs of each machine: slots in the order of time, each with a program and a setting of the dial. What is done in the machine
 * lies in one slot. Between slots lies the changeover, a linear row in the two settings.
 */

import { choiceOf, FAR, type Literal, not, of, type Program, Sum, type Way } from '../../constraint/program.js';
import { type Machine, transitionTime } from '../../kernel/model.js';
import type { Dial } from '../../problem/problem.js';
import type { Doing, Times } from './times.js';

/** The meal cannot be said in rows of whole numbers. */
export class Unwritable extends Error {}

/** Something in a machine, with the modes in which it is there. */
export interface User {
  readonly doing: Doing;
  readonly modes: readonly number[];
  /** True where it is in the machine. */
  readonly there: Literal;
}

export interface Runs {
  readonly users: readonly User[];
  /** Minute at which the first changeover begins, and whether there is one. */
  readonly opening: Sum;
  readonly used: Literal;
  /** By user and run: true where it lies in that run. */
  readonly inSlot: readonly (readonly Literal[])[];
}

export function usersOf(times: Times, storages: readonly (Doing | null)[], machine: number): User[] {
  const all = [...times.doing, ...storages.filter((one) => one !== null)];
  return all.flatMap((doing): User[] => {
    const modes = doing.modes.map((_, m) => m).filter((m) => doing.modes[m]!.machine === machine);
    if (modes.length === 0) return [];
    const literals = modes.map((m) => doing.inMode[m]!);
    const there = modes.length === doing.modes.length ? doing.happens : times.program.anyOf(literals);
    return [{ doing, modes, there }];
  });
}

/** Temperatures as whole steps of the dial, and minutes by steps as fractions with one denominator. */
interface Scale {
  readonly stepOf: (state: number) => number;
  readonly denominator: number;
  /** Numerators of the minutes for one step up and down, and from the beginning to step 0. */
  readonly up: number;
  readonly down: number;
  readonly upAtFirst: number;
  readonly downAtFirst: number;
}

export function addRuns(times: Times, m: number, dial: Dial, users: readonly User[], appliance: Pace): Runs | null {
  if (users.length === 0) return null;
  const { program, model, latest } = times;
  const machine = model.machines[m]!;
  const scale = scaleOf(machine, dial, appliance);
  const steps = machine.states.map((_, s) => scale.stepOf(s));
  const count = Math.min(users.length, times.limits.runs);
  const programs = [...new Set(machine.states.map((s) => s.program))];

  const slots = Array.from({ length: count }, (_, r) => ({
    active: program.bool(`run ${m}.${r}`),
    start: of(program.int(0, latest)),
    end: of(program.int(0, latest)),
    step: of(program.int(Math.min(...steps), Math.max(...steps))),
    program: choiceOf(program, programs.length, program.yes),
  }));
  slots.forEach((slot, r) => {
    program.atLeast(slot.end.copy().plus(slot.start, -1), 0);
    if (r === 0) return;
    const before = slots[r - 1]!;
    program.imply(slot.active, before.active);
    const between = slot.start.copy().plus(before.end, -1);
    program.atLeast(between, 0);
    const rise = slot.step.copy().plus(before.step, -1);
    changeover(program, between, rise, scale, [slot.active]);
  });

  // inSlot[u][r]: the user lies in that run.
  const inSlot = users.map((user) => slots.map((slot) => addMembership(times, machine, scale, user, slot, programs)));
  users.forEach(({ doing, there }, u) => void program.inOneOf(slots, doing.start, doing.end, inSlot[u]!, there));
  if (times.limits.idle === 'exact') addIdle(times, machine, users, slots, inSlot);
  else addLeastIdle(times, machine, users, slots);

  slots.forEach((slot, r) => {
    program.some(
      inSlot.map((own) => own[r]!),
      [slot.active],
    );
    if (r > 0) program.pay(new Sum().add(slot.active), machine.runCost);
  });
  const first = slots[0]!;
  const warmUp = of(program.int(0, latest));
  const den = scale.denominator;
  program.atLeast(scaled(warmUp, den).plus(first.step, -scale.up), scale.upAtFirst, [first.active]);
  program.atLeast(scaled(warmUp, den).plus(first.step, scale.down), scale.downAtFirst, [first.active]);
  const opening = first.start.copy().plus(warmUp, -1);
  program.atLeast(opening, 0, [first.active]);
  return { users, opening, used: first.active, inSlot };
}

interface Slot {
  readonly active: Literal;
  readonly start: Sum;
  readonly end: Sum;
  readonly step: Sum;
  readonly program: readonly Literal[];
}

export interface Pace {
  readonly room: number;
  readonly heats: number;
  readonly cools: number;
}

const scaled = (sum: Sum, factor: number): Sum => new Sum().plus(sum, factor);

function changeover(program: Program, minutes: Sum, rise: Sum, scale: Scale, when: readonly Literal[]): void {
  program.atLeast(scaled(minutes, scale.denominator).plus(rise, -scale.up), 0, when);
  program.atLeast(scaled(minutes, scale.denominator).plus(rise, scale.down), 0, when);
}

function addMembership(
  { program }: Times,
  machine: Machine,
  scale: Scale,
  { doing, modes, there }: User,
  slot: Slot,
  programs: readonly number[],
): Literal {
  const inside = program.bool();
  program.imply(inside, slot.active);
  program.imply(inside, there);
  const ways = modes.map((m): Way => {
    const { settings } = doing.modes[m]!;
    const own = machine.states[settings[0]!.state]!.program;
    program.some([slot.program[programs.indexOf(own)]!], [inside, doing.inMode[m]!]);
    return { at: doing.setting[m]!, when: doing.inMode[m]!, values: settings.map((s) => scale.stepOf(s.state)) };
  });
  program.lookUp(slot.step, ways, [inside]);
  return inside;
}

/** No fewer than the minutes of all runs less those of all that is on: exact where nothing is on together. */
function addLeastIdle(
  { program, latest }: Times,
  machine: Machine,
  users: readonly User[],
  slots: readonly Slot[],
): void {
  if (machine.idleCost === 0) return;
  const idle = of(program.int(0, latest));
  const open = new Sum();
  for (const slot of slots) {
    open.plus(slot.end).plus(slot.start, -1);
    program.row(-FAR, slot.end.copy().plus(slot.start, -1), 0, [not(slot.active)]);
  }
  for (const { doing, there } of users) {
    if (there === program.yes) {
      open.plus(doing.minutes, -1);
      continue;
    }
    const on = program.int(0, latest);
    program.atLeast(doing.minutes.copy().add(on, -1), 0);
    program.row(0, of(on), 0, [not(there)]);
    open.add(on, -1);
  }
  program.atLeast(idle.copy().plus(open, -1), 0);
  program.pay(idle, machine.idleCost);
}

/**
 * Minutes of runs in which nothing is on. Each user is the first of a run or follows another of the same run that began before it,
 * and is charged the gap between: the least choice is exact.
 */
function addIdle(
  { program, latest }: Times,
  machine: Machine,
  users: readonly User[],
  slots: readonly Slot[],
  inSlot: readonly (readonly Literal[])[],
): void {
  const firsts = users.map((user, u) => {
    const way = new Sum().add(user.there, -1);
    const firsts = slots.map((slot, r) => {
      const first = program.bool();
      way.add(first);
      program.imply(first, inSlot[u]![r]!);
      program.row(0, slot.start.copy().plus(user.doing.start, -1), 0, [first]);
      return first;
    });
    const gap = of(program.int(0, latest));
    users.forEach((other, o) => {
      if (o === u) return;
      const follows = program.bool();
      way.add(follows);
      program.imply(follows, other.there);
      slots.forEach((_, r) => {
        program.some([inSlot[o]![r]!], [follows, inSlot[u]![r]!]);
      });
      program.atLeast(user.doing.start.copy().plus(other.doing.start, -1), o < u ? 0 : 1, [follows]);
      program.atLeast(gap.copy().plus(user.doing.start, -1).plus(other.doing.end), 0, [follows]);
    });
    program.row(0, way, 0);
    program.pay(gap, machine.idleCost);
    return firsts;
  });
  slots.forEach((slot, r) => {
    const opened = new Sum();
    for (const own of firsts) opened.add(own[r]!);
    program.row(0, opened.add(slot.active, -1), 0);
  });
}

/** Throws `Unwritable` where the rows would not give the machine's own transition times. */
function scaleOf(machine: Machine, dial: Dial, { room, heats, cools }: Pace): Scale {
  const inUnit = (celsius: number): number => (dial.unit === 'F' ? (celsius * 9) / 5 + 32 : celsius) / dial.step;
  const degrees = (dial.unit === 'F' ? 5 / 9 : 1) * dial.step;
  const stepOf = (state: number): number => Math.round(inUnit(machine.states[state]!.level));
  const zero = dial.unit === 'F' ? (-32 * 5) / 9 : 0;
  const fractions = [degrees / heats, degrees / cools, (zero - room) / heats, (room - zero) / cools];
  const denominator = denominatorOf(fractions);
  const [up, down, upAtFirst, downAtFirst] = fractions.map((f) => Math.round(f * denominator)) as [
    number,
    number,
    number,
    number,
  ];
  const scale = { stepOf, denominator, up, down, upAtFirst, downAtFirst };
  for (let from = -1; from < machine.states.length; from++) {
    for (let to = 0; to < machine.states.length; to++) {
      const rise = from < 0 ? stepOf(to) : stepOf(to) - stepOf(from);
      const [a, b] = from < 0 ? [upAtFirst, downAtFirst] : [0, 0];
      const least = Math.ceil(Math.max(a + up * rise, b - down * rise, 0) / denominator);
      if (least !== transitionTime(machine, from, to))
        throw new Unwritable(`changeover ${from} to ${to} is not ${least}`);
    }
  }
  return scale;
}

/** The least that makes whole numbers of all these, to within rounding. */
function denominatorOf(fractions: readonly number[]): number {
  for (let d = 1; d < 100_000; d++) {
    if (fractions.every((f) => Math.abs(f * d - Math.round(f * d)) < 1e-7 * d)) return d;
  }
  throw new Unwritable('no common denominator of the changeover rates');
}
