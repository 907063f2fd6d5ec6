/** How long a step takes. */
import { describe, expect, it } from 'vitest';
import { optionsWith, optionWith } from './support/roots.js';
import { problemOf, SMALL_SUPPER, stepOf } from './support/small-supper.js';

describe('takes', () => {
  it('is one duration, with or without a spread', () => {
    expect(optionWith('work: finish, takes: 12 min').duration).toEqual({
      kind: 'fixed',
      minutes: 12,
      low: 12,
      high: 12,
    });
    expect(optionWith('work: finish, takes: { low: 10 min, likely: 12 min, high: 15 min }').duration).toEqual({
      kind: 'fixed',
      minutes: 12,
      low: 10,
      high: 15,
    });
    expect(optionWith('work: finish, takes: { likely: 12 min }').duration).toEqual({
      kind: 'fixed',
      minutes: 12,
      low: 12,
      high: 12,
    });
  });

  it('is a range, all of which is best unless best says otherwise', () => {
    expect(optionWith('work: rest, takes: 15-35 min').duration).toEqual({
      kind: 'range',
      low: 15,
      high: 35,
      best: { low: 15, high: 35 },
    });
    expect(optionWith('work: rest, takes: 15-35 min, best: 18-26 min').duration).toEqual({
      kind: 'range',
      low: 15,
      high: 35,
      best: { low: 18, high: 26 },
    });
    expect(optionWith('work: rest, takes: 15-35 min, best: 20 min').duration).toMatchObject({
      best: { low: 20, high: 20 },
    });
    expect(optionWith('work: rest, takes: 15-15 min').duration).toEqual({
      kind: 'fixed',
      minutes: 15,
      low: 15,
      high: 15,
    });
  });

  it('is a table, in rising order whatever the order in the file', () => {
    const { duration } = optionWith(
      'work: roast, on: oven, pan: half sheet, takes: { "410F": 30 min, "160C": 47 min, "185 °C": 37 min }',
    );
    expect(duration).toEqual({
      kind: 'table',
      columns: [
        { celsius: 160, minutes: 47 },
        { celsius: 185, minutes: 37 },
        { celsius: 210, minutes: 30 },
      ],
    });
  });

  it('may be a table with level or single columns', () => {
    expect(
      optionWith('work: roast, on: oven, pan: half sheet, takes: { "160C": 47 min, "180C": 40 min, "200C": 40 min }')
        .duration.kind,
    ).toBe('table');
    const one = optionWith('work: roast, on: oven, pan: half sheet, takes: { "180C": 40 min }');
    expect([one.settings, one.ideal]).toEqual([[180], 180]);
  });

  it('gives way to until, which reads its minutes from a table beside it, or on a burner from one duration', () => {
    const problem = problemOf(SMALL_SUPPER);
    const roast = stepOf(problem, 'Pork loin/roast');
    expect(roast.core).toBe(58);
    expect(roast.options[0]!.duration).toMatchObject({
      kind: 'table',
      columns: [{ celsius: 150, minutes: 95 }, {}, {}],
    });
    const [oven, burner] = optionsWith(
      'work: roast, until: { core: 60C }, pan: skillet, on: [{ place: oven, minutes: { "150C": 40 min, "200C": 30 min } }, { place: burner, minutes: 25 min }]',
    );
    expect(oven!.duration.kind).toBe('table');
    expect(burner!.duration).toEqual({ kind: 'fixed', minutes: 25, low: 25, high: 25 });
  });
});
