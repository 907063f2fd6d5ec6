/** Which step follows which, after which gap. */
import { describe, expect, it } from 'vitest';
import { OIL, rootsWith } from './support/roots.js';
import { problemOf, stepOf } from './support/small-supper.js';

const FREE = { low: 0, high: Number.POSITIVE_INFINITY };

describe('after', () => {
  const stepsBefore = (steps: string, key: string) => {
    const problem = problemOf(rootsWith(steps));
    return stepOf(problem, `Roots/${key}`).after.map((link) => problem.steps[link.step]!.name);
  };
  const TWO = '- { step: a, work: finish, takes: 1 min }\n- { step: b, work: finish, takes: 1 min }';

  it('is the step above where it is absent, and nothing for the first', () => {
    expect(stepsBefore(`${TWO}\n${OIL}`, 'a')).toEqual([]);
    expect(stepsBefore(`${TWO}\n${OIL}`, 'b')).toEqual(['a']);
  });

  it('is what it says: one step, several, a step of another dish, or none', () => {
    const third = (word: string) => `${TWO}\n- { step: c, work: finish, takes: 1 min, after: ${word} }\n${OIL}`;
    expect(stepsBefore(third('a'), 'c')).toEqual(['a']);
    expect(stepsBefore(third('[a, b]'), 'c')).toEqual(['a', 'b']);
    expect(stepsBefore(third('{ step: a, gap: 0-5 min }'), 'c')).toEqual(['a']);
    expect(stepsBefore(third('[b, Herb oil/warm, Pork loin / rest]'), 'c')).toEqual(['b', 'warm', 'rest']);
    expect(stepsBefore(third('none'), 'c')).toEqual([]);
    expect(stepsBefore(third('[]'), 'c')).toEqual([]);
  });

  it('prefers a step of the same dish to one of another', () => {
    const problem = problemOf(
      rootsWith(
        `- { step: warm, work: finish, takes: 1 min }\n- { step: b, work: finish, takes: 1 min, after: warm }\n${OIL}`,
      ),
    );
    expect(stepOf(problem, 'Roots/b').after[0]!.step).toBe(stepOf(problem, 'Roots/warm').id);
  });
});

describe('the gap', () => {
  const gap = (before: string, step: string) => {
    const problem = problemOf(
      rootsWith(
        `- { step: a, takes: 10 min, on: none, hands: none, ${before} }\n- { step: b, takes: 5 min, on: none, hands: none, ${step} }\n${OIL}`,
      ),
    );
    return stepOf(problem, 'Roots/b').after[0]!.gap;
  };

  it.each([
    ['own keeps of the step before', 'work: prep, keeps: 4 h', 'work: finish', { low: 0, high: 240 }],
    ['own keeps before a rest', 'work: roast, keeps: 20 min', 'work: rest', { low: 0, high: 20 }],
    ['before a rest', 'work: roast', 'work: rest', { low: 0, high: 2 }],
    ['before a rest, after prep', 'work: prep', 'work: rest', { low: 0, high: 2 }],
    ['after a rest', 'work: rest', 'work: carve', { low: 0, high: 5 }],
    ['after prep', 'work: prep', 'work: roast', FREE],
    ['after chill', 'work: chill', 'work: roast', FREE],
    ['after finish', 'work: finish', 'work: plate', FREE],
    ['after carve', 'work: carve', 'work: plate', FREE],
    ['written', 'work: roast', 'work: finish, gap: 3-20 min', { low: 3, high: 20 }],
    ['written as one value', 'work: roast', 'work: finish, gap: 3 min', { low: 3, high: 3 }],
    ['written, longer than keeps', 'work: roast, keeps: 8 min', 'work: finish, gap: 3-20 min', { low: 3, high: 8 }],
    ['written, shorter than keeps', 'work: roast, keeps: 30 min', 'work: finish, gap: 3-20 min', { low: 3, high: 20 }],
  ])('%s', (_, before, step, expected) => {
    expect(gap(before, step)).toEqual(expected);
  });

  it.each(['sear', 'grill', 'roast', 'bake', 'braise', 'boil', 'simmer', 'fry', 'steam', 'warm'])(
    'is at most 5 min after %s',
    (work) => {
      expect(gap(`work: ${work}`, 'work: finish')).toEqual({ low: 0, high: 5 });
    },
  );

  it('is free across dishes, within the keeps of the step before; an entry may carry its own', () => {
    const links = (entry: string) => {
      const problem = problemOf(rootsWith(`- { step: a, work: finish, takes: 1 min, after: [${entry}] }\n${OIL}`));
      return stepOf(problem, 'Roots/a').after.map((link) => link.gap);
    };
    expect(links('Pork loin/sear')).toEqual([FREE]);
    expect(links('Pork loin/rest, Herb oil/strain')).toEqual([FREE, { low: 0, high: 360 }]);
    expect(links('{ step: Pork loin/sear, gap: 1-7 min }')).toEqual([{ low: 1, high: 7 }]);
    expect(links('{ step: Herb oil/strain, gap: 0-10 h }')).toEqual([{ low: 0, high: 360 }]);
  });

  it('of the step holds for every entry without its own', () => {
    const problem = problemOf(
      rootsWith(
        `- { step: a, work: finish, takes: 1 min }\n- { step: b, work: finish, takes: 1 min, gap: 0-9 min, after: [a, { step: Pork loin/sear, gap: 1 min }] }\n${OIL}`,
      ),
    );
    expect(stepOf(problem, 'Roots/b').after.map((link) => link.gap)).toEqual([
      { low: 0, high: 9 },
      { low: 1, high: 1 },
    ]);
  });
});

describe('empties and keeps', () => {
  it('stand on the step', () => {
    const problem = problemOf(
      rootsWith(
        `- { step: a, work: prep, takes: 5 min, pan: skillet, empties: yes, keeps: 2 h }\n- { step: b, work: prep, takes: 5 min, empties: true }\n- { step: c, work: prep, takes: 5 min, empties: no }\n${OIL}`,
      ),
    );
    expect(['a', 'b', 'c'].map((name) => stepOf(problem, `Roots/${name}`).empties)).toEqual([true, true, false]);
    expect(['a', 'b'].map((name) => stepOf(problem, `Roots/${name}`).keeps)).toEqual([120, null]);
  });
});
