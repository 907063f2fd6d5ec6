/** A packed rack or grate as text, to scale: a character is about twice as high as wide. The front is at the bottom. */
import type { Footprint } from '../problem/problem.js';
import { extentX, extentY } from './footprint.js';
import type { Spot, Surface } from './surface.js';

export interface DrawnLoad {
  /** One or two letters. */
  readonly letter: string;
  /** For the legend. */
  readonly label: string;
  readonly footprint: Footprint;
  readonly spot: Spot;
}

/** A part of a grate with a name; lit ones are hatched. */
export interface DrawnZone {
  readonly name: string;
  readonly x: number;
  readonly width: number;
  readonly depth: number;
  readonly lit: boolean;
}

export interface Look {
  /** Widest line. */
  readonly columns: number;
  readonly ascii: boolean;
  /** Most lines for the area itself; absent: 16. */
  readonly rows?: number;
}

/** Corners from the back left clockwise, then level and upright edges. */
type Corners = readonly [string, string, string, string, string, string];

interface Marks {
  readonly free: string;
  readonly lit: string;
  readonly frame: Corners;
  readonly box: Corners;
  readonly ring: Corners;
  /** Rising and falling edges of a ring. */
  readonly slopes: readonly [string, string];
  readonly cut: string;
}

const DRAWN: Marks = {
  free: '·',
  lit: '╱',
  frame: ['┏', '┓', '┛', '┗', '━', '┃'],
  box: ['┌', '┐', '┘', '└', '─', '│'],
  ring: ['╭', '╮', '╯', '╰', '─', '│'],
  slopes: ['╱', '╲'],
  cut: '…',
};

const TYPED: Marks = {
  free: '.',
  lit: '/',
  frame: ['#', '#', '#', '#', '#', '#'],
  box: ['+', '+', '+', '+', '-', '|'],
  ring: [',', ',', "'", "'", '-', '|'],
  slopes: ['/', '\\'],
  cut: '~',
};

/**
 * The area with its frame (a round grate has none), zone names below where there are zones, then one line for each load.
 * Lines are at most `columns` wide (of names without wide characters).
 */
export function drawSurface(
  surface: Surface,
  loads: readonly DrawnLoad[],
  look: Look,
  zones: readonly DrawnZone[] = [],
): string[] {
  const marks = look.ascii ? TYPED : DRAWN;
  const canvas = new Canvas(surface, zones, look, marks);
  // Round ones first: the straight edges of a neighbour stay whole.
  for (const load of loads) if (load.footprint.kind === 'round') canvas.ring(load);
  for (const load of loads) if (load.footprint.kind === 'rectangle') canvas.box(load);
  const lines = canvas.lines();
  if (zones.length > 0) lines.push(canvas.names(zones));
  for (const { letter, label, spot } of loads)
    lines.push(`${letter.padEnd(2)} ${label}${spot.turned ? ', turned' : ''}`);
  return lines.map((line) => shortened(line.trimEnd(), look.columns, marks.cut));
}

function shortened(line: string, columns: number, cut: string): string {
  const letters = Array.from(line);
  return letters.length <= columns ? line : `${letters.slice(0, columns - 1).join('')}${cut}`;
}

class Canvas {
  private readonly left: number;
  /** Width of a character, metres; its height is twice that. */
  private readonly cell: number;
  private readonly columns: number;
  private readonly rows: number;
  private readonly grid: string[][];
  private readonly framed: boolean;

  constructor(
    surface: Surface,
    zones: readonly DrawnZone[],
    look: Look,
    private readonly marks: Marks,
  ) {
    const strips = [...surface.strips, ...zones.filter((zone) => zone.lit)];
    this.left = Math.min(...strips.map((strip) => strip.x));
    const width = Math.max(...strips.map((strip) => strip.x + strip.width)) - this.left;
    const depth = Math.max(...strips.map((strip) => strip.depth));
    this.framed = surface.round === null;
    this.cell = Math.max(width / Math.max(1, look.columns - 2), depth / (2 * (look.rows ?? 16)));
    this.columns = Math.max(1, Math.round(width / this.cell));
    this.rows = Math.max(1, Math.round(depth / (2 * this.cell)));
    this.grid = Array.from({ length: this.rows }, (_, row) =>
      Array.from({ length: this.columns }, (_, column) => this.ground(surface, zones, row, column)),
    );
  }

  /** What is seen of the bare area in a cell (rows from the front). */
  private ground(surface: Surface, zones: readonly DrawnZone[], row: number, column: number): string {
    const x = this.left + (column + 0.5) * this.cell;
    const y = (row + 0.5) * 2 * this.cell;
    const on = (strip: { x: number; width: number; depth: number }) =>
      x > strip.x && x < strip.x + strip.width && y < strip.depth;
    const { round } = surface;
    if (round !== null && (x - round / 2) ** 2 + (y - round / 2) ** 2 > (round / 2) ** 2) return ' ';
    if (zones.some((zone) => zone.lit && on(zone))) return this.marks.lit;
    return surface.strips.some(on) ? this.marks.free : ' ';
  }

