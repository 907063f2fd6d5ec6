/** What a surface takes from its surroundings, against published coefficients and exact answers. */
import { describe, expect, it } from 'vitest';
import { Exchange } from '../../src/heat/exchange.js';
import { FINE, goThrough } from '../../src/heat/stretch.js';
import { air, meat, oven, wet } from '../support/pieces.js';

/** W/m²K between a surface and surroundings of one temperature. */
function coefficientAt(surroundings: ConstructorParameters<typeof Exchange>[0], celsius: number): number {
  const exchange = new Exchange(surroundings);
  exchange.at(celsius, 0);
  return exchange.heat / (surroundings.air - celsius);
}

describe('radiation (transfer-coefficients.json, radiation_part: small grey body in a large enclosure, emissivity 0.9, computed)', () => {
  it.each([
    [121, [8.463, 9.886, 11.536]],
    [163, [10.278, 11.826, 13.607]],
    [177, [10.946, 12.537, 14.364]],
    [204, [12.328, 14.004, 15.922]],
    [232, [13.897, 15.665, 17.679]],
    [260, [15.61, 17.474, 19.587]],
  ] as const)('walls of %d °C, surfaces of 20, 60 and 100 °C, W/m²K', (walls, expected) => {
    const coefficients = [20, 60, 100].map((celsius) =>
      coefficientAt({ air: walls, coefficient: 0, walls: { celsius: walls, emissivity: 0.9 } }, celsius),
    );
    for (const [i, coefficient] of coefficients.entries()) expect(coefficient).toBeCloseTo(expected[i]!, 2);
  });

  it('with free convection of 5 to 8 W/m²K an oven of 163 °C comes to 15 to 20 (transfer-coefficients.json, notes and roast-still-oven)', () => {
    for (const convection of [5, 8]) {
      const { moisture: _, ...dry } = oven(163, convection);
      const combined = coefficientAt(dry, 60);
      expect(combined).toBeGreaterThan(15);
      expect(combined).toBeLessThan(20);
    }
  });

  it('makes three quarters to four fifths of what a cake takes in a tunnel oven (transfer-coefficients.json, tunnel-oven: Baik et al., 1999)', () => {
    // Their air moves at 0.02 to 0.44 m/s, so convection is that of nearly still air, and cakes are darker than grey 0.9 at the end.
    const radiation = coefficientAt({ air: 205, coefficient: 0, walls: { celsius: 205, emissivity: 0.95 } }, 95);
    const combined = coefficientAt({ air: 205, coefficient: 4.5, walls: { celsius: 205, emissivity: 0.95 } }, 95);
    expect(radiation / combined).toBeGreaterThan(0.75);
    expect(radiation / combined).toBeLessThan(0.8);
    expect(combined).toBeGreaterThan(20);
    expect(combined).toBeLessThan(48);
  });
});

describe('a half-infinite solid under convection (conduction-examples.json, semi-infinite-convection: Carslaw and Jaeger 2.7, computed)', () => {
  it.each([
    ['20 W/m²K for 600 s', 20, 600, 53.832],
    ['500 W/m²K for 120 s', 500, 120, 142.0063],
  ] as const)('%s: its surface, within 0.5 °C', (_, coefficient, seconds, surface) => {
    const body = { shape: 'slab', thickness: 0.12, width: null, length: null } as const;
    const piece = { body, matter: meat, celsius: 4.4 };
    const { history } = goThrough(piece, [{ around: air(163, coefficient), until: { seconds } }], FINE);
    expect(Math.abs(history.surface.top!.at(-1)! - surface)).toBeLessThan(0.5);
    expect(history.core.at(-1)).toBeCloseTo(4.4, 3);
  });
});

describe('evaporation', () => {
  it('keeps the surface of wet meat near the wet bulb of the air, far below dry conduction (carryover.json, wet-bulb: Bengtsson et al., 1976)', () => {
    const body = { shape: 'cylinder', thickness: 0.1, length: 0.3 } as const;
    const piece = { body, matter: meat, celsius: 4.4 };
    const surfaceAfterAnHour = (moisture: ReturnType<typeof wet> | null): number => {
      const { moisture: _, ...dry } = oven(175, 10);
      const side = moisture === null ? dry : { ...dry, moisture };
      const around = { bottom: side, top: side, side };
      return goThrough(piece, [{ around, until: { seconds: 3600 } }]).history.surface.side!.at(-1)!;
    };
    // Radiation from the walls lifts it above the wet bulb of the air alone, 43 °C.
    expect(surfaceAfterAnHour(wet())).toBeGreaterThan(43);
    expect(surfaceAfterAnHour(wet())).toBeLessThan(80);
    expect(surfaceAfterAnHour(null)).toBeGreaterThan(100);
  });
});
