/** Modes and temperatures. */
import { describe, expect, it } from 'vitest';
import { OIL, optionsWith, optionWith, rootsWith } from './support/roots.js';
import { changed, messagesOf, problemOf } from './support/small-supper.js';

describe('mode', () => {
  const mode = (step: string) => optionWith(`takes: 10 min, pan: skillet, ${step}`).place;

  it('is the one that is named, else the one named like the work, else the first', () => {
    expect(mode('work: roast, on: [{ place: grill, mode: sear }]')).toMatchObject({ mode: 0 });
    expect(mode('work: roast, on: grill')).toMatchObject({ mode: 1 });
    expect(mode('work: bake, on: grill')).toMatchObject({ mode: 0 });
    expect(mode('work: bake, mode: fan, on: oven')).toMatchObject({ mode: 1 });
  });
});

describe('heat', () => {
  const heat = (step: string, ...changes: readonly (readonly [string, string])[]) => {
    const { settings, ideal, flame } = optionWith(`work: roast, pan: skillet, on: oven, ${step}`, ...changes);
    return [settings[0], settings.at(-1), settings.length, ideal, flame];
  };
  const TABLE = 'takes: { "160C": 47 min, "185C": 37 min, "210C": 30 min }';

  it('is a range whose middle is ideal, or says its ideal', () => {
    expect(heat('takes: 30 min, heat: 150-180C')).toEqual([150, 180, 7, 165, null]);
    expect(heat('takes: 30 min, heat: { range: 150-180C, ideal: 160C }')).toEqual([150, 180, 7, 160, null]);
    expect(heat('takes: 30 min, heat: { range: 150-180C }')).toEqual([150, 180, 7, 165, null]);
    expect(heat('takes: 30 min, heat: 150C')).toEqual([150, 150, 1, 150, null]);
  });

  it("is cut to the columns and to the mode's range; the ideal is from before the cut", () => {
    expect(heat(`${TABLE}, heat: 150-200C`)).toEqual([160, 200, 9, 175, null]);
    expect(heat('takes: 30 min, heat: 250-290C')).toEqual([250, 270, 5, 270, null]);
    expect(heat('takes: 30 min, heat: 250-300C')).toEqual([250, 270, 5, 275, null]);
  });

  it('is absent: the columns and their middle, or with neither the whole mode and no ideal', () => {
    expect(heat(TABLE)).toEqual([160, 210, 11, 185, null]);
    expect(heat('takes: 30 min')).toEqual([75, 270, 40, null, null]);
    expect(heat('takes: { "60C": 90 min, "100C": 60 min }')).toEqual([75, 100, 6, 80, null]);
  });

  it('lies on the dial: multiples of its step in its own degrees', () => {
    expect(heat('takes: 30 min, heat: 152-163C')).toEqual([155, 160, 2, 157.5, null]);
    const inFahrenheit = ['heats: 11C/min', 'heats: 11C/min\n      dial: 25F'] as const;
    const { settings } = optionWith('work: roast, pan: skillet, on: oven, takes: 30 min, heat: 150-180C', inFahrenheit);
    expect(settings).toEqual([(325 - 32) / 1.8, (350 - 32) / 1.8]);
  });

  it('goes in steps of 5F where the heats of the appliance are written in F, else 5C', () => {
    const oven = [
      'modes: { roast: { heat: 75-270C }, fan: { heat: 75-250C } }',
      'modes: { roast: { heat: 170-520F }, fan: { heat: 170-480F } }',
    ] as const;
    expect(problemOf(changed(oven)).kitchen.appliances.map((one) => one.dial)).toEqual([
      { unit: 'C', step: 5 },
      { unit: 'F', step: 5 },
      { unit: 'C', step: 5 },
    ]);
    const { settings } = optionWith(
      'work: roast, pan: skillet, on: oven, takes: { "325F": 30 min, "340F": 26 min }',
      oven,
    );
    expect(settings).toEqual([325, 330, 335, 340].map((fahrenheit) => (fahrenheit - 32) / 1.8));
  });

  it('on a burner is a word, without settings', () => {
    const { settings, ideal, flame } = optionWith(
      'work: fry, takes: 5 min, pan: skillet, on: [{ place: burner, heat: medium }]',
    );
    expect([settings, ideal, flame]).toEqual([[], null, 'medium']);
    expect(optionWith('work: fry, takes: 5 min, pan: skillet, on: burner').flame).toBeNull();
    expect(optionWith('work: fry, takes: 5 min, pan: skillet, on: burner, heat: low').flame).toBe('low');
  });

  it('of the step goes to the places that have such a heat', () => {
    const [burner, oven] = optionsWith('work: roast, takes: 5 min, pan: skillet, on: [burner, oven], heat: 150C');
    expect([burner!.flame, oven!.settings]).toEqual([null, [150]]);
  });

  it('that the dial does not have is refused with its neighbours', () => {
    const text = rootsWith(
      `- { step: do, work: roast, takes: 30 min, pan: skillet, on: oven, heat: 161-164C }\n${OIL}`,
    );
    expect(messagesOf(text)).toMatchObject([{ code: 'no-place', hint: '160 °C or 165 °C' }]);
    const fine = rootsWith(`- { step: do, work: roast, takes: 30 min, pan: skillet, on: oven, heat: 163C }\n${OIL}`, [
      'heats: 11C/min',
      'heats: 11C/min\n      dial: 25F',
    ]);
    expect(messagesOf(fine)).toMatchObject([{ code: 'no-place', hint: '325 °F or 350 °F' }]);
  });
});