  private column(x: number): number {
    return Math.min(this.columns, Math.max(0, Math.round((x - this.left) / this.cell)));
  }

  private row(y: number): number {
    return Math.min(this.rows, Math.max(0, Math.round(y / (2 * this.cell))));
  }

  private set(row: number, column: number, mark: string): void {
    if (this.grid[row]?.[column] !== undefined) this.grid[row]![column] = mark;
  }

  box({ letter, footprint, spot }: DrawnLoad): void {
    const from = this.column(spot.x);
    const to = Math.max(from + 1, this.column(spot.x + extentX(footprint, spot.turned)));
    const front = this.row(spot.y);
    const back = Math.max(front + 1, this.row(spot.y + extentY(footprint, spot.turned)));
    const small = to - from < 2 || back - front < 2;
    const [backLeft, backRight, frontRight, frontLeft, level, upright] = this.marks.box;
    for (let row = front; row < back; row++) {
      for (let column = from; column < to; column++) {
        const atLeft = column === from;
        const atRight = column === to - 1;
        let mark = ' ';
        if (small) mark = letter.charAt(0);
        else if (row === back - 1) mark = atLeft ? backLeft : atRight ? backRight : level;
        else if (row === front) mark = atLeft ? frontLeft : atRight ? frontRight : level;
        else if (atLeft || atRight) mark = upright;
        this.set(row, column, mark);
      }
    }
    if (!small) this.write(letter, (front + back - 1) / 2, (from + to - 1) / 2);
  }

  ring({ letter, footprint, spot }: DrawnLoad): void {
    const across = extentX(footprint, false);
    const from = this.column(spot.x);
    const to = Math.max(from + 1, this.column(spot.x + across));
    const front = this.row(spot.y);
    const rows = Math.max(1, this.row(spot.y + across) - front);
    // How far each row stays inside the box of the circle, the same on both sides.
    const inset = Array.from({ length: rows }, (_, k) => {
      const t = (2 * k + 1) / rows - 1;
      return Math.round(((to - from) / 2) * (1 - Math.sqrt(1 - t * t)));
    });
    const [backLeft, backRight, frontRight, frontLeft, level, upright] = this.marks.ring;
    const [rising, falling] = this.marks.slopes;
    const small = rows < 2 || to - from < 3;
    inset.forEach((aside, k) => {
      const low = 2 * k < rows - 1;
      const first = k === 0;
      const last = k === rows - 1;
      const straight = (low ? inset[k - 1] : inset[k + 1]) === aside;
      const left = first ? frontLeft : last ? backLeft : straight ? upright : low ? falling : rising;
      const right = first ? frontRight : last ? backRight : straight ? upright : low ? rising : falling;
      for (let column = from + aside; column < to - aside; column++) {
        const edge = column === from + aside ? left : column === to - aside - 1 ? right : first || last ? level : ' ';
        this.set(front + k, column, small ? letter.charAt(0) : edge);
      }
    });
    if (!small) this.write(letter, front + (rows - 1) / 2, (from + to - 1) / 2);
  }

  private write(letter: string, row: number, column: number): void {
    const start = Math.round(column - (letter.length - 1) / 2);
    Array.from(letter).forEach((mark, k) => {
      this.set(Math.floor(row), start + k, mark);
    });
  }

  /** The area from the back to the front, in its frame. */
  lines(): string[] {
    const rows = this.grid.map((row) => row.join('')).reverse();
    if (!this.framed) return rows.map((row) => ` ${row}`);
    const [backLeft, backRight, frontRight, frontLeft, level, upright] = this.marks.frame;
    const edge = level.repeat(this.columns);
    return [
      `${backLeft}${edge}${backRight}`,
      ...rows.map((row) => `${upright}${row}${upright}`),
      `${frontLeft}${edge}${frontRight}`,
    ];
  }

  /** Zone names, each below the middle of its zone; `lit` is said where it has room. */
  names(zones: readonly DrawnZone[]): string {
    const line = new Array<string>(this.columns).fill(' ');
    for (const zone of zones) {
      const from = this.column(zone.x);
      const room = this.column(zone.x + zone.width) - from - 1;
      const whole = zone.lit ? `${zone.name} (lit)` : zone.name;
      const text = shortened(whole.length <= room ? whole : zone.name, Math.max(1, room), this.marks.cut);
      const start = from + Math.max(0, Math.floor((room + 1 - text.length) / 2));
      Array.from(text).forEach((mark, k) => {
        if (start + k < this.columns) line[start + k] = mark;
      });
    }
    return ` ${line.join('')}`;
  }
}
