/** Taps at random, by links at random: none does more than its link covers, and none does anything twice. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Entry } from '../../src/live/journal/entries.js';
import { isRefusal } from '../../src/live/journal/names.js';
import { rebuilt, withEntry } from '../../src/live/journal/rebuild.js';
import { standingAt } from '../../src/live/state/state.js';
import { minuteAt } from '../../src/problem/hours.js';
import { itemsOf } from '../../src/wall/items.js';
import { covers, type Right } from '../../src/wall/rights.js';
import { entriesFor, type Tap } from '../../src/wall/tap.js';
import { Teller } from '../live/day-of.js';

const RIGHTS: readonly Right[] = [
  { kind: 'all', who: null },
  { kind: 'cook', who: 'Ines' },
  { kind: 'cook', who: 'Tomas' },
  { kind: 'look', who: null },
];

describe('taps', () => {
  it('do what their link covers, once, or nothing', () => {
    const first = new Teller();
    const { meal } = first;
    let counted = { noted: 0, forbidden: 0, refused: 0 };
    const tap = fc.record({
      right: fc.constantFrom(...RIGHTS),
      item: fc.nat(),
      want: fc.constantFrom('done' as const, 'done' as const, 'done' as const, 'open' as const),
      minutes: fc.integer({ min: 0, max: 15 }),
    });
    const property = fc.property(fc.array(tap, { minLength: 25, maxLength: 25 }), (taps) => {
      let entries: readonly Entry[] = first.entries;
      let minute = minuteAt(meal.problem, first.iso('17:00'));
      for (const { right, item: index, want, minutes } of taps) {
        minute += minutes;
        const at = first.iso(`${Math.floor(minute / 60) + 12}:${String(minute % 60).padStart(2, '0')}`);
        const look = () => {
          const { day, inForce } = rebuilt(meal, entries);
          return { day, inForce, items: itemsOf(day, standingAt(day, minute), inForce) };
        };
        const { day, inForce, items } = look();
        // Mostly what is due, which is what people tap.
        const all = [...items.underWay, ...items.calls.filter(({ open }) => open).slice(0, 3), ...items.calls];
        const item = all[index % all.length]!;
        const asked: Tap = { item: item.key, want };
        const bodies = entriesFor(day, inForce, items, right, asked);
        if ('say' in bodies) {
          counted = { ...counted, forbidden: counted.forbidden + 1 };
          expect(bodies.forbidden).toBe(true);
          expect(right.kind).not.toBe('all');
          continue;
        }
        expect(right.kind).not.toBe('look');
        if (bodies.length === 0) continue;
        if (want === 'done') expect(covers(right, item.cooks)).toBe(true);
        const made: Entry[] = [];
        let fits = true;
        for (const body of bodies) {
          const entry = withEntry(meal, [...entries, ...made], { at, when: at, who: right.who }, body);
          if (isRefusal(entry)) fits = false;
          else if (fits) made.push(entry);
        }
        counted = fits ? { ...counted, noted: counted.noted + 1 } : { ...counted, refused: counted.refused + 1 };
        if (!fits) continue;
        for (const entry of made)
          if (entry.kind === 'undo' && right.kind === 'cook')
            expect(entries.find(({ seq }) => seq === entry.of)!.who).toBe(right.who);
        entries = [...entries, ...made];
        const after = look();
        if (want === 'done') expect(entriesFor(after.day, after.inForce, after.items, right, asked)).toEqual([]);
      }
    });
    fc.assert(property, { seed: 1, numRuns: 8 });
    expect(counted.noted).toBeGreaterThan(25);
    expect(counted.forbidden).toBeGreaterThan(25);
  });
});
