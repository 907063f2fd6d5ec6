/**
 * Transient conduction in whole bodies: a finite cylinder is a wall across a long cylinder, a brick three walls across each other, and
 * their thetas multiply (Newman's rule). Heat fractions add up by Langston's rule, which is the same statement for the means.
 *
 * One start temperature, one medium, one constant coefficient all around, constant properties. Seconds. theta = (T - medium) /
 * (start - medium). Errors: RangeError where a number is out of its range.
 * Source: Newman (1936); Langston (1982); Carslaw and Jaeger, Conduction of Heat in Solids, 1.15; Incropera and DeWitt, 5.8.
 */
import type { Body } from './body.js';
import { crossingWithin } from './root-finding.js';
import type { Form } from './roots.js';
import type { Conductor } from './semi-infinite.js';
import { type Series, seriesOf } from './series.js';

export interface Conduction {
  /**
   * `at`: relative positions (0 the middle, 1 the surface), one for each axis: slab across; sphere radius; cylinder radius and length;
   * brick thickness, width and length. Absent: the middle. Absolute error below 1e-8.
   */
  theta(seconds: number, at?: readonly number[]): number;
  /** Theta of the mean temperature. */
  mean(seconds: number): number;
  /** Heat taken up (or given away), over the most that can be. */
  heatFraction(seconds: number): number;
  /**
   * Seconds until the middle's theta has fallen to this: 0 for 1 and above, Infinity for 0 and below or where no heat comes. Longer for
   * a smaller theta; relative error below 1e-9 (theta up to 0.9999).
   */
  secondsTo(theta: number): number;
}

interface Axis {
  readonly series: Series;
  /** Fourier number at one second. */
  readonly pace: number;
}

/** The conduction in a body whose `coefficient`, W/(m2 K), is from 0 to Infinity (a surface held at the medium's temperature). */
export function conductionIn(body: Body, material: Conductor, coefficient: number): Conduction {
  const axes = axesOf(body).map(([form, half]): Axis => {
    if (!(half > 0)) throw new RangeError(`Sizes are above 0 m, not ${2 * half}`);
    const biot = (coefficient * half) / material.conductivity;
    return { series: seriesOf(form, biot), pace: material.diffusivity / (half * half) };
  });
  const theta = (seconds: number, at: readonly number[] = []): number =>
    axes.reduce((product, { series, pace }, index) => product * series.theta(pace * seconds, at[index] ?? 0), 1);
  const mean = (seconds: number): number =>
    axes.reduce((product, { series, pace }) => product * series.mean(pace * seconds), 1);
  return {
    theta,
    mean,
    heatFraction: (seconds) => langston(axes.map(({ series, pace }) => series.heatFraction(pace * seconds))),
    secondsTo: (target) => secondsTo(axes, theta, target),
  };
}

/** Langston's rule: each direction takes its fraction of what the others have left. */
export function langston(fractions: readonly number[]): number {
  return fractions.reduce((taken, fraction) => taken + fraction * (1 - taken), 0);
}

/** Theta at which a body that began at `start` is at `temperature`, in a medium of another temperature; all °C. */
export function thetaOf(temperature: number, start: number, medium: number): number {
  return (temperature - medium) / (start - medium);
}

/** The other way round, °C. */
export function temperatureOf(theta: number, start: number, medium: number): number {
  return medium + theta * (start - medium);
}

/** One-dimensional forms whose product the body is, each with its half thickness or radius, m. */
function axesOf(body: Body): (readonly [form: Form, half: number])[] {
  const half = body.thickness / 2;
  switch (body.shape) {
    case 'slab':
      return [['wall', half]];
    case 'sphere':
      return [['sphere', half]];
    case 'cylinder':
      return [
        ['cylinder', half],
        ['wall', body.length / 2],
      ];
    case 'brick':
      return [
        ['wall', half],
        ['wall', body.width / 2],
        ['wall', body.length / 2],
      ];
  }
}

/** Solved for the logarithm of time, in -log theta, which grows in proportion to time once the first moments are over. */
function secondsTo(axes: readonly Axis[], theta: (seconds: number) => number, target: number): number {
  if (Number.isNaN(target)) throw new RangeError('A theta is a number');
  if (target >= 1) return 0;
  if (target <= 0 || axes.every(({ series }) => series.biot === 0)) return Infinity;
  const wanted = Math.log(-Math.log(target));
  const ahead = (logSeconds: number): number => {
    const fallen = -Math.log(theta(Math.exp(logSeconds)));
    return fallen > 0 ? Math.log(fallen) - wanted : -Number.MAX_VALUE;
  };
  // In time with the slowest rate of all axes together, which the whole body follows at last.
  const rate = axes.reduce((sum, { series, pace }) => sum + pace * series.root(1) ** 2, 0);
  const guess = wanted - Math.log(rate);
  let low = guess;
  let high = guess;
  while (ahead(low) >= 0) low -= 0.5;
  while (ahead(high) <= 0) high += 0.5;
  return Math.exp(crossingWithin(ahead, low, high, 1e-13));
}
