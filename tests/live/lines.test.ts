/** A journal's text, whole, torn and damaged. */
import { describe, expect, it } from 'vitest';
import { Rng } from '../../src/kernel/rng.js';
import { crcOf } from '../../src/live/journal/crc.js';
import { entryFrom } from '../../src/live/journal/entries.js';
import { lineOf, readLines } from '../../src/live/journal/lines.js';
import { rebuilt } from '../../src/live/journal/rebuild.js';
import { Teller } from './day-of.js';

const teller = new Teller()
  .did('Roast loin/tie', '16:30', '16:38')
  .did('Roast loin/roast', '16:45')
  .must('17:00', { kind: 'reading', step: 'Roast loin/roast', celsius: 21.5 })
  .must('17:05', { kind: 'note', text: 'fumaça, «à porta» 🔥' })
  .must('17:06', { kind: 'undo', of: 7 });
const { entries } = teller;
const text = entries.map((entry) => `${lineOf(entry)}\n`).join('');
const bytes = new TextEncoder().encode(text);
const written = new Set(readLines(bytes).entries.map((entry) => JSON.stringify(entry)));

describe('a journal as text', () => {
  it('has the checksum that everybody reckons', () => {
    // CRC-32's check value, of the digits 1 to 9 (from memory; it is the one that catalogues of checksums give).
    expect(crcOf('123456789')).toBe('cbf43926');
  });

  it('comes back as it was written', () => {
    expect(readLines(bytes)).toEqual({ entries, torn: false, damage: [], whole: bytes.length, open: false });
    expect(readLines(new Uint8Array())).toEqual({ entries: [], torn: false, damage: [], whole: 0, open: false });
  });

  it('loses nothing but its torn end, wherever it is torn', () => {
    const ends = entries.map(
      (_, at) =>
        new TextEncoder().encode(
          entries
            .slice(0, at + 1)
            .map((one) => `${lineOf(one)}\n`)
            .join(''),
        ).length,
    );
    const rng = new Rng(1);
    const cuts = [
      ...ends,
      ...ends.map((end) => end - 1),
      ...Array.from({ length: 100 }, () => rng.below(bytes.length)),
    ];
    for (const cut of cuts) {
      const read = readLines(bytes.subarray(0, cut));
      const whole = ends.filter((end) => end - 1 <= cut).length;
      expect(read.entries, `cut at ${cut}`).toEqual(entries.slice(0, whole));
      expect(read.damage).toEqual([]);
      expect(read.torn).toBe(cut > 0 && !ends.includes(cut) && !ends.includes(cut + 1));
    }
  });

  it('is never read as something else after 500 mutations, and what is whole is read', () => {
    const rng = new Rng(7);
    let found = 0;
    for (let round = 0; round < 500; round++) {
      const changed = mutated(bytes, rng);
      const read = readLines(changed);
      expect(read.entries.filter((entry) => !written.has(JSON.stringify(entry)))).toEqual([]);
      if (read.damage.length > 0 || read.torn || read.open) found++;
      else expect(read.entries).toEqual(entries.slice(0, read.entries.length));
      expect(read.entries.length).toBeGreaterThanOrEqual(entries.length - 4);
      for (const { line, say } of read.damage) expect(`${line} ${say}`).toMatch(/^\d+ \S/);
      // Whatever was read, a day comes of it.
      expect(rebuilt(teller.meal, read.entries).day.problem).toBeDefined();
    }
    expect(found).toBeGreaterThan(480);
  });

  it('names the lines that are damaged or missing', () => {
    const lines = text.split('\n');
    const without = (at: number) => lines.filter((_, line) => line !== at).join('\n');
    const read = (changed: string) => readLines(new TextEncoder().encode(changed)).damage;
    expect(read(without(3))).toEqual([{ line: 4, say: 'comes where entry 4 is missing' }]);
    expect(read([...lines.slice(0, 3), lines[2], ...lines.slice(3)].join('\n'))).toEqual([
      { line: 4, say: 'has the number 3 again' },
    ]);
    expect(read(text.replace('16:38', '16:39'))).toEqual([{ line: 4, say: 'cannot be read' }]);
  });

  it('takes no entry that is none', () => {
    const [, , entry] = entries;
    expect(entryFrom(entry)).toEqual(entry);
    for (const wrong of [
      null,
      3,
      [],
      {},
      { ...entry, v: 2 },
      { ...entry, seq: 0 },
      { ...entry, kind: 'start' },
      { ...entry, more: 1 },
      { ...entry, when: '17:05' },
    ])
      expect(entryFrom(wrong)).toBeNull();
  });
});

/** A byte changed, a stretch gone, a stretch doubled, two lines swapped, or bytes from nowhere. */
function mutated(from: Uint8Array, rng: Rng): Uint8Array {
  const at = rng.below(from.length);
  const length = 1 + rng.below(40);
  const parts = (...some: Uint8Array[]): Uint8Array => Uint8Array.from(some.flatMap((part) => [...part]));
  switch (rng.below(4)) {
    case 0: {
      const changed = from.slice();
      changed[at] = (changed[at]! + 1 + rng.below(255)) % 256;
      return changed;
    }
    case 1:
      return parts(from.subarray(0, at), from.subarray(at + length));
    case 2:
      return parts(from.subarray(0, at + length), from.subarray(at));
    default: {
      const strange = Uint8Array.from({ length }, () => rng.below(256));
      return parts(from.subarray(0, at), strange, from.subarray(at));
    }
  }
}
