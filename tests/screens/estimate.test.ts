/** `estimate` in a real terminal. */
import { afterEach, describe, expect, it } from 'vitest';
import { widthOf } from '../../src/chart/text.js';
import { reason, Terminal } from '../support/terminal.js';

const LOIN = '--food pork --thickness 11cm --weight 3.2kg --target 60C --rest 25min';
const AXIS = /^ {5}┬─+┬/;

describe.skipIf(reason !== null)('an estimate in a real terminal', () => {
  const opened: Terminal[] = [];
  const show = async (columns: number, rows: number, options: string) => {
    const terminal = new Terminal(columns, rows);
    opened.push(terminal);
    await terminal.until((screen) => screen.includes('ready>'));
    terminal.type(`clear; node dist/cli/main.js estimate ${options}`, 'Enter');
    const screen = await terminal.until((seen) => seen.trimEnd().endsWith('ready>') && /target 60|code/.test(seen));
    return screen.trimEnd().split('\n');
  };

  afterEach(() => {
    for (const each of opened.splice(0)) each.close();
  });

  for (const [columns, rows] of [
    [80, 24],
    [120, 40],
    [200, 50],
  ] as const) {
    it(`fits ${columns}x${rows}, the curve whole below the rest`, async () => {
      const lines = await show(columns, rows, `${LOIN} --air 165C`);
      for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(columns);
      const marks = lines.findIndex((line) => /pull \d+ °C +peak 60 °C$/.test(line));
      const axis = lines.findIndex((line) => AXIS.test(line));
      expect(marks).toBeGreaterThanOrEqual(0);
      expect(axis - marks).toBeGreaterThan(6);
      // As wide as the terminal: no row is wrapped, none is left short.
      expect(widthOf(lines[axis]!)).toBe(columns);
      expect(lines[axis + 2]).toMatch(/^ {5}oven at 165 °C█+rest▒+$/);
      expect(lines.at(-1)).toMatch(/^ready>/);
    });
  }

  it('shows on 120x40 all of it at once: figures, cautions, curve', async () => {
    const lines = await show(120, 40, `${LOIN} --air 165C`);
    const text = lines.join('\n');
    for (const part of [/^Pork: cylinder/, /\nMinutes +1 h/, /\nPull +at/, /\nCautions\n/, /┄ target 60 °C/])
      expect(text).toMatch(part);
  });

  it('compares by letters', async () => {
    const lines = await show(120, 40, `${LOIN} --air 150C,180C`);
    expect(lines.join('\n')).toMatch(/\nA 150 °C .*\nB 180 °C /);
    expect(lines.filter((line) => /^ *\d* +·?.*[ABab+]{2}/.test(line)).length).toBeGreaterThan(5);
  });

  it('uses plain characters when asked', async () => {
    const lines = await show(80, 60, `${LOIN} --air 165C --ascii`);
    expect(lines.join('\n')).toMatch(/^[\n\x20-\x7e]*$/);
    expect(lines.join('\n')).toContain('####');
  });
});
