/** `until` and `target` without minutes: what is left to the heat model, and what must be there for it. */
import { describe, expect, it } from 'vitest';
import { isSettled } from '../../src/problem/problem.js';
import { restAfter } from '../../src/problem/rests.js';
import { complaintsOf, optionsWith, optionWith } from './support/roots.js';
import { changed, messagesOf, problemOf, read, stepOf } from './support/small-supper.js';

const TABLE = '        minutes: { "150C": 95 min, "165C": 82 min, "180C": 73 min }\n';
const PIECE = ['keeps: 25 min', 'piece: { food: potato, shape: sphere, thickness: 6 cm }'] as const;
const UNTIL = '        until: { core: 58C }\n';

describe('a step that is done when the core is there', () => {
  it('has no minutes yet, but its heat, from which the problem is not settled', () => {
    const problem = problemOf(changed([TABLE, '']));
    expect(isSettled(problem)).toBe(false);
    const [roast] = stepOf(problem, 'Pork loin/roast').options;
    expect(roast).toMatchObject({ duration: { kind: 'asked' }, core: 58, atPeak: false, forecasts: null, ideal: 165 });
    expect([roast!.settings[0], roast!.settings.at(-1)]).toEqual([150, 180]);
    expect(isSettled(problemOf(changed()))).toBe(true);
  });

  it('may ask for the peak at rest instead, of the step or of one way', () => {
    const text = changed([UNTIL, '        target: 60C\n'], [TABLE, '']);
    const roast = stepOf(problemOf(text), 'Pork loin/roast');
    expect([roast.core, roast.options[0]!.core, roast.options[0]!.atPeak]).toEqual([60, 60, true]);
    const result = read(text);
    expect(result.ok && result.spots[roast.id]!.cores).toMatchObject([{ line: 49, column: 17 }]);
    const ways = 'on: [{ place: oven, mode: fan }, { place: grill, mode: roast, until: { core: 50C } }]';
    const [oven, grill] = optionsWith(
      `work: roast, target: 60C, minutes: { "150C": 90 min }, pan: skillet, heat: 150C, ${ways} }\n- { step: sit, work: rest, takes: 10 min`,
    );
    expect([oven!.core, oven!.atPeak, grill!.core, grill!.atPeak]).toEqual([60, true, 50, false]);
  });

  it('leaves the minutes on a burner to the heat model as well', () => {
    const fry = optionWith('work: fry, until: { core: 70C }, on: burner, heat: medium, pan: skillet', PIECE);
    expect(fry).toMatchObject({ duration: { kind: 'asked' }, settings: [], flame: 'medium', core: 70 });
  });

  it('needs a piece, a heat, and, for a target, a rest before the next heat', () => {
    const roast = 'work: roast, pan: half sheet, on: oven';
    expect(complaintsOf(`${roast}, heat: 150-180C, until: { core: 60C }`)).toEqual([
      'How long until the core is there follows from the `piece` of the dish, which is missing.',
    ]);
    expect(complaintsOf(`${roast}, until: { core: 60C }`, PIECE)).toEqual([
      'How hot may it be? No heat is written, so that it could be anything within 75-270 °C.',
    ]);
    const warm = '- { step: rest, work: warm, takes: 15 min, on: oven, heat: 80C, pan: roasting pan }';
    const messages = messagesOf(
      changed([UNTIL, '        target: 60C\n'], [TABLE, ''], ['- { step: rest, work: rest, takes: 15-35 min }', warm]),
    );
    expect(messages.map(({ line, column, say, hint }) => `${line}:${column} ${say} | ${hint}`)).toEqual([
      '49:17 A `target` is where the core shall rise at rest, but no rest follows before the next heat. | a step of `work: rest` after it, or `until: { core: ... }` to pull it there',
    ]);
  });
});

describe('the rest after a step', () => {
  it('is the first that follows, with no heat between', () => {
    const { steps } = problemOf(changed());
    const id = (key: string): number => stepOf(problemOf(changed()), key).id;
    expect(restAfter(steps, id('Pork loin/roast'))).toBe(id('Pork loin/rest'));
    expect(restAfter(steps, id('Pork loin/sear'))).toBeNull();
    expect(restAfter(steps, id('Roots/roast'))).toBeNull();
    const glazed = problemOf(
      changed([
        '      - { step: rest, work',
        '      - { step: glaze, work: finish, takes: 2 min }\n      - { step: rest, work',
      ]),
    );
    expect(restAfter(glazed.steps, stepOf(glazed, 'Pork loin/roast').id)).toBe(stepOf(glazed, 'Pork loin/rest').id);
  });
});
