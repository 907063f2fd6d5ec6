/** The juice that meat presses out as it is heated, and that keeps its surface wet. °C, seconds, kg/m². */
import { pressedBetween } from './contraction.js';
import type { Matter } from './properties.js';
import type { Surface } from './surface.js';

/**
 * What a whole piece has pressed out, by its mean temperature and that of its surface: as if the temperature rose in a straight line over the
 * volume, as it does in a cylinder whose profile has settled. It seeps out by and by.
 */
export class Juice {
  /** Share of all that has come to the surface. */
  out = 0;
  /** Share that has been pressed out, and its growth in the last step, 1/s. */
  private pressed = 0;
  private presses = 0;
  private saved: readonly [number, number, number] = [0, 0, 0];
  private readonly total: number;
  private readonly area: number;

  constructor(
    private readonly volumes: Float64Array,
    private readonly surfaces: readonly Surface[],
  ) {
    this.total = volumes.reduce((sum, volume) => sum + volume, 0);
    this.area = surfaces.reduce((sum, { areas }) => areas.reduce((more, area) => more + area, sum), 0);
  }

  /** Begins where the piece has these temperatures. */
  begin(celsius: Float64Array, out: number): void {
    this.out = out;
    this.pressed = this.pressedAt(celsius);
    this.presses = 0;
  }

  /** How fast juice comes to the surface in a step of so many seconds, kg/m²s, if more is pressed out as before. */
  expected(matter: Matter, seconds: number): number {
    return this.rate(matter, seconds, this.pressed + seconds * this.presses);
  }

  /** The same for a step that leads to these temperatures. */
  ahead(matter: Matter, celsius: Float64Array, seconds: number): number {
    return this.rate(matter, seconds, this.pressedAt(celsius));
  }

  accept({ seeps }: Matter, celsius: Float64Array, seconds: number): void {
    const pressed = this.pressedAt(celsius);
    this.saved = [this.out, this.pressed, this.presses];
    this.out = this.outAfter(seconds, pressed, seeps);
    this.presses = (pressed - this.pressed) / seconds;
    this.pressed = pressed;
  }

  takeBack(): void {
    [this.out, this.pressed, this.presses] = this.saved;
  }

  private rate({ juice, seeps }: Matter, seconds: number, pressed: number): number {
    return ((this.outAfter(seconds, pressed, seeps) - this.out) * juice * this.total) / (seconds * this.area);
  }

  /** With what is pressed out growing evenly; what cools takes nothing back. */
  private outAfter(seconds: number, pressed: number, seeps: number): number {
    const behind = ((pressed - this.pressed) / seconds) * seeps;
    const settled = pressed - behind;
    return Math.max(settled + (this.out - this.pressed + behind) * Math.exp(-seconds / seeps), this.out);
  }

  private pressedAt(celsius: Float64Array): number {
    const { volumes, total, area } = this;
    let mean = 0;
    for (let i = 0; i < celsius.length; i++) mean += volumes[i]! * celsius[i]!;
    let outer = 0;
    for (const { nodes, areas } of this.surfaces)
      for (let l = 0; l < nodes.length; l++) outer += areas[l]! * celsius[nodes[l]!]!;
    return pressedBetween((2 * mean) / total - outer / area, outer / area);
  }
}
