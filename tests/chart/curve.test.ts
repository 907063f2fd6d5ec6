/** A piece's temperatures as cells. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printed } from '../../cli/terminal/paint.js';
import { type CurvePicture, curveLines, type LetteredTrace, traceLines } from '../../src/chart/curve.js';
import { Frame, spanWithin, type Trace, valueAt } from '../../src/chart/curve-frame.js';
import { ASCII, UNICODE } from '../../src/chart/glyphs.js';
import { textOf } from '../../src/chart/line.js';
import { text, widest } from '../support/frames.js';

const trace = (...points: readonly (readonly [minute: number, celsius: number])[]): Trace => ({
  minutes: points.map(([minute]) => minute),
  celsius: points.map(([, celsius]) => celsius),
});

/** A sear of ten minutes, ninety in the oven, thirty of rest, in round figures. */
const ROAST: CurvePicture = {
  core: trace([0, 5], [30, 10], [100, 52], [125, 60], [130, 60]),
  surface: trace([0, 5], [1, 70], [10, 110], [12, 70], [100, 95], [101, 80], [130, 56]),
  stages: [
    { name: 'sear', texture: 'heat', from: 0, to: 10 },
    { name: 'oven at 165 °C', texture: 'heat', from: 10, to: 100 },
    { name: 'rest', texture: 'rest', from: 100, to: 130 },
  ],
  marks: [
    { minute: 100, say: 'pull 52 °C' },
    { minute: 125, say: 'peak 60 °C' },
  ],
  level: { celsius: 60, name: 'target' },
  degree: 'C',
};

const WAYS: readonly LetteredTrace[] = [
  { letter: 'A', number: 0, core: trace([0, 5], [100, 50], [130, 60]), pull: 100, to: 130 },
  { letter: 'B', number: 1, core: trace([0, 5], [80, 48], [110, 60]), pull: 80, to: 110 },
];

const golden = (name: string) => `golden/${name}.txt`;
const drawn = (columns: number, rows: number, glyphs = UNICODE) => curveLines(ROAST, { columns, rows }, glyphs);

describe('the curve, as read', () => {
  for (const [columns, rows] of [
    [80, 13],
    [120, 16],
    [200, 26],
  ] as const) {
    it(`at ${columns} columns`, async () => {
      await expect(text(drawn(columns, rows))).toMatchFileSnapshot(golden(`curve-${columns}`));
    });
  }

  it('in 7-bit characters', async () => {
    const lines = text(drawn(60, 13, ASCII));
    expect(lines).toMatch(/^[\n\x20-\x7e]*$/);
    await expect(lines).toMatchFileSnapshot(golden('curve-60-ascii'));
  });

  it('in colour', async () => {
    const shown = printed(drawn(60, 9), 'many').replaceAll('\u001b', '\\e');
    await expect(shown).toMatchFileSnapshot(golden('curve-60-colour'));
  });

  it('of several ways', async () => {
    const lines = traceLines(WAYS, ROAST.level, 'C', { columns: 80, rows: 13 }, UNICODE);
    await expect(text(lines)).toMatchFileSnapshot(golden('curve-ways-80'));
  });
});

describe('the curve', () => {
  it('keeps to its columns and rows, whatever they are', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 40, max: 200 }),
        fc.integer({ min: 4, max: 40 }),
        fc.array(fc.tuple(fc.integer({ min: 1, max: 400 }), fc.integer({ min: 0, max: 250 })), { minLength: 1 }),
        fc.constantFrom('C', 'F'),
        (columns, rows, steps, degree) => {
          const waits = steps.map(([wait]) => wait);
          const at = (step: number) => waits.slice(0, step + 1).reduce((sum, wait) => sum + wait, 0);
          const core = trace([0, 4], ...steps.map(([, celsius], step) => [at(step), celsius] as const));
          const to = at(steps.length - 1);
          const stages = [{ name: 'oven at 165 °C', texture: 'heat' as const, from: 0, to }];
          const picture = { ...ROAST, core, surface: core, stages, marks: [{ minute: to, say: 'pull' }], degree };
          const lines = curveLines(picture, { columns, rows }, UNICODE);
          expect(widest(lines)).toBeLessThanOrEqual(columns);
          const frame = new Frame([core], [60], to, degree, { columns, rows });
          expect(frame.rows).toBeLessThanOrEqual(rows);
        },
      ),
      { seed: 17, numRuns: 120 },
    );
  });

  it('stands as high as the core, to an eighth of a row', () => {
    const frame = new Frame([ROAST.core, ROAST.surface], [60], 130, 'C', { columns: 80, rows: 13 });
    // The marks are above, on one row.
    const rows = drawn(80, 13)
      .slice(1, 1 + frame.rows)
      .map(textOf)
      .reverse();
    const column = 5 + frame.columnOf(100);
    // In the middle of that column the core is at 51.8 °C: five rows of 10 °C, and an eighth of the sixth.
    const { from, to } = frame.minutesOf(column - 5);
    expect(valueAt(ROAST.core, (from + to) / 2)).toBeCloseTo(51.8, 1);
    expect(rows.map((row) => row[column]).slice(0, 7)).toEqual([...'█████▁│']);
  });

  it('has the level’s own number in its row, and no tick’s', () => {
    const level = { celsius: 63, name: 'target' };
    const lines = curveLines({ ...ROAST, level }, { columns: 80, rows: 13 }, UNICODE).map(textOf);
    const numbers = lines.map((line) => /^ *(\d+) ./.exec(line)?.[1]).filter((one) => one !== undefined);
    expect(numbers).toContain('63');
    expect(numbers).not.toContain('60');
  });

  it('tells degrees Fahrenheit where they are asked for', () => {
    const lines = text(curveLines({ ...ROAST, degree: 'F' }, { columns: 80, rows: 13 }, UNICODE));
    expect(lines).toMatch(/^ 140 /m);
    expect(lines).toContain('target 140 °F');
  });

  it('stacks marks that would lie upon each other', () => {
    const marks = [
      { minute: 100, say: 'pull 52 °C' },
      { minute: 103, say: 'peak 60 °C' },
    ];
    const [first, second] = curveLines({ ...ROAST, marks }, { columns: 80, rows: 13 }, UNICODE).map(textOf);
    expect(first).toMatch(/^ *pull 52 °C$/);
    expect(second).toMatch(/^ *peak 60 °C$/);
  });

  it('draws a way with its letter, in small from the pull on, and + where several meet', () => {
    const lines = text(traceLines(WAYS, null, 'C', { columns: 60, rows: 10 }, UNICODE));
    for (const mark of ['A', 'a', 'B', 'b', '+']) expect(lines).toContain(mark);
    expect(lines).not.toContain('┄');
  });
});

describe('a trace', () => {
  const steep = trace([0, 0], [10, 100], [10, 20], [20, 40]);

  it('is straight between its points, and stands at its ends', () => {
    expect([-5, 0, 5, 15, 30].map((minute) => valueAt(steep, minute))).toEqual([0, 0, 50, 30, 40]);
  });

  it('is told by its lowest and highest within some minutes', () => {
    expect(spanWithin(steep, 5, 15)).toEqual({ low: 20, high: 100 });
    expect(spanWithin(steep, 12, 15)).toEqual({ low: 24, high: 30 });
  });
});
