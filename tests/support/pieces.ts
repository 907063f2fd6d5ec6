/** Pieces and surroundings that the checks of the heat solver share. */
import type { Moisture, Surroundings } from '../../src/heat/exchange.js';
import { INSULATED } from '../../src/heat/exchange.js';
import { constantMatter } from '../../src/heat/properties.js';
import { type Around, everywhere } from '../../src/heat/stretch.js';

/** Lean meat as in the reference values: 1060 kg/m³, 3500 J/kgK, 0.47 W/mK. */
export const MEAT = { density: 1060, heatCapacity: 3500, conductivity: 0.47 } as const;
export const MEAT_DIFFUSIVITY = MEAT.conductivity / (MEAT.density * MEAT.heatCapacity);
export const meat = constantMatter(MEAT.density, MEAT.heatCapacity, MEAT.conductivity);

/** Convection alone, on every side. */
export const air = (celsius: number, coefficient: number): Around => everywhere({ air: celsius, coefficient });

/** The same round a cylinder, whose ends are closed: as long a cylinder as you like. */
export const airRoundOnly = (celsius: number, coefficient: number): Around => ({
  ...air(celsius, coefficient),
  bottom: INSULATED,
  top: INSULATED,
});

/** A wet surface in the air of a kitchen or an oven with something in it. */
export const wet = (wetness = 1, dries = 2): Moisture => ({ vapour: 2000, wetness, dries });

/** Still air and walls of one temperature round a wet piece. */
export const oven = (celsius: number, coefficient = 10, moisture = wet()): Surroundings => ({
  air: celsius,
  coefficient,
  walls: { celsius, emissivity: 0.9 },
  moisture,
});

/** An open, hot grate or pan that touches the piece. */
export const onPlate = (celsius: number, coefficient = 300, share = 1): Surroundings => ({
  ...oven(40),
  plate: { celsius, coefficient, share },
});
