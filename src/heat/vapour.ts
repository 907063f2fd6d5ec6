/**
 * Water and its vapour: saturation, boiling, latent heat, and what drives evaporation from a wet surface.
 * °C, Pa, J, kg, metres. Air is dry air and water vapour, ideal gases.
 */

/** The standard atmosphere at sea level, Pa. */
export const SEA_LEVEL_PRESSURE = 101_325;
/** Molar mass of water over that of dry air. */
const MOLAR_RATIO = 18.01528 / 28.9647;
/** Specific heat of moist air near a surface, J/kgK (dry air 1,007 at 300 K; Incropera, Table A.4, from memory). */
const HEAT_CAPACITY_OF_AIR = 1010;
/** Specific heat of water vapour, J/kgK (1,870 to 1,900 between 25 and 100 °C; steam tables, from memory). */
export const HEAT_CAPACITY_OF_VAPOUR = 1880;
/** Thermal diffusivity of air over the diffusivity of water vapour in it, about 0.22 over 0.26 cm²/s at 25 °C (from memory). */
const LEWIS_NUMBER = 0.865;
const LEWIS_FACTOR = LEWIS_NUMBER ** (2 / 3);

/** IAPWS Industrial Formulation 1997, region 4, Table 34 (from memory; held to the formulation's own check values by the tests). */
const N = [
  1167.0521452767, -724_213.16703206, -17.073846940092, 12_020.82470247, -3_232_555.0322333, 14.91510861353,
  -4823.2657361591, 405_113.40542057, -0.23855557567849, 650.17534844798,
] as const;

/**
 * Saturation pressure over liquid water, Pa. Valid 0 to 373 °C; goes on smoothly a few degrees below 0.
 * Source: IAPWS-IF97, equation 30.
 */
export function saturationPressure(celsius: number): number {
  const kelvin = celsius + 273.15;
  const t = kelvin + N[8] / (kelvin - N[9]);
  const a = t * t + N[0] * t + N[1];
  const b = N[2] * t * t + N[3] * t + N[4];
  const c = N[5] * t * t + N[6] * t + N[7];
  return 1e6 * ((2 * c) / (-b + Math.sqrt(b * b - 4 * a * c))) ** 4;
}

/** Temperature at which water boils, °C, under a pressure in Pa. Valid 611 Pa to 22 MPa. Source: IAPWS-IF97, equation 31. */
export function boilingPoint(pressure: number): number {
  const beta = (pressure / 1e6) ** 0.25;
  const e = beta * beta + N[2] * beta + N[5];
  const f = N[0] * beta * beta + N[3] * beta + N[6];
  const g = N[1] * beta * beta + N[4] * beta + N[7];
  const d = (2 * g) / (-f - Math.sqrt(f * f - 4 * e * g));
  const sum = N[9] + d;
  return (sum - Math.sqrt(sum * sum - 4 * (N[8] + N[9] * d))) / 2 - 273.15;
}

/** Mean air pressure at a height above the sea in metres, Pa. Valid to 11 km. Source: the standard atmosphere (ISO 2533), from memory. */
export function pressureAt(altitude: number): number {
  return SEA_LEVEL_PRESSURE * (1 - 2.25577e-5 * altitude) ** 5.25588;
}

/**
 * Latent heat of evaporation of water, J/kg. Within 0.1 % of the steam tables from 0 to 120 °C, 0.5 % at 150 °C: a parabola
 * through 0, 60 and 100 °C of Cengel, Table A-9 (from memory).
 */
export function latentHeat(celsius: number): number {
  return 2.5009e6 - 2299.17 * celsius - 1.4583 * celsius * celsius;
}

/** Partial pressure of the vapour in air, Pa; relative humidity 0 to 1. */
export function vapourPressure(celsius: number, relativeHumidity: number): number {
  return relativeHumidity * saturationPressure(celsius);
}

/** kg of vapour in a kg of moist air, from partial pressure and pressure, Pa. */
export function vapourFraction(vapour: number, pressure: number): number {
  const share = vapour / pressure;
  return (MOLAR_RATIO * share) / (1 - (1 - MOLAR_RATIO) * share);
}

/**
 * Mass transfer coefficient, kg/m²s, beside a coefficient of convection in W/m²K. Source: the analogy of Chilton and Colburn,
 * h/(g c) = Le^(2/3).
 */
export function massTransferCoefficient(coefficient: number): number {
  return coefficient / (HEAT_CAPACITY_OF_AIR * LEWIS_FACTOR);
}

/** This close to the boiling point, K, boiling takes over from diffusion. */
const BOILS_WITHIN = 2;

/**
 * The potential −ln(1 − Y) of vapour at a wet surface, Y its mass fraction. Water leaves at g times the difference between
 * the surface's and the air's: Spalding's ln(1 + B), so the high rates near the boiling point are right. From 2 K below
 * boiling on it goes on as a straight line: a film that boils takes up 5 to 10 kW/m²K, as boiling does, rather than any amount.
 */
export function vapourPotential(celsius: number, pressure: number): number {
  const bend = boilingPoint(pressure) - BOILS_WITHIN;
  if (celsius <= bend) return potentialOf(saturationPressure(celsius), pressure);
  const slope =
    (potentialOf(saturationPressure(bend), pressure) - potentialOf(saturationPressure(bend - 0.01), pressure)) / 0.01;
  return potentialOf(saturationPressure(bend), pressure) + slope * (celsius - bend);
}

/** The same for air that holds vapour of a partial pressure, Pa; steam counts as what a surface at the boiling point gives off. */
export function airPotential(vapour: number, pressure: number): number {
  const most = vapourPotential(boilingPoint(pressure), pressure);
  return vapour >= pressure ? most : Math.min(potentialOf(vapour, pressure), most);
}

const potentialOf = (vapour: number, pressure: number): number => -Math.log(1 - vapourFraction(vapour, pressure));

/**
 * Part of the convection that reaches a surface which breathes out `water` kg/m²s of vapour (stagnant film theory, Ackermann:
 * x/(e^x − 1)); the exponential by its series, which serves to x = 3 within 4 % and never turns negative.
 */
export function filmFactor(water: number, coefficient: number): number {
  if (coefficient === 0) return 1;
  const x = Math.max((water * HEAT_CAPACITY_OF_VAPOUR) / coefficient, -1);
  return 1 / (1 + x * (1 / 2 + x * (1 / 6 + x * (1 / 24 + x * (1 / 120 + x / 720)))));
}

/**
 * Wet bulb, °C: where a wet surface settles that takes heat by convection alone. `vapour` is the partial pressure in the air,
 * Pa. Valid for air of 0 to 350 °C.
 */
export function wetBulb(air: number, vapour: number, pressure: number = SEA_LEVEL_PRESSURE): number {
  const far = airPotential(vapour, pressure);
  // Per W/m²K of convection, so that the coefficient falls out.
  const gain = (celsius: number): number => {
    const water = massTransferCoefficient(1) * (vapourPotential(celsius, pressure) - far);
    return filmFactor(water, 1) * (air - celsius) - water * latentHeat(celsius);
  };
  let [low, high] = [-5, Math.max(air, boilingPoint(pressure)) + 1];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (gain(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
