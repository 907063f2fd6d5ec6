/**
 * Thermal properties of foods by composition and temperature, and the table of them that the solver walks through.
 * °C, kg/m³, J/kgK, W/mK, m²/s. Source: Choi and Okos (1986), Effects of temperature and composition on the thermal properties of foods,
 * as in the ASHRAE Handbook, Refrigeration. Valid from 0 to 150 °C; outside, the value at the nearer end stands. There is no
 * ice here: a frozen piece is out of range.
 */
import type { Composition } from './composition.js';
import { pressedOut } from './contraction.js';

/** Heat capacity of the juice, J/kgK. */
const WATER = 4180;
const LOWEST = 0;
const HIGHEST = 150;

type Parabola = readonly [number, number, number];

export interface Component {
  readonly conductivity: Parabola;
  readonly density: Parabola;
  /** J/kgK. */
  readonly heatCapacity: Parabola;
}

/** Coefficients of 1, t and t². Water's heat capacity begins with 4176.2 and fat's conductivity falls by 2.7604e-4: reprints differ. */
export const COMPONENTS: Readonly<Record<keyof Composition, Component>> = {
  water: {
    conductivity: [0.57109, 0.0017625, -6.7036e-6],
    density: [997.18, 0.0031439, -0.0037574],
    heatCapacity: [4176.2, -0.090864, 0.0054731],
  },
  protein: {
    conductivity: [0.17881, 0.0011958, -2.7178e-6],
    density: [1329.9, -0.5184, 0],
    heatCapacity: [2008.2, 1.2089, -0.0013129],
  },
  fat: {
    conductivity: [0.18071, -0.00027604, -1.7749e-7],
    density: [925.59, -0.41757, 0],
    heatCapacity: [1984.2, 1.4733, -0.0048008],
  },
  carbohydrate: {
    conductivity: [0.20141, 0.0013874, -4.3312e-6],
    density: [1599.1, -0.31046, 0],
    heatCapacity: [1548.8, 1.9625, -0.0059399],
  },
  fibre: {
    conductivity: [0.18331, 0.0012497, -3.1683e-6],
    density: [1311.5, -0.36589, 0],
    heatCapacity: [1845.9, 1.8306, -0.0046509],
  },
  ash: {
    conductivity: [0.32962, 0.0014011, -2.9069e-6],
    density: [2423.8, -0.28063, 0],
    heatCapacity: [1092.6, 1.8896, -0.0036817],
  },
};

const NAMES = Object.keys(COMPONENTS) as (keyof Composition)[];

const within = (celsius: number): number => Math.min(Math.max(celsius, LOWEST), HIGHEST);
// By index: taking an array apart is slow in a process that has just begun.
const at = (p: Parabola, celsius: number): number => p[0] + celsius * (p[1] + celsius * p[2]);
const integral = (p: Parabola, celsius: number): number =>
  celsius * (p[0] + celsius * (p[1] / 2 + (celsius * p[2]) / 3));

/** What a composition is of: its components, and the share of each by mass. */
interface Mixture {
  readonly components: readonly Component[];
  readonly shares: readonly number[];
  /** J/kgK. */
  readonly heatCapacity: Parabola;
}

function mixtureOf(composition: Composition): Mixture {
  const names = NAMES.filter((name) => composition[name] > 0);
  const total = names.reduce((sum, name) => sum + composition[name], 0);
  const components = names.map((name) => COMPONENTS[name]);
  const shares = names.map((name) => composition[name] / total);
  const mean = (power: 0 | 1 | 2): number =>
    components.reduce((sum, { heatCapacity }, i) => sum + shares[i]! * heatCapacity[power], 0);
  return { components, shares, heatCapacity: [mean(0), mean(1), mean(2)] };
}

/** m³/kg without pores, and W/mK by volume shares (parallel model). */
function bulkAt({ components, shares }: Mixture, celsius: number): { volume: number; conductivity: number } {
  const t = within(celsius);
  let volume = 0;
  let sum = 0;
  for (let i = 0; i < shares.length; i++) {
    const { density, conductivity } = components[i]!;
    const part = shares[i]! / at(density, t);
    volume += part;
    sum += part * at(conductivity, t);
  }
  return { volume, conductivity: sum / volume };
}

function heatAbove0({ heatCapacity }: Mixture, celsius: number): number {
  const t = within(celsius);
  return integral(heatCapacity, t) + at(heatCapacity, t) * (celsius - t);
}

/** kg/m³, without pores. */
export function densityOf(composition: Composition, celsius: number): number {
  return 1 / bulkAt(mixtureOf(composition), celsius).volume;
}

/** J/kgK. */
export function heatCapacityOf(composition: Composition, celsius: number): number {
  return at(mixtureOf(composition).heatCapacity, within(celsius));
}

/** W/mK, by volume shares (parallel model). */
export function conductivityOf(composition: Composition, celsius: number): number {
  return bulkAt(mixtureOf(composition), celsius).conductivity;
}

/** m²/s. */
export function diffusivityOf(composition: Composition, celsius: number): number {
  return (
    conductivityOf(composition, celsius) / (densityOf(composition, celsius) * heatCapacityOf(composition, celsius))
  );
}

