/** From words to what is asked, and every mistake of theirs. */
import { describe, expect, it } from 'vitest';
import { type Asked, askedOf } from '../../src/estimate/asked.js';
import { searOf } from '../../src/estimate/heat-asked.js';
import type { Words } from '../../src/estimate/words.js';
import { ran } from '../support/command.js';

const LOIN: Words = { food: 'pork', thickness: '11cm', weight: '3.2kg', from: '4C', air: '165C', target: '60C' };

function asked(words: Words): Asked {
  const reading = askedOf(words);
  if ('mistakes' in reading) throw new Error(JSON.stringify(reading.mistakes));
  return reading;
}

/** `option: say | hint`, a line each. */
function wrong(words: Words): string[] {
  const reading = askedOf(words);
  return 'mistakes' in reading ? reading.mistakes.map(({ option, say, hint }) => `${option}: ${say} | ${hint}`) : [];
}

describe('what is asked', () => {
  it('has what is not said as a kitchen usually has it', () => {
    const { from: _, ...words } = LOIN;
    expect(asked(words)).toMatchObject({
      piece: { shape: 'cylinder', thickness: 0.11, weight: 3.2, from: 4, bone: false, crust: 0 },
      joint: { from: 4 },
      air: [165],
      inside: 'oven',
      moving: 'still',
      on: 'rack',
      foil: false,
      goal: { kind: 'target', celsius: 60 },
      sear: null,
      rest: null,
      room: 20,
      accept: [],
      units: { air: 'C', core: 'C', length: 'cm', weight: 'kg' },
    });
  });

  it.each([
    [{ thickness: '10cm', weight: '2.8kg' }, 'length', 0.3395],
    [{ thickness: '10cm', length: '34cm' }, 'thickness', 0.1],
    [{ length: '34cm', weight: '2.8kg' }, 'thickness', 0.0999],
  ] as const)('makes the third of two sizes: %o', (sizes, side, metres) => {
    const { thickness: _, weight: __, ...rest } = LOIN;
    expect(asked({ ...rest, ...sizes }).piece[side]).toBeCloseTo(metres, 3);
    expect(asked({ ...rest, ...sizes }).joint.body).toMatchObject({ shape: 'cylinder' });
  });

  it('takes every way of cooking', () => {
    const grilled = asked({ ...LOIN, grill: true, sear: '12 min 280C', rest: '25min', room: '68F', foil: true });
    expect(grilled).toMatchObject({ inside: 'grill', on: 'grate', foil: true, rest: 25, room: 20 });
    expect(grilled.sear).toEqual({ minutes: 12, celsius: 280, on: 'grate' });
    expect(asked({ ...LOIN, fan: true, pan: true, sear: '4 min 230C' })).toMatchObject({
      moving: 'fan',
      on: 'pan',
      sear: { on: 'pan' },
    });
    expect(asked({ ...LOIN, grill: true, pan: true })).toMatchObject({ inside: 'grill', on: 'pan' });
    expect(asked({ ...LOIN, bone: true, crust: '1cm' }).joint).toMatchObject({ bone: true, crust: 0.01 });
  });

  it('puts several temperatures of the air in order, each once', () => {
    expect(asked({ ...LOIN, air: '180C, 150C,165C,150C' }).air).toEqual([150, 165, 180]);
  });

  it('is told in the units in which it is asked', () => {
    const us = { food: 'leg of lamb', thickness: '5in', weight: '6 lb 4 oz', air: '325F', pull: '130F' };
    expect(asked(us).units).toEqual({ air: 'F', core: 'F', length: 'in', weight: 'lb' });
    expect(asked({ food: 'chicken', weight: '4lb', air: '190C', target: '165F' }).units).toEqual({
      air: 'C',
      core: 'F',
      length: 'in',
      weight: 'lb',
    });
    expect(asked({ ...LOIN, thickness: '4 1/2 in', weight: '3.2kg' }).units).toMatchObject({
      length: 'in',
      weight: 'kg',
    });
    const { weight: _, ...sized } = LOIN;
    expect(asked({ ...sized, thickness: '4.5in', length: '13in' }).units).toMatchObject({ weight: 'lb' });
  });

  it.each([
    ['12 min 280C', { minutes: 12, celsius: 280 }],
    ['280C 12 min', { minutes: 12, celsius: 280 }],
    ['12min at 280 C', { minutes: 12, celsius: 280 }],
    ['1h 5m, 212F', { minutes: 65, celsius: 100 }],
  ])('takes a sear of %s', (text, sear) => expect(searOf(text)).toEqual({ ok: true, value: sear }));
});

