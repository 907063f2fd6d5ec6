/** Every way to do a step: entries, places, loads, and what cannot be done. */
import { describe, expect, it } from 'vitest';
import type { Work } from '../../src/problem/problem.js';
import { complaintsOf, OIL, optionsWith, optionWith, rootsWith } from './support/roots.js';
import { messagesOf, optionsOf } from './support/small-supper.js';

describe('an entry of `on`', () => {
  it('replaces what the step says, each word by itself', () => {
    const [first, second, third] = optionsWith(
      `work: roast, takes: 30 min, pan: half sheet, pans: 2, heat: 150C, hands: none, mode: roast, on: [
        { place: oven },
        { place: oven, mode: fan, heat: 140-150C, pan: skillet, pans: 1, takes: 20-40 min, best: 25 min, hands: all },
        { place: oven, pan: none, heat: { range: 100-120C, ideal: 105C }, until: { core: 50C }, minutes: { "100C": 60 min, "120C": 50 min } } ]`,
      ['keeps: 25 min', 'piece: { food: roots, shape: brick, thickness: 5 cm, width: 20 cm, length: 30 cm }'],
    );
    expect(first).toMatchObject({
      entry: 0,
      place: { mode: 0 },
      duration: { kind: 'fixed', minutes: 30 },
      settings: [150],
      ideal: 150,
      pan: 2,
      pans: 2,
      hands: { all: false },
    });
    expect(second).toMatchObject({
      entry: 1,
      place: { mode: 1 },
      duration: { kind: 'range', low: 20, high: 40, best: { low: 25 } },
      settings: [140, 145, 150],
      ideal: 145,
      pan: 1,
      pans: 1,
      hands: { all: true },
    });
    expect(third).toMatchObject({
      entry: 2,
      duration: { kind: 'table' },
      settings: [100, 105, 110, 115, 120],
      ideal: 105,
      pan: null,
      pans: 1,
      load: { footprint: { width: 0.3, depth: 0.2 }, height: 0.05 },
    });
  });

  it('may be one word, one map, or a list of both', () => {
    const places = (on: string) =>
      optionsWith(`work: roast, takes: 30 min, pan: skillet, on: ${on}`).map((option) => [
        option.entry,
        option.place.kind,
      ]);
    expect(places('oven')).toEqual([[0, 'heated']]);
    expect(places('{ place: oven }')).toEqual([[0, 'heated']]);
    expect(places('[burner, { place: oven }]')).toEqual([
      [0, 'burner'],
      [1, 'heated'],
    ]);
    expect(places('none')).toEqual([[0, 'none']]);
    expect(places('[none]')).toEqual([[0, 'none']]);
  });

  it('is absent: a board for prep and carve, no place for the rest', () => {
    const kinds = (work: Work) => optionsWith(`work: ${work}, takes: 5 min`).map((option) => option.place.kind);
    expect(kinds('prep')).toEqual(['board']);
    expect(kinds('carve')).toEqual(['board']);
    for (const work of ['rest', 'chill', 'finish', 'plate', 'simmer', 'roast'] as const)
      expect(kinds(work)).toEqual(['none']);
  });
});

