/** Quantities, clocks, dials and single loads, over many values. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { footprintFits } from '../../src/problem/fits.js';
import { dialSettings } from '../../src/problem/heat.js';
import { distance } from '../../src/problem/nearest.js';
import type { Appliance, Dial, Footprint, Grate, Mode } from '../../src/problem/problem.js';
import { addDays, instantFrom, instantOf, localOf } from '../../src/units/clock.js';
import { parseDuration, parseDurationSpan } from '../../src/units/duration.js';
import { parseLength, parseSize } from '../../src/units/length.js';
import { showLength, showMinutes, showSize, showTemperature } from '../../src/units/show.js';
import { celsiusOfFahrenheit, fahrenheitOfCelsius, parseTemperature } from '../../src/units/temperature.js';

const run = <Ts>(seed: number, property: fc.IProperty<Ts>, numRuns = 300): void =>
  fc.assert(property, { seed, numRuns });

describe('what is shown can be read', () => {
  it('durations', () => {
    run(
      1,
      fc.property(fc.integer({ min: 0, max: 86_400 }), (minutes) => {
        expect(parseDuration(showMinutes(minutes))).toEqual({ ok: true, value: minutes });
      }),
    );
  });

  it('ranges of durations', () => {
    run(
      2,
      fc.property(fc.nat(5000), fc.nat(5000), (low, more) => {
        const text = `${showMinutes(low)} - ${showMinutes(low + more)}`;
        expect(parseDurationSpan(text)).toEqual({ ok: true, value: { low, high: low + more } });
      }),
    );
  });

  it('whole degrees, in either scale', () => {
    run(
      3,
      fc.property(
        fc.integer({ min: -70, max: 750 }),
        fc.constantFrom('C' as const, 'F' as const),
        (degrees, degree) => {
          const celsius = degree === 'C' ? degrees : celsiusOfFahrenheit(degrees);
          expect(parseTemperature(showTemperature(celsius, degree))).toEqual({ ok: true, value: { celsius, degree } });
        },
      ),
    );
  });

  it('lengths and sizes in whole millimetres', () => {
    run(
      4,
      fc.property(fc.integer({ min: 1, max: 9000 }), fc.integer({ min: 1, max: 9000 }), (width, depth) => {
        const [w, d] = [width / 1000, depth / 1000];
        expect(parseLength(showLength(w))).toEqual({ ok: true, value: w });
        expect(parseSize(showSize(w, d))).toEqual({ ok: true, value: { width: w, depth: d } });
      }),
    );
  });
});

describe('a clock', () => {
  const zones = ['Europe/Lisbon', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kathmandu', 'Pacific/Apia', 'UTC'];
  const local = fc.record({
    year: fc.integer({ min: 2000, max: 2060 }),
    month: fc.integer({ min: 1, max: 12 }),
    day: fc.integer({ min: 1, max: 28 }),
    minute: fc.nat(1439),
  });

  it('shows the local time whose instant it was asked for, the first of two', () => {
    run(
      5,
      fc.property(local, fc.constantFrom(...zones), (time, zone) => {
        const instant = instantOf(time, zone);
        if (instant === null) return;
        expect(localOf(instant, zone)).toEqual(time);
        for (const earlier of [30, 60, 120]) expect(localOf(instant - earlier * 60_000, zone)).not.toEqual(time);
      }),
    );
  });

  it('goes on, never back, from one local day to the next', () => {
    run(
      6,
      fc.property(local, fc.constantFrom(...zones), fc.integer({ min: 1, max: 400 }), (time, zone, days) => {
        expect(instantFrom(addDays(time, days), zone)).toBeGreaterThan(instantFrom(time, zone));
      }),
    );
  });
});

describe('a dial', () => {
  it('has every mark within the range, and no other', () => {
    const dial = fc.record({
      unit: fc.constantFrom('C' as const, 'F' as const),
      step: fc.constantFrom(1, 2.5, 5, 10, 25),
    });
    run(
      7,
      fc.property(
        dial,
        fc.double({ min: -20, max: 400, noNaN: true }),
        fc.double({ min: 0, max: 200, noNaN: true }),
        (one: Dial, low, width) => {
          const settings = dialSettings(one, low, low + width);
          const mark = (count: number) => (one.unit === 'F' ? celsiusOfFahrenheit(count * one.step) : count * one.step);
          const first = Math.floor((one.unit === 'F' ? fahrenheitOfCelsius(low) : low) / one.step) - 2;
          const marks = Array.from({ length: Math.ceil((width * 1.8) / one.step) + 6 }, (_, index) =>
            mark(first + index),
          );
          expect(settings).toEqual(marks.filter((celsius) => celsius >= low && celsius <= low + width));
        },
      ),
    );
  });

  it('has the ends of a range that are marks, also in °F', () => {
    run(
      8,
      fc.property(fc.integer({ min: 20, max: 100 }), fc.integer({ min: 0, max: 20 }), (count, more) => {
        const ends = [celsiusOfFahrenheit(count * 5), celsiusOfFahrenheit((count + more) * 5)] as const;
        const settings = dialSettings({ unit: 'F', step: 5 }, ...ends);
        expect([settings.length, settings[0], settings.at(-1)]).toEqual([more + 1, ...ends]);
      }),
    );
  });
});

describe('the nearest spelling', () => {
  it('is measured by a distance: none to itself, the same both ways, at most the longer word', () => {
    const word = fc.string({ maxLength: 8, unit: fc.constantFrom('a', 'b', 'c') });
    run(
      9,
      fc.property(word, word, (a, b) => {
        expect(distance(a, a)).toBe(0);
        expect(distance(a, b)).toBe(distance(b, a));
        expect(distance(a, b)).toBeLessThanOrEqual(Math.max(a.length, b.length));
        expect(distance(a, b)).toBeGreaterThanOrEqual(Math.abs(a.length - b.length));
        if (a !== b) expect(distance(a, b)).toBeGreaterThan(0);
      }),
    );
  });
});

describe('one load on a grate', () => {
  const sizes = fc.array(fc.tuple(fc.integer({ min: 5, max: 40 }), fc.integer({ min: 5, max: 60 })), {
    minLength: 1,
    maxLength: 4,
  });
  const mode = (lit: string[]): Mode => ({
    name: 'roast',
    lid: null,
    heat: { low: 100, high: 250 },
    lit,
    height: null,
  });

  function grill(zones: readonly (readonly [number, number])[]): Appliance {
    let x = 0;
    const placed: Grate['zones'][number][] = zones.map(([width, depth], index) => {
      x += width;
      return { name: String(index), x: x - width, width, depth };
    });
    const surface: Grate = { kind: 'grate', zones: placed, round: null };
    return { name: 'grill', kind: 'grill', surface, modes: [], heats: 1, cools: 1, dial: { unit: 'C', step: 5 } };
  }

  /** Whether a circle whose centre is (x, r) lies over zones that are not lit, by its points on a fine raster of x. */
  function liesAt(
    zones: readonly (readonly [number, number])[],
    lit: readonly string[],
    x: number,
    r: number,
  ): boolean {
    for (let step = -200; step <= 200; step++) {
      const at = x + (step / 200) * r;
      const top = r + Math.sqrt(Math.max(0, r * r - (at - x) ** 2));
      let left = 0;
      const depths = zones.flatMap(([width, depth], index) => {
        const within = at > left - 1e-9 && at < left + width + 1e-9;
        left += width;
        return within && !lit.includes(String(index)) ? [depth] : [];
      });
      if (depths.length === 0 || Math.max(...depths) < top - 1e-6) return false;
    }
    return true;
  }

  it('that is round is found by trying every place', () => {
    run(
      10,
      fc.property(sizes, fc.integer({ min: 4, max: 60 }), fc.subarray(['0', '1', '2', '3']), (zones, diameter, lit) => {
        const r = diameter / 2;
        const whole = zones.reduce((sum, [width]) => sum + width, 0);
        const tried = Array.from({ length: whole * 8 + 1 }, (_, index) => index / 8);
        const found = tried.some((x) => liesAt(zones, lit, x, r));
        const fits = footprintFits(grill(zones), mode(lit), { kind: 'round', diameter });
        // The raster misses places between its points, so that it may only find too little.
        if (found) expect(fits).toBe(true);
        if (fits) {
          const smaller = r * 0.97;
          expect(tried.some((x) => liesAt(zones, lit, x, smaller))).toBe(true);
        }
      }),
      100,
    );
  });

  it('still fits when it is smaller, and when fewer zones are lit', () => {
    const load = fc.oneof(
      fc.record({ kind: fc.constant('round' as const), diameter: fc.integer({ min: 4, max: 60 }) }),
      fc.record({
        kind: fc.constant('rectangle' as const),
        width: fc.integer({ min: 4, max: 80 }),
        depth: fc.integer({ min: 4, max: 60 }),
      }),
    );
    run(
      11,
      fc.property(sizes, load, fc.subarray(['0', '1', '2', '3']), (zones, footprint: Footprint, lit) => {
        const place = grill(zones);
        if (!footprintFits(place, mode(lit), footprint)) return;
        const smaller: Footprint =
          footprint.kind === 'round'
            ? { kind: 'round', diameter: footprint.diameter * 0.9 }
            : { kind: 'rectangle', width: footprint.depth * 0.9, depth: footprint.width };
        expect(footprintFits(place, mode(lit), smaller)).toBe(true);
        expect(footprintFits(place, mode(lit.slice(1)), footprint)).toBe(true);
      }),
    );
  });
});