/** J/kg above 0 °C: the integral of the heat capacity. */
export function enthalpyOf(composition: Composition, celsius: number): number {
  return heatAbove0(mixtureOf(composition), celsius);
}

/**
 * A food as the solver takes it: temperature and conductivity over the heat stored in a cubic metre, which is what a solver that
 * keeps its balance carries from step to step. Straight lines between rows; beyond the ends the last line goes on.
 */
export interface Matter {
  /** kg/m³; a piece keeps its mass and its size while it is heated. */
  readonly density: number;
  /** Heat of the first row, J/m³ above 0 °C, and rows per J/m³. */
  readonly lowest: number;
  readonly rowsPerHeat: number;
  readonly rows: number;
  /**
   * Row by row: °C, its gain to the next row; the integral of the conductivity over °C (Kirchhoff's transformation, under which heat flows
   * as if the conductivity were 1), W/m, its gain; W/mK, its gain; heat capacity J/m³K between this row and the next.
   */
  readonly table: Float64Array;
  /** kg/m³ that it presses out as it contracts, and the seconds in which all but 1/e of that comes to the surface. */
  readonly juice: number;
  readonly seeps: number;
}

export const ROW = 7;
const ROWS = 256;
const FROM = -40;
const TO = 400;

/**
 * A food of this composition. Its density is that at 20 °C, where it is weighed and measured; temperatures within 2e-4 K of the
 * formulas, -40 to 400 °C. `juice`: share of its weight that leaves as water when it contracts, and needs no more heat.
 */
export function matterOf(composition: Composition, juice = 0): Matter {
  const mixture = mixtureOf(composition);
  const gone = juice * WATER;
  return tabled(1 / bulkAt(mixture, 20).volume, juice, {
    enthalpy: (celsius) => heatAbove0(mixture, celsius) - gone * pressedOut(celsius).sum,
    heatCapacity: (celsius) => at(mixture.heatCapacity, within(celsius)) - gone * pressedOut(celsius).share,
    conductivity: (celsius) => bulkAt(mixture, celsius).conductivity,
  });
}

/** A substance of constant properties: kg/m³, J/kgK, W/mK, all above 0. */
export function constantMatter(density: number, heatCapacity: number, conductivity: number): Matter {
  if (!(density > 0 && heatCapacity > 0 && conductivity > 0)) {
    throw new RangeError('Density, heat capacity and conductivity must be above 0');
  }
  return tabled(density, 0, {
    enthalpy: (celsius) => heatCapacity * celsius,
    heatCapacity: () => heatCapacity,
    conductivity: () => conductivity,
  });
}

/** J/kg, J/kgK, W/mK; all of °C. */
type Laws = Readonly<Record<'enthalpy' | 'heatCapacity' | 'conductivity', (celsius: number) => number>>;

function tabled(density: number, juice: number, { enthalpy, heatCapacity, conductivity }: Laws): Matter {
  const lowest = density * enthalpy(FROM);
  const step = (density * enthalpy(TO) - lowest) / ROWS;
  const table = new Float64Array((ROWS + 1) * ROW);
  let celsius = FROM;
  for (let row = 0; row <= ROWS; row++) {
    const wanted = (lowest + row * step) / density;
    // The heat capacity changes slowly, so a few Newton steps from the row before are exact.
    for (let i = 0, off = 1; i < 5 && Math.abs(off) > 1e-9; i++) {
      off = (wanted - enthalpy(celsius)) / heatCapacity(celsius);
      celsius += off;
    }
    table[row * ROW] = celsius;
    table[row * ROW + 4] = conductivity(celsius);
  }
  for (let at = 0; at < ROWS * ROW; at += ROW) {
    const warmer = table[at + ROW]! - table[at]!;
    const mean = (table[at + 4]! + table[at + ROW + 4]!) / 2;
    table[at + 1] = warmer;
    table[at + 3] = mean * warmer;
    table[at + ROW + 2] = table[at + 2]! + mean * warmer;
    table[at + 5] = table[at + ROW + 4]! - table[at + 4]!;
    table[at + 6] = step / warmer;
  }
  return {
    density,
    lowest,
    rowsPerHeat: 1 / step,
    rows: ROWS,
    table,
    juice: density * juice,
    seeps: Number.POSITIVE_INFINITY,
  };
}

/** Heat stored at a temperature, J/m³ above 0 °C, by the same lines as the table. */
export function heatAt(matter: Matter, celsius: number): number {
  const { table, rows } = matter;
  let row = 0;
  while (row < rows - 1 && table[(row + 1) * ROW]! <= celsius) row++;
  return matter.lowest + (row + (celsius - table[row * ROW]!) / table[row * ROW + 1]!) / matter.rowsPerHeat;
}

/** °C, conductivity in W/mK and heat capacity in J/m³K at a stored heat, J/m³. */
export function stateAt(matter: Matter, heat: number): { celsius: number; conductivity: number; capacity: number } {
  const { table, rows } = matter;
  const place = (heat - matter.lowest) * matter.rowsPerHeat;
  const row = Math.min(Math.max(Math.floor(place), 0), rows - 1);
  const [part, at] = [place - row, row * ROW];
  return {
    celsius: table[at]! + part * table[at + 1]!,
    conductivity: table[at + 4]! + part * table[at + 5]!,
    capacity: table[at + 6]!,
  };
}