describe('place', () => {
  const TWO_OVENS = [
    '    - appliance: range\n',
    '    - appliance: small oven\n      kind: oven\n      racks: { count: 1, size: 30 x 30 cm, height: 20 cm }\n      modes: { bake: { heat: 100-200C } }\n      heats: 9C/min\n      cools: 3C/min\n    - appliance: range\n',
  ] as const;
  const meant = (word: string, pan: string, ...changes: readonly (readonly [string, string])[]) =>
    optionsWith(`work: bake, takes: 30 min, pan: ${pan}, on: ${word}`, ...changes).map((option) => option.place);

  it("is an appliance's own name", () => {
    expect(meant('wall oven', 'skillet', TWO_OVENS)).toEqual([{ kind: 'heated', appliance: 1, mode: 0 }]);
    expect(meant('range', 'skillet')).toEqual([{ kind: 'burner', appliance: 2, burners: [0] }]);
  });

  it('is a kind: any appliance of that kind, each in the mode named like the work, else its first', () => {
    expect(meant('oven', 'skillet', TWO_OVENS)).toEqual([
      { kind: 'heated', appliance: 1, mode: 0 },
      { kind: 'heated', appliance: 2, mode: 0 },
    ]);
    expect(meant('cooktop', 'skillet')).toEqual([{ kind: 'burner', appliance: 2, burners: [0] }]);
  });

  it('is a kind: only those of it on which the pan fits', () => {
    expect(meant('oven', 'half sheet', TWO_OVENS)).toEqual([{ kind: 'heated', appliance: 1, mode: 0 }]);
  });

  it("is an appliance's name before it is a kind", () => {
    expect(meant('oven', 'skillet', ['appliance: wall oven', 'appliance: oven'], TWO_OVENS)).toEqual([
      { kind: 'heated', appliance: 1, mode: 0 },
    ]);
  });

  it('is burner, board, or the name of a burner', () => {
    expect(meant('burner', 'skillet')).toEqual([{ kind: 'burner', appliance: 2, burners: [0] }]);
    expect(meant('board', 'skillet')).toEqual([{ kind: 'board' }]);
    expect(meant('front', 'skillet')).toEqual([{ kind: 'burner', appliance: 2, burners: [0] }]);
    expect(meant('burner', 'skillet', ['burner: back, size: 15 cm', 'burner: back, size: 21 cm'])).toEqual([
      { kind: 'burner', appliance: 2, burners: [0, 1] },
    ]);
    expect(meant('back', 'skillet', ['burner: back, size: 15 cm', 'burner: back, size: 21 cm'])).toEqual([
      { kind: 'burner', appliance: 2, burners: [1] },
    ]);
  });

  it('of a kind that the kitchen lacks is passed over where another remains, pan and all', () => {
    const text = rootsWith(
      `- { step: do, work: roast, takes: 30 min, pan: skillet, on: [{ place: warming drawer, pan: drawer tray }, oven] }\n- { step: oil, work: finish, takes: 1 min, after: [do, Herb oil/strain] }`,
    );
    expect(optionsOf(text, 'Roots/do').map((option) => [option.entry, option.place.kind])).toEqual([[1, 'heated']]);
    expect(messagesOf(text)).toEqual([]);
  });

  it('of a kind that the kitchen lacks is an error where it stands alone', () => {
    expect(complaintsOf('work: warm, takes: 30 min, pan: skillet, on: warming drawer')).toEqual([
      'This kitchen has no warming drawer, and the step names no other place.',
    ]);
  });
});

describe('a load', () => {
  const ofPiece = (piece: string) => ['keeps: 25 min', `piece: { food: roots, ${piece} }`] as const;
  const load = (piece: string, pan = '') =>
    optionWith(`work: roast, takes: 30 min, on: oven${pan}`, ofPiece(piece)).load;

  it('is as high as the taller of pan and piece', () => {
    expect(load('shape: sphere, thickness: 12 cm', ', pan: skillet')).toEqual({
      footprint: { kind: 'round', diameter: 0.26 },
      height: 0.12,
    });
    expect(load('shape: sphere, thickness: 3 cm', ', pan: skillet')).toMatchObject({ height: 0.05 });
  });

  it('without a pan stands on the footprint of the piece', () => {
    expect(load('shape: cylinder, thickness: 10 cm, length: 34 cm')).toEqual({
      footprint: { kind: 'rectangle', width: 0.34, depth: 0.1 },
      height: 0.1,
    });
    expect(load('shape: slab, thickness: 4 cm, length: 30 cm, width: 20 cm')).toEqual({
      footprint: { kind: 'rectangle', width: 0.3, depth: 0.2 },
      height: 0.04,
    });
    expect(load('shape: sphere, thickness: 12 cm')).toEqual({
      footprint: { kind: 'round', diameter: 0.12 },
      height: 0.12,
    });
  });

  it('without either is an error', () => {
    expect(complaintsOf('work: roast, takes: 30 min, on: oven')).toEqual([
      'What stands here? The step names no pan, and the dish has no `piece`.',
    ]);
    expect(complaintsOf('work: roast, takes: 30 min, on: oven', ofPiece('shape: slab, thickness: 4 cm'))).toEqual([
      'No pan is named, and the piece does not say its size.',
    ]);
  });

  it('is not there on a board or without a place, where a pan may be in use all the same', () => {
    expect(optionWith('work: prep, takes: 5 min, pan: skillet')).toMatchObject({ pan: 1, pans: 1, load: null });
  });
});

