/** What is printed when the wall is up: links, and codes that a phone reads. */
import reader from 'jsqr';
import { describe, expect, it } from 'vitest';
import { codeLines, modulesOf } from '../../cli/wall/codes.js';
import { linksFor } from '../../cli/wall/links.js';
import { welcomeLines } from '../../cli/wall/welcome.js';
import { widthOf } from '../../src/chart/text.js';
import { supper } from '../live/day-of.js';

describe('a code', () => {
  const url = 'http://192.168.100.100:65535/3iujwz2JrKl74yfzN5INo_/';

  it('is read by an independent reader', () => {
    const modules = modulesOf(url);
    const scale = 4;
    const size = modules.length * scale;
    const pixels = new Uint8ClampedArray(size * size * 4).fill(255);
    for (let y = 0; y < size; y++)
      for (let x = 0; x < size; x++)
        if (modules[Math.floor(y / scale)]![Math.floor(x / scale)])
          pixels.fill(0, 4 * (y * size + x), 4 * (y * size + x) + 3);
    // The package is of the older kind, which TypeScript takes for a module of modules.
    const read = reader as unknown as typeof reader.default;
    expect(read(pixels, size, size)?.data).toBe(url);
  });

  it('is drawn so that its modules can be told again, and fits in 80 columns', () => {
    const modules = modulesOf(url);
    for (const colors of [true, false]) {
      // biome-ignore lint/suspicious/noControlCharactersInRegex: colours of a terminal
      const plain = (line: string) => line.replace(/\u001b\[[\d;]*m/g, '');
      const ascii = codeLines(url, { unicode: false, colors }).map(plain);
      expect(ascii.map((line) => line.match(/../g)!.map((sign) => (sign === '##') === colors))).toEqual(modules);
      expect(ascii[0]!.length).toBeLessThanOrEqual(80);
      const halves = codeLines(url, { unicode: true, colors }).map(plain);
      const rows = halves.flatMap((line) =>
        ['▀█', '▄█'].map((inks) => [...line].map((sign) => inks.includes(sign) === colors)),
      );
      expect(rows.slice(0, modules.length)).toEqual(modules);
    }
  });
});

describe('the welcome', () => {
  const links = linksFor(supper().problem, 'k', null);

  it('has a code for each phone where phones can come, and the other addresses', () => {
    const look = { unicode: true, colors: false };
    const some = { links, port: 4330, width: 80, rows: null, look };
    const open = welcomeLines({ ...some, addresses: ['192.168.1.5', '10.0.0.7'] }).join('\n');
    for (const { token } of links) expect(open).toContain(`http://192.168.1.5:4330/${token}/`);
    expect(open).toContain('If phones find nothing there: 10.0.0.7');
    expect(open).toContain('Nothing is encrypted');
    expect(open).toContain('█');
    const alone = welcomeLines({ ...some, addresses: [] }).join('\n');
    expect(alone).toContain('http://127.0.0.1:4330/');
    expect(alone).not.toContain('█');
  });

  it.each([
    [80, 24, 2, true],
    [120, 40, 3, true],
    [200, 50, 5, false],
    [30, 24, 0, false],
  ])('fits %i columns and %i rows: %i codes beside each other', (width, rows, beside, above) => {
    const five = [...links, { ...links[0]!, token: links[0]!.token.replace(/./g, 'x') }];
    const look = { unicode: true, colors: true };
    const coloured = welcomeLines({ links: five, addresses: ['192.168.1.5'], port: 4330, width, rows, look });
    // biome-ignore lint/suspicious/noControlCharactersInRegex: colours of a terminal
    const lines = coloured.map((line) => line.replace(/\u001b\[[\d;]*m/g, ''));
    const drawn = lines.filter((line) => /[█▀▄]/.test(line));
    const sentences = lines.filter((line) => !/http:|ticks off|[█▀▄]/.test(line));
    for (const line of [...drawn, ...sentences]) expect(widthOf(line)).toBeLessThanOrEqual(width);
    const most = Math.max(0, ...lines.map((line) => (line.match(/█▀▀▀▀▀█.{7,17}█▀▀▀▀▀█/g) ?? []).length));
    expect(most).toBe(beside);
    expect(lines.some((line) => line.includes('scroll up'))).toBe(above);
    expect(lines.some((line) => line.startsWith('QR codes want 37 columns'))).toBe(beside === 0);
  });
});
