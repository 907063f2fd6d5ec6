import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DrawnLoad, drawSurface } from '../../src/kitchen/draw-surface.js';
import { pack } from '../../src/kitchen/pack.js';
import type { Surface } from '../../src/kitchen/surface.js';
import type { Footprint } from '../../src/problem/problem.js';

const rack: Surface = { strips: [{ x: 0, width: 0.56, depth: 0.41 }], round: null };
const load = (letter: string, footprint: Footprint, x: number, y: number, turned = false): DrawnLoad => ({
  letter,
  label: `dish ${letter}`,
  footprint,
  spot: { x, y, turned },
});
const tray = load('A', { kind: 'rectangle', width: 0.41, depth: 0.3 }, 0, 0, true);
const dish = load('B', { kind: 'round', diameter: 0.24 }, 0.3, 0);

describe('drawSurface', () => {
  it('draws a rack to scale, the front below, with a legend', () => {
    expect(drawSurface(rack, [tray, dish], { columns: 40, ascii: false, rows: 10 })).toEqual([
      '┏━━━━━━━━━━━━━━━━━━━━━━━━━━━┓',
      '┃┌─────────────┐············┃',
      '┃│             │············┃',
      '┃│             │············┃',
      '┃│             │············┃',
      '┃│             │··╭─────╮···┃',
      '┃│      A      │·╱       ╲··┃',
      '┃│             │╱         ╲·┃',
      '┃│             │╲    B    ╱·┃',
      '┃│             │·╲       ╱··┃',
      '┃└─────────────┘··╰─────╯···┃',
      '┗━━━━━━━━━━━━━━━━━━━━━━━━━━━┛',
      'A  dish A, turned',
      'B  dish B',
    ]);
  });

  it('does the same in plain characters', () => {
    expect(drawSurface(rack, [tray, dish], { columns: 40, ascii: true, rows: 6 })).toEqual([
      '##################',
      '#+-------+.......#',
      '#|       |.......#',
      '#|       |.,---,.#',
      '#|   A   |/     \\#',
      '#|       |\\  B  /#',
      "#+-------+.'---'.#",
      '##################',
      'A  dish A, turned',
      'B  dish B',
    ]);
  });

  it('hatches lit zones and names them all', () => {
    const zones = ['left', 'middle', 'right'].map((name, i) => ({
      name,
      x: i * 0.28,
      width: 0.28,
      depth: 0.4,
      lit: i === 2,
    }));
    const free: Surface = { strips: [{ x: 0, width: 0.56, depth: 0.4 }], round: null };
    expect(drawSurface(free, [], { columns: 44, ascii: true, rows: 4 }, zones)).toEqual([
      '###################',
      '#...........//////#',
      '#...........//////#',
      '#...........//////#',
      '#...........//////#',
      '###################',
      '  left mid~ right',
    ]);
    expect(drawSurface(free, [], { columns: 44, ascii: true, rows: 8 }, zones).at(-1)).toBe(
      '    left      middle   right (lit)',
    );
  });

  it('leaves what is outside a round grate blank', () => {
    const grate: Surface = { strips: [{ x: 0, width: 0.57, depth: 0.57 }], round: 0.57 };
    expect(drawSurface(grate, [], { columns: 22, ascii: true })).toEqual([
      '       ........',
      '    ..............',
      '  ..................',
      ' ....................',
      ' ....................',
      ' ....................',
      ' ....................',
      '  ..................',
      '    ..............',
      '       ........',
    ]);
  });

  it('keeps to the width, to the character set and to what stands there', () => {
    const footprints = fc.oneof(
      fc
        .tuple(fc.integer({ min: 12, max: 40 }), fc.integer({ min: 12, max: 40 }))
        .map(([w, d]): Footprint => ({ kind: 'rectangle', width: w / 100, depth: d / 100 })),
      fc.integer({ min: 12, max: 35 }).map((d): Footprint => ({ kind: 'round', diameter: d / 100 })),
    );
    fc.assert(
      fc.property(
        fc.array(footprints, { maxLength: 4 }),
        fc.integer({ min: 36, max: 90 }),
        fc.boolean(),
        (list, columns, ascii) => {
          const { spots } = pack(rack, list, null, null, 2000);
          if (spots === null) return;
          const loads = list.map((footprint, i) => ({
            letter: 'ABCD'.charAt(i),
            label: 'a dish',
            footprint,
            spot: spots[i]!,
          }));
          const lines = drawSurface(rack, loads, { columns, ascii });
          const picture = lines.slice(0, lines.length - loads.length);
          expect(lines.every((line) => line.length <= columns)).toBe(true);
          expect(new Set(picture.map((line) => line.length)).size).toBe(1);
          for (const { letter } of loads) expect(picture.some((line) => line.includes(letter))).toBe(true);
          // biome-ignore lint/suspicious/noControlCharactersInRegex: the whole 7-bit set is meant
          if (ascii) expect(lines.every((line) => /^[\x00-\x7f]*$/.test(line))).toBe(true);
        },
      ),
      { seed: 11, numRuns: 200 },
    );
  });
});
