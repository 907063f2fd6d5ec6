/** The three figures of the model that no source gives: fitted to a third of the published roasting times and rises after roasting. */
export interface Calibration {
  /** Partial pressure of the vapour in the air of an oven of 165 °C in which something roasts, Pa. */
  readonly vapour: number;
  /** Minutes in which all but 1/e of the juice that meat presses out comes to its surface. */
  readonly seeps: number;
  /** A whole bird heats as a ball so many times as thick as the solid ball of its weight: it is hollow, and its breasts are two. */
  readonly bird: number;
}

export const CALIBRATION: Calibration = { vapour: 25_000, seeps: 7, bird: 0.74 };