describe('a mistake', () => {
  it('is told with all others, in the order of the options', () => {
    expect(
      wrong({ food: 'prok', thickness: '11', weight: '3.2', air: '350', target: '60', sear: 'long', rest: '2' }),
    ).toEqual([
      'food: The heat model does not know the food `prok`. | pork',
      'thickness: `11` needs a unit. | 11 cm or 11 in',
      'weight: `3.2` needs a unit. | 3.2 kg or 3.2 lb',
      'air: `350` needs a unit. | 350C or 350F',
      'target: `60` needs a unit. | 60C or 60F',
      'sear: `long` is not a sear: for how long, and how hot the iron is. | "12 min 280C" or "10 min 500F"',
      'rest: `2` needs a unit. | 2 min or 2h',
    ]);
    expect(wrong({})).toEqual([
      'food: Nothing says what it is. | pork, leg of lamb, chicken, potato',
      'air: Nothing says how hot the air around it is. | 165C, or several: 150C,165C,180C',
      'target: Nothing says how far the core is to go. | --target 60C, to rest up to that, or --pull 55C, to take it off there',
    ]);
  });

  it.each<[string, Partial<Words>, RegExp]>([
    [
      'a food that nothing is like',
      { food: 'quinoa' },
      /^food: .*`quinoa`\. \| beef, .*potato, or what it is most like$/,
    ],
    [
      'a shape that no name says',
      { food: 'salmon' },
      /^shape: `salmon` does not say its shape\. \| cylinder, sphere, slab, brick$/,
    ],
    [
      'too few sizes',
      { weight: undefined as never },
      /^null: 11 cm thick does not say how big .* \| give its length or weight$/,
    ],
    [
      'sizes that contradict',
      { length: '30cm', weight: '9kg' },
      /^null: A cylinder 11 cm thick and 30 cm long weighs about 2\.99 kg, but/,
    ],
    ['what is not round', { width: '30cm' }, /^null: A cylinder cannot be 30 cm wide .* \| --shape brick$/],
    ['frozen food', { from: '-18C' }, /^from: At `-18C` it is frozen/],
    ['a warm beginning', { from: '60C' }, /^from: The piece begins at 60 °C, which is not below the core of 60 °C/],
    [
      'air below the target',
      { air: '58C' },
      /^air: In air of 58 °C the core never gets to 60 °C\. \| air well above 60 °C, or a lower --target$/,
    ],
    [
      'some air below the pull',
      { air: '150C,60C,55C', target: undefined as never, pull: '60C' },
      /^air: In air of 55 °C or 60 °C the core never/,
    ],
    [
      'air that is hotter than known',
      { air: '700F' },
      /^air: `700F`: the heat model knows air of 122 °F to 662 °F\. \| for fiercer iron: --sear$/,
    ],
    [
      'too many airs',
      { air: Array.from({ length: 13 }, (_, k) => `${150 + k}C`).join() },
      /^air: 13 temperatures are more/,
    ],
    ['an air among others', { air: '150C,hot' }, /^air: `hot` is not a temperature/],
    ['two goals', { pull: '55C' }, /^target: Either it rests up to a target, or/],
    ['a core that boils', { target: '110C' }, /^target: At a core of `110C` its water would boil away/],
    ['a fan in a grill', { fan: true, grill: true }, /^fan: Fans are in ovens/],
    ['iron that is too hot', { sear: '5 min 900F' }, /^sear: .*iron of 212 °F to 752 °F/],
    ['a sear of hours', { sear: '3h 280C' }, /^sear: .*1 min to 2 h/],
    ['a rest of a day', { rest: '1d' }, /^rest: `1d` is longer than food rests/],
    [
      'a caution that is none',
      { accept: ['core-unsave'] },
      /^accept: There is no caution `core-unsave`\. \| core-unsafe$/,
    ],
  ])('of %s is told', (_, words, message) => {
    const given = Object.fromEntries(Object.entries({ ...LOIN, ...words }).filter(([, value]) => value !== undefined));
    const told = wrong(given);
    expect(told.length).toBeLessThanOrEqual(1);
    expect(told[0] ?? '').toMatch(message);
  });

  it('goes to stderr with the option, and nothing to stdout', async () => {
    const { code, stdout, stderr } = await ran(['estimate', '--food', 'porc', '--air', '165', '--target', '60C']);
    expect([code, stdout]).toEqual([2, '']);
    expect(stderr).toBe(
      [
        '--food: The heat model does not know the food `porc`.',
        'Perhaps: pork',
        '--air: `165` needs a unit.',
        'Perhaps: 165C or 165F',
        '2 mistakes in all.',
        '',
      ].join('\n'),
    );
  });
});
