import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clean, cut, cutApart, glyphsOf, pad, widthOf, wrap } from '../../src/chart/text.js';

const names = fc.oneof(
  fc.string({ unit: 'grapheme', maxLength: 30 }),
  fc.string({ unit: fc.constantFrom('a', 'é', 'e\u0301', '海', '🥣', '👩‍🍳', ' '), maxLength: 30 }),
);

describe('widthOf', () => {
  it('counts columns, not code units', () => {
    expect(widthOf('loin')).toBe(4);
    expect(widthOf('brûlée')).toBe(6);
    expect(widthOf('bru\u0302le\u0301e')).toBe(6);
    expect(widthOf('海鮮')).toBe(4);
    expect(widthOf('👩‍🍳')).toBe(2);
  });
});

describe('cut', () => {
  it('leaves what fits as it is', () => expect(cut('Roast roots', 11, '…')).toBe('Roast roots'));
  it('ends in the ellipsis, without a blank before it', () => expect(cut('Roast roots', 7, '…')).toBe('Roast…'));
  it('never halves a wide character', () => expect(cut('海鮮パイ', 4, '…')).toBe('海…'));
  it('keeps an accent with its letter', () => expect(cut('cre\u0300me', 3, '~')).toBe('cr~'));
  it('has no ellipsis where there is hardly room', () => expect(cut('carve', 2, '…')).toBe('ca'));

  it('never exceeds its columns, and pad always fills them', () => {
    fc.assert(
      fc.property(names, fc.integer({ min: 0, max: 24 }), (name, columns) => {
        expect(widthOf(cut(name, columns, '…'))).toBeLessThanOrEqual(columns);
        expect(widthOf(pad(name, columns, '…'))).toBe(columns);
      }),
      { seed: 11, numRuns: 300 },
    );
  });
});

describe('cutApart', () => {
  it('shows where names differ that would look alike', () => {
    expect(cutApart(['Meringues, first tray', 'Meringues, second tray', 'Pears'], 12, '…')).toEqual([
      'Mer…first t…',
      'Mer…second…',
      'Pears',
    ]);
    expect(cutApart(['Almond cake, first', 'Almond cake, first', 'Apples'], 9, '…')).toEqual([
      'Almond c…',
      'Almond c…',
      'Apples',
    ]);
  });

  it('never exceeds its columns', () => {
    fc.assert(
      fc.property(names, names, names, fc.integer({ min: 0, max: 24 }), (start, one, other, columns) => {
        for (const name of cutApart([start + one, start + other], columns, '…')) {
          expect(widthOf(name)).toBeLessThanOrEqual(columns);
        }
      }),
      { seed: 13, numRuns: 300 },
    );
  });
});

describe('clean', () => {
  it('takes out what could move the cursor or turn the line', () => {
    expect(clean('Soup\u001b[2J\nand\tbread')).toBe('Soup [2J and bread');
    expect(clean('\u202eretaw')).toBe('retaw');
  });
});

describe('glyphsOf', () => {
  it('joins marks without columns to the character before', () => {
    expect(glyphsOf('e\u0301x').map((each) => each.width)).toEqual([1, 1]);
    expect(glyphsOf('🥣').map((each) => each.width)).toEqual([2]);
  });
});

describe('wrap', () => {
  it('keeps a number with its unit', () => {
    expect(wrap('Sear at 280 °C for 1 h 15 min.', 13)).toEqual(['Sear at', '280 °C for', '1 h 15 min.']);
  });

  it('loses no word and exceeds no line', () => {
    fc.assert(
      fc.property(fc.array(names, { maxLength: 8 }), fc.integer({ min: 2, max: 30 }), (words, columns) => {
        const sentence = clean(words.join(' ')).replace(/ +/g, ' ');
        const lines = wrap(sentence, columns);
        for (const line of lines) expect(widthOf(line)).toBeLessThanOrEqual(columns);
        expect(lines.join('').replaceAll(' ', '')).toBe(sentence.replaceAll(' ', ''));
      }),
      { seed: 12, numRuns: 300 },
    );
  });
});
