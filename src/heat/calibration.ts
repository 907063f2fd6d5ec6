/** The three figures of the model that no source gives: fitted to a third of the published roasting times and rises after roasting. */
export interface Calibration {
  /** Partial pressure of the vapour in the air of an oven of 165 °C in which something roasts, Pa. */
  readonly vapour: number;
  /** Share of the juice that meat presses out that wets its surface; the rest drips off. */
  readonly wets: number;
  /** A whole bird heats as a ball so many times as thick as the solid ball of its weight: it is hollow, and its breasts are two. */
  readonly bird: number;
}

export const CALIBRATION: Calibration = { vapour: 25_000, wets: 0.9, bird: 0.76 };
