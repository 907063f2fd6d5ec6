/** The three figures of the model that no source gives closely enough: fitted to published roasting times. */
export interface Calibration {
  /** Convection to a piece in a still oven, W/m²K. */
  readonly still: number;
  /** kg/m² of water lost that leave a roasting surface e times less wet. */
  readonly dries: number;
  /** A whole bird heats as a ball so many times as thick as the ball of its weight: it is hollow, and its breasts are two. */
  readonly bird: number;
}

export const CALIBRATION: Calibration = { still: 7, dries: 1.5, bird: 0.75 };
