/**
 * Roasted, then rested, by dry conduction (carryover.json, benchmarks: separation of variables in two stages, computed, and crossed there
 * with another program's finite volumes of 400 cells). They check arithmetic, not cookery: a real surface evaporates.
 */
import { describe, expect, it } from 'vitest';
import type { Body } from '../../src/heat/body.js';
import { type Accuracy, goThrough, TABLE } from '../../src/heat/stretch.js';
import { expectComputed } from '../support/conduction.js';
import { air, airRoundOnly, meat } from '../support/pieces.js';

const [START, PULL, ROOM, REST] = [4.4, 54.4, 21, 10] as const;
const ACCURATE: Accuracy = { cells: 160, across: 1, tolerance: 0.002 };

interface Benchmark {
  readonly oven: number;
  readonly coefficient: number;
  readonly pullMinutes: number;
  readonly surface: number;
  readonly mean: number;
  readonly peak: number;
  readonly peakMinutes: number;
  /** °C after 5, 10, 15, 20 and 30 minutes of rest. */
  readonly curve: readonly number[];
}

const benchmark = (
  oven: number,
  coefficient: number,
  [pullMinutes, surface, mean]: readonly [number, number, number],
  [peak, peakMinutes]: readonly [number, number],
  curve: readonly number[],
): Benchmark => ({ oven, coefficient, pullMinutes, surface, mean, peak, peakMinutes, curve });

const ball = (radius: number): Body => ({ shape: 'sphere', thickness: 2 * radius });
const roll = (radius: number): Body => ({ shape: 'cylinder', thickness: 2 * radius, length: 1 });
const steak = (half: number): Body => ({ shape: 'slab', thickness: 2 * half, width: null, length: null });

const BENCHMARKS: readonly (readonly [string, Body, Benchmark])[] = [
  [
    'roast-sphere-121C',
    ball(0.075),
    benchmark(121, 18, [148.134, 97.961, 82.376], [72.294, 66.36], [56.578, 58.695, 60.752, 62.743, 66.403]),
  ],
  [
    'roast-sphere-163C',
    ball(0.075),
    benchmark(163, 18, [120.161, 124.728, 99.168], [84.114, 71.89], [57.784, 61.102, 64.348, 67.509, 73.387]),
  ],
  [
    'roast-sphere-218C',
    ball(0.075),
    benchmark(218, 18, [101.779, 159.004, 120.224], [99.015, 75.93], [59.183, 63.925, 68.61, 73.21, 81.86]),
  ],
  [
    'roast-cylinder-121C',
    roll(0.05),
    benchmark(121, 18, [111.342, 89.748, 73], [66.324, 40.24], [56.851, 59.213, 61.415, 63.285, 65.64]),
  ],
  [
    'roast-cylinder-163C',
    roll(0.05),
    benchmark(163, 18, [86.888, 111.689, 84.395], [74.637, 44.48], [58.31, 62.1, 65.661, 68.735, 72.847]),
  ],
  [
    'roast-cylinder-218C',
    roll(0.05),
    benchmark(218, 18, [71.267, 139.842, 98.764], [85.272, 47.62], [60.079, 65.636, 70.902, 75.501, 81.855]),
  ],
  [
    'roast-cylinder-small-163C',
    roll(0.03),
    benchmark(163, 18, [39.497, 96.845, 76.366], [70.067, 17.67], [62.02, 67.565, 69.825, 69.921, 67.336]),
  ],
  [
    'roast-cylinder-large-163C',
    roll(0.08),
    benchmark(163, 18, [187.765, 125.164, 91.88], [78.234, 102.92], [56.356, 58.287, 60.192, 62.07, 65.715]),
  ],
  [
    'roast-cylinder-fan-163C',
    roll(0.05),
    benchmark(163, 35, [69.161, 130.283, 94.789], [82.456, 46.65], [59.774, 64.944, 69.768, 73.931, 79.596]),
  ],
  [
    'steak-slab-25mm-grill',
    steak(0.0125),
    benchmark(230, 60, [8.024, 135.769, 82.325], [77.843, 6.47], [77.363, 76.59, 73.585, 70.571, 65.025]),
  ],
  [
    'steak-slab-50mm-grill',
    steak(0.025),
    benchmark(230, 60, [24.785, 166.916, 93.4], [84.865, 22.12], [68.706, 78.569, 83.201, 84.75, 83.837]),
  ],
];

function roastAndRest(body: Body, { oven, coefficient }: Benchmark, accuracy: Accuracy) {
  const around = body.shape === 'cylinder' ? airRoundOnly : air;
  const pull = { around: around(oven, coefficient), until: { core: PULL, most: 50_000 } };
  const rest = around(ROOM, REST);
  const roasted = goThrough({ body, matter: meat, celsius: START }, [pull], accuracy);
  const rested = goThrough(roasted.field, [{ around: rest, until: { peak: true, most: 50_000 } }], accuracy);
  const waits = [5, 5, 5, 5, 10].map((minutes) => ({ around: rest, until: { seconds: minutes * 60 } }));
  return { roasted, peak: rested.ends[0]!, curve: goThrough(roasted.field, waits, accuracy).ends };
}

describe('the core rises after the oven as separation of variables has it', () => {
  it.each(BENCHMARKS)('%s: to 1e-4, on a fine grid', (_, body, expected) => {
    const { roasted, peak, curve } = roastAndRest(body, expected, ACCURATE);
    const { history, ends } = roasted;
    const last = history.seconds.length - 1;
    expect(Math.abs(ends[0]!.core - PULL)).toBeLessThan(0.001);
    expectComputed(ends[0]!.seconds / 60, expected.pullMinutes);
    expectComputed((history.surface.side ?? history.surface.top!)[last]!, expected.surface);
    expectComputed(history.mean[last]!, expected.mean);
    expectComputed(peak.core, expected.peak);
    // Two digits are recorded, and the other program differs by one in the last.
    expect(Math.abs(peak.seconds / 60 - expected.peakMinutes)).toBeLessThan(0.02);
    for (const [i, { core }] of curve.entries()) expectComputed(core, expected.curve[i]!);
  });

  it.each(BENCHMARKS)('%s: within 0.5 °C and a hundredth of the time, as tables take it', (_, body, expected) => {
    const { roasted, peak, curve } = roastAndRest(body, expected, TABLE);
    expect(Math.abs(roasted.ends[0]!.seconds / 60 / expected.pullMinutes - 1)).toBeLessThan(0.01);
    expect(Math.abs(peak.core - expected.peak)).toBeLessThan(0.5);
    for (const [i, { core }] of curve.entries()) expect(Math.abs(core - expected.curve[i]!)).toBeLessThan(0.5);
  });

  it('hotter ovens and fans make it rise more, and larger pieces later (benchmark_orderings)', () => {
    const peaks = new Map(BENCHMARKS.map(([name, body, expected]) => [name, roastAndRest(body, expected, TABLE).peak]));
    const at = (name: string) => peaks.get(name)!;
    expect(at('roast-sphere-121C').core).toBeLessThan(at('roast-sphere-163C').core);
    expect(at('roast-sphere-163C').core).toBeLessThan(at('roast-sphere-218C').core);
    expect(at('roast-cylinder-163C').core).toBeLessThan(at('roast-cylinder-fan-163C').core);
    expect(at('roast-cylinder-small-163C').seconds).toBeLessThan(at('roast-cylinder-163C').seconds);
    expect(at('roast-cylinder-163C').seconds).toBeLessThan(at('roast-cylinder-large-163C').seconds);
  });
});