describe('an entry that cannot be done', () => {
  const two = (entry: string) => `work: roast, takes: 30 min, pan: skillet, on: [{ place: oven }, ${entry}]`;

  it.each([
    [
      '{ place: oven, heat: 300-320C }',
      '`wall oven` in mode `roast` has 75-270 °C, but the step wants 300-320 °C. The other ways remain.',
    ],
    [
      '{ place: grill, mode: roast, pan: half sheet }',
      'The pan `half sheet` (33 x 46 cm) fits nowhere in `garden grill` in mode `roast`. The other ways remain.',
    ],
    [
      '{ place: burner, pan: half sheet }',
      'No burner meant here carries the pan `half sheet`, whose narrower side is 33 cm. The other ways remain.',
    ],
    [
      '{ place: burner, takes: { "160C": 30 min } }',
      'A burner has no temperature, so that one duration is needed for it. The other ways remain.',
    ],
    ['{ place: oven, mode: steam }', '`steam` is no mode of oven. The other ways remain.'],
    [
      '{ place: back }',
      'No burner meant here carries the pan `skillet`, whose narrower side is 26 cm. The other ways remain.',
    ],
    [
      '{ place: oven, pan: half sheet, pans: 3 }',
      'The step fills 3 of `half sheet`, but the kitchen has 2. The other ways remain.',
    ],
    [
      '{ place: oven, hands: { start: 2 min, cooks: 3 } }',
      'The step asks for 3 cooks at once, but only 2 can do it. The other ways remain.',
    ],
  ])('is a warning where another can: %s', (entry, say) => {
    const text = rootsWith(
      `- { step: do, ${two(entry)} }\n- { step: oil, work: finish, takes: 1 min, after: [do, Herb oil/strain] }`,
    );
    expect(messagesOf(text)).toMatchObject([{ severity: 'warning', say }]);
    expect(optionsOf(text, 'Roots/do').map((option) => option.entry)).toEqual([0]);
  });

  it('is an error where none can', () => {
    const step = 'work: roast, takes: 30 min, pan: half sheet, on: [{ place: oven, heat: 300C }, { place: burner }]';
    expect(complaintsOf(step)).toEqual([
      'No burner meant here carries the pan `half sheet`, whose narrower side is 33 cm.',
      '`wall oven` in mode `roast` has 75-270 °C, but the step wants 300 °C.',
    ]);
  });

  it('asks for a cook who can', () => {
    const lonely = (step: string) =>
      messagesOf(
        rootsWith(`- { step: do, ${step} }\n${OIL}`, ['cooks: [Ines, { name: Tomas', 'cooks: [{ name: Tomas']),
      ).filter((message) => message.line === 66 && message.severity === 'error');
    expect(lonely('work: fry, takes: 30 min, pan: skillet, on: burner')).toMatchObject([
      { column: 17, say: 'The step asks for a cook, but no cook can do it.', hint: 'can: [fry]' },
    ]);
    expect(lonely('work: fry, takes: 30 min, pan: skillet, on: burner, hands: none')).toEqual([]);
    expect(lonely('work: roast, takes: 30 min, pan: skillet, on: oven')).toEqual([]);
    expect(lonely('work: fry, takes: 30 min, pan: skillet, on: board')).toEqual([]);
  });
});
