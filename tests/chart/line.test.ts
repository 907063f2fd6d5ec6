import { describe, expect, it } from 'vitest';
import { CellRow, clip, lineWidth, plainLine, segment, textOf } from '../../src/chart/line.js';

describe('CellRow', () => {
  it('joins neighbours of one role', () => {
    const row = new CellRow(6);
    row.write(1, 'ab', 'strong');
    row.write(3, 'c', 'strong');
    expect(row.line()).toEqual([segment(' '), segment('abc', 'strong'), segment('  ')]);
  });

  it('cuts off what lies outside, and blanks a wide character that would be halved', () => {
    const row = new CellRow(4);
    row.write(-1, '海x', 'plain');
    row.write(3, '海', 'plain');
    expect(textOf(row.line())).toBe(' x');
    expect(lineWidth(row.line())).toBe(4);
  });

  it('knows which cells hold only what is behind', () => {
    const row = new CellRow(3);
    row.write(0, '.', 'grid', true);
    row.write(1, 'A', 'plain');
    expect([0, 1, 2].map((column) => row.isFree(column))).toEqual([true, false, true]);
  });
});

describe('clip', () => {
  it('leaves short lines alone and cuts long ones', () => {
    expect(clip(plainLine('abc'), 5)).toEqual(plainLine('abc'));
    expect(textOf(clip([segment('ab'), segment('cd', 'dim')], 3))).toBe('abc');
    expect(lineWidth(clip(plainLine('a海'), 2))).toBe(2);
  });
});
