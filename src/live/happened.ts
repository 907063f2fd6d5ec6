/**
 * What has happened in the kitchen so far, as the journal tells it and the reshuffle takes it. Steps and dishes are indices of
 * the problem; times are whole minutes after its `start`, as everywhere.
 */

/** Where and how a step was really begun; what is absent is as planned. */
export interface Begun {
  readonly start: number;
  /** Null while it is under way. */
  readonly end: number | null;
  /** An appliance's name, a burner's, `board`, or a zone's or rack's. */
  readonly place?: string;
  /** What the dial really says, °C. */
  readonly celsius?: number;
  /** Names of cooks. */
  readonly cooks?: readonly string[];
}

/** A thermometer's core temperature, °C. */
export interface Reading {
  readonly step: number;
  readonly at: number;
  readonly celsius: number;
}

/** Something of the kitchen that cannot be used from `at` on (or can again, where a later entry says so). */
export interface Loss {
  readonly at: number;
  readonly what:
    | { readonly kind: 'appliance'; readonly appliance: number }
    | { readonly kind: 'burner'; readonly appliance: number; readonly burner: number }
    | { readonly kind: 'pan'; readonly pan: number; readonly count: number }
    | { readonly kind: 'board'; readonly count: number };
}

export interface Happened {
  /** The present minute: nothing is planned to begin before it. */
  readonly now: number;
  /** By step; absent: not begun. */
  readonly steps: ReadonlyMap<number, Begun>;
  readonly readings: readonly Reading[];
  /** The serving time that is asked for now, minutes after `start`; the problem's own where nobody moved it. */
  readonly serve: number;
  readonly losses: readonly Loss[];
  /** Cooks (indices) who have left, and since when. */
  readonly gone: ReadonlyMap<number, number>;
  /** Dishes that will not be served after all; what was begun of them stays a fact and frees its place when it ended. */
  readonly dropped: ReadonlySet<number>;
}
