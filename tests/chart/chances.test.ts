import { describe, expect, it } from 'vitest';
import { chanceInShort, chanceLines, chanceWords, ofHundred } from '../../src/chart/chances.js';
import { UNICODE } from '../../src/chart/glyphs.js';
import { type View, viewOf } from '../../src/chart/view.js';
import type { PlanDocument } from '../../src/plan/document.js';
import { lateSupper, orchardSupper, type Sample } from '../support/sample-plan.js';

const CHANCES: NonNullable<PlanDocument['chances']> = {
  draws: 10_000,
  within5: 0.8312,
  within10: 0.954,
  unspoilt: 0.7,
  threats: [
    { dish: 'Brined pork loin', step: 'roast', by: 0.12 },
    { dish: 'Herb oil', step: 'warm', by: 0.01 },
  ],
  waits: [{ dish: 'Brined pork loin', step: 'rest', share: 0.25 }],
};

const viewWith = ({ problem, plan }: Sample, chances?: PlanDocument['chances']): View =>
  viewOf(problem, { ...plan, ...(chances && { chances }) });

describe('the words of chances', () => {
  it('say how often all lands in time, what threatens it, and what waits too long', () => {
    expect(chanceWords(viewWith(orchardSupper(), CHANCES))).toEqual([
      'All lands within 5 min of 18:30 on 83 of 100 such days, within 10 min on 95 of 100.',
      'What threatens it most is Brined pork loin, roast: did it always take its likely time, it would be 95 of 100; then Herb oil, warm.',
      'Nothing waits longer than it may on 70 of 100; most often too long is the wait in or after Brined pork loin, rest.',
    ]);
  });

  it('name the asked time where the plan is late', () => {
    expect(chanceWords(viewWith(lateSupper(), CHANCES))[0]).toMatch(/^All lands within 5 min of 18:15 /);
  });

  it('are few where all is well, and none where nothing is unsure', () => {
    const sure = { ...CHANCES, within5: 1, within10: 1, unspoilt: 1, threats: [], waits: [] };
    expect(chanceWords(viewWith(orchardSupper(), sure))).toEqual([
      'All lands within 5 min of 18:30 on 100 of 100 such days.',
    ]);
    const none = viewWith(orchardSupper());
    expect([chanceWords(none), chanceInShort(none), chanceLines(none, 80, UNICODE)]).toEqual([[], '', []]);
  });

  it.each([
    [{ reached: true, cost: 0, cushions: [] }, ['90 of 100 were asked for: the plan has room enough as it is.']],
    [
      { reached: true, cost: 2.5, cushions: [{ dish: 'Herb oil', step: 'warm', minutes: 70, more: 9 }] },
      [
        '90 of 100 were asked for.',
        'Kept free: 1 h 10 min after Herb oil, warm (9 min more); that costs 2.5 points more than without (15).',
      ],
    ],
    [
      { reached: true, cost: 1, cushions: [] },
      ['90 of 100 were asked for: that costs 1 point more than without (16.5).'],
    ],
    [
      { reached: false, limit: 'late' as const, cost: 0, cushions: [] },
      ['90 of 100 were asked for; no plan was found that has more than this: it lands late as it is planned.'],
    ],
  ])('say what an asked chance came to (%#)', (sure, say) => {
    const { problem, plan } = orchardSupper();
    const view = viewOf(problem, { ...plan, chances: CHANCES, sure: { asked: 0.9, ...sure } });
    expect(chanceWords(view).slice(1, 1 + say.length)).toEqual(say);
  });

  it.each([
    [0, 'none of 100'],
    [0.0001, 'fewer than 1 of 100'],
    [0.5049, '50 of 100'],
    [0.9999, 'more than 99 of 100'],
    [1, '100 of 100'],
  ])('of %f are %s', (share, say) => expect(ofHundred(share)).toBe(say));
});
