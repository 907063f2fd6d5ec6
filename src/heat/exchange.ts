/**
 * What a surface takes from its surroundings: convection from the air, radiation from the walls, contact with a hot plate, less
 * what evaporation from it takes away. W/m², °C, kg/m²s, Pa.
 */
import {
  airPotential,
  boilingPoint,
  filmFactor,
  latentHeat,
  massTransferCoefficient,
  SEA_LEVEL_PRESSURE,
  vapourPotential,
} from './vapour.js';

/** Stefan and Boltzmann's constant, W/m²K⁴ (CODATA 2018). */
const STEFAN_BOLTZMANN = 5.670374419e-8;

export interface Surroundings {
  /** °C, up to 400. */
  readonly air: number;
  /** Of convection, W/m²K, 0 or more. */
  readonly coefficient: number;
  /** What the surface sees: °C of the walls and emissivity (0 to 1) of the surface, a small grey body in a large enclosure; absent: no radiation. */
  readonly walls?: { readonly celsius: number; readonly emissivity: number };
  /** Absent: nothing evaporates. Vapour is carried off by the same air that brings heat, so without a coefficient nothing evaporates either. */
  readonly moisture?: Moisture;
  /** A hot plate that touches a share (0 to 1) of the surface, with a contact coefficient in W/m²K. Steam leaves from under it as from elsewhere. */
  readonly plate?: { readonly celsius: number; readonly coefficient: number; readonly share: number };
}

export interface Moisture {
  /** Partial pressure of the vapour in the air, Pa. */
  readonly vapour: number;
  /** 1: evaporates like open water; 0: dry. Steam condenses on any surface. */
  readonly wetness: number;
  /**
   * Drying: what leaves must come through a layer that grows with what has left and no juice has made up for. Where `dries` kg/m² of
   * water are lacking it comes half as easily as at first, with three times that a quarter. Infinity: it stays as wet as it was.
   */
  readonly dries: number;
  /** Of the air, Pa; absent: at sea level. */
  readonly pressure?: number;
}

/** A surface without any exchange. */
export const INSULATED: Surroundings = { air: 20, coefficient: 0 };

export function isInsulated({ coefficient, walls, plate }: Surroundings): boolean {
  return coefficient === 0 && walls === undefined && (plate === undefined || plate.share * plate.coefficient === 0);
}

/** The surroundings made ready for the solver's inner loop: `at` fills the fields, nothing is allocated. */
export class Exchange {
  /** Net heat into the piece, W/m². */
  heat = 0;
  /** How fast that falls with the surface's temperature, W/m²K, 0 or more. */
  slope = 0;
  /** Water that leaves, kg/m²s; negative: it condenses. */
  water = 0;
  /** How fast that grows with the surface's temperature, kg/m²sK, 0 or more. */
  waterSlope = 0;
  /** How fast the heat grows, and the water lessens, with the water that is lacking: W/kg, 1/s. */
  heatDrying = 0;
  waterDrying = 0;

  private readonly air: number;
  private readonly coefficient: number;
  private readonly sigma: number;
  private readonly walls4: number;
  private readonly plate: number;
  private readonly plateCelsius: number;
  private readonly bare: number;
  private readonly transfer: number;
  private readonly wetness: number;
  private readonly perLack: number;
  private readonly airPotential: number;
  private readonly potentials: Float64Array;

  constructor(surroundings: Surroundings) {
    const { air, coefficient, walls, plate, moisture } = checked(surroundings);
    this.air = air;
    this.plate = plate === undefined ? 0 : plate.share * plate.coefficient;
    this.plateCelsius = plate?.celsius ?? 0;
    this.bare = 1 - (plate?.share ?? 0);
    this.coefficient = this.bare * coefficient;
    this.sigma = walls === undefined ? 0 : this.bare * walls.emissivity * STEFAN_BOLTZMANN;
    this.walls4 = walls === undefined ? 0 : (walls.celsius + 273.15) ** 4;
    const pressure = moisture?.pressure ?? SEA_LEVEL_PRESSURE;
    this.transfer = moisture === undefined ? 0 : massTransferCoefficient(coefficient);
    this.wetness = moisture?.wetness ?? 0;
    this.perLack = moisture === undefined ? 0 : 1 / moisture.dries;
    this.airPotential = airPotential(moisture?.vapour ?? 0, pressure);
    this.potentials = potentialsAt(pressure);
  }

