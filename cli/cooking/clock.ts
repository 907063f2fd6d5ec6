/** The time on the day: that of the machine, or one that is rehearsed and may run faster. */
import type { Io } from '../io.js';

export interface Clock {
  /** Milliseconds since the epoch. */
  readonly now: () => number;
  /** How many times as fast as the real one. */
  readonly speed: number;
}

const machine = (io: Io): number => io.now?.() ?? Date.now();

export const realClock = (io: Io): Clock => ({ now: () => machine(io), speed: 1 });

/** One that says `from` now. */
export function rehearsedClock(io: Io, from: number, speed: number): Clock {
  const begun = machine(io);
  return { now: () => from + (machine(io) - begun) * speed, speed };
}
