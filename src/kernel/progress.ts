/**
 * A schedule that is made anew while it is under way: what has been settled, from when on the rest may begin, and what leaving the
 * schedule that everybody knows costs. Points of this kind are no part of the objective; they keep it from jumping about without gain.
 */

/** An activity that is as it is. Its only mode and setting say how; neighbours that are both settled are not held to any rule. */
export interface Settled {
  readonly start: number;
  readonly minutes: number;
  readonly hands: readonly number[];
  readonly units: readonly number[];
  /** Bit w set: worker w can have what is still to come of its attention. */
  readonly able: number;
}

/** How an activity was to be done; of a settled one only `spot` and `bench` count. */
export interface Usual {
  /** -1: in a way that there is no more. */
  readonly mode: number;
  readonly setting: number;
  /** Bit w set: worker w was to be on it. */
  readonly hands: number;
  readonly units: readonly number[];
  /** Where its loads were to stand, and which unit of its bench it was to have: for those who write the schedule down; -1: not known. */
  readonly spot: number;
  readonly bench: number;
}

/** Points for each minute by which an activity starts before, and after, a moment. */
export interface Wish {
  readonly at: number;
  readonly before: number;
  readonly after: number;
}

/** Points for doing an activity otherwise than was usual. */
export interface SwerveRates {
  /** For each worker who was not to be on it. */
  readonly hands: number;
  /** For another mode, another setting of the same, and other units. */
  readonly mode: number;
  readonly setting: number;
  readonly units: number;
}

export interface Progress {
  readonly now: number;
  /** By activity; null where it may still be moved. */
  readonly settled: readonly (Settled | null)[];
  /** By activity: the earliest and the latest start. */
  readonly earliest: Int32Array;
  readonly latest: Int32Array;
  /** By activity; null where there was none. */
  readonly usual: readonly (Usual | null)[];
  readonly wishes: readonly (readonly Wish[])[];
  readonly rates: SwerveRates;
  /** By machine: the earliest minute at which it can be in each state, from the state in which it is now. */
  readonly ready: readonly Int32Array[];
  /** By activity and by job (its storage): which kept spot its loads have; -1: none. */
  readonly spots: Int32Array;
  readonly storeSpots: Int32Array;
  /** By job: its storage has begun, and its start stays. */
  readonly stored: Uint8Array;
}