  /** At a surface of `celsius` that lacks `lacks` kg/m² of water. */
  at(celsius: number, lacks: number): void {
    let water = 0;
    let latent = 0;
    let waterSlope = 0;
    let waterDrying = 0;
    if (this.transfer > 0) {
      const { potentials } = this;
      const place = (celsius - COLDEST) * PER_DEGREE;
      const row = Math.min(Math.max(Math.floor(place), 0), potentials.length - 2);
      const rise = potentials[row + 1]! - potentials[row]!;
      const drive = potentials[row]! + (place - row) * rise - this.airPotential;
      const layer = 1 + lacks * this.perLack;
      let wet = this.wetness / layer;
      let steeper = 0;
      if (drive >= 0) waterDrying = (this.transfer * wet * drive * this.perLack) / layer;
      else {
        // What condenses makes any surface wet: by and by, for a bend would keep the solver from settling on it.
        const part = Math.min(-drive / CONDENSES, 1);
        steeper = part < 1 ? (1 - wet) * part * part * (6 - 6 * part) : 0;
        wet += (1 - wet) * part * part * (3 - 2 * part);
      }
      water = this.transfer * wet * drive;
      latent = latentHeat(celsius);
      waterSlope = this.transfer * (wet + steeper) * rise * PER_DEGREE;
    }
    const film = this.coefficient * filmFactor(water, this.coefficient);
    const kelvin = celsius + 273.15;
    const kelvin3 = kelvin * kelvin * kelvin;
    this.water = water;
    this.heat =
      film * (this.air - celsius) +
      this.sigma * (this.walls4 - kelvin3 * kelvin) +
      this.plate * (this.plateCelsius - celsius) -
      water * latent;
    this.slope = film + 4 * this.sigma * kelvin3 + this.plate + waterSlope * latent;
    this.waterSlope = waterSlope;
    this.waterDrying = waterDrying;
    this.heatDrying = waterDrying * latent;
  }
}

/** Where the air's potential is more than a surface's by this much, a dry surface takes up vapour as a wet one does. */
const CONDENSES = 0.5;

/** Rows of the table of vapour potentials. From the boiling point on the potential is a straight line, so the last rows serve for any heat. */
const COLDEST = -20;
const PER_DEGREE = 8;

const tables = new Map<number, Float64Array>();

/** Kept by pressure: it is the same for every surface of a kitchen. */
function potentialsAt(pressure: number): Float64Array {
  let table = tables.get(pressure);
  if (table === undefined) {
    const rows = Math.ceil((boilingPoint(pressure) - COLDEST) * PER_DEGREE) + 1;
    table = Float64Array.from({ length: rows }, (_, row) => vapourPotential(COLDEST + row / PER_DEGREE, pressure));
    tables.set(pressure, table);
  }
  return table;
}

function checked(surroundings: Surroundings): Surroundings {
  const { air, coefficient, walls, plate, moisture } = surroundings;
  const temperatures = [air, walls?.celsius ?? 0, plate?.celsius ?? 0];
  const coefficients = [coefficient, plate?.coefficient ?? 0];
  const shares = [walls?.emissivity ?? 0, plate?.share ?? 0, moisture?.wetness ?? 0];
  if (!temperatures.every((celsius) => celsius >= -40 && celsius <= 1000)) {
    throw new RangeError(`Surroundings are between -40 and 1000 °C, not ${temperatures.join(', ')}`);
  }
  if (!coefficients.every((value) => value >= 0 && value <= 1e6)) {
    throw new RangeError(`A coefficient is between 0 and 1,000,000 W/m²K, not ${coefficients.join(', ')}`);
  }
  if (!shares.every((value) => value >= 0 && value <= 1)) {
    throw new RangeError(`Emissivity, share and wetness are between 0 and 1, not ${shares.join(', ')}`);
  }
  if (moisture !== undefined && !(moisture.vapour >= 0 && moisture.dries > 0 && (moisture.pressure ?? 1e5) >= 1e4)) {
    throw new RangeError('Vapour is 0 Pa or more, drying above 0 kg/m², pressure 10,000 Pa or more');
  }
  return surroundings;
}
