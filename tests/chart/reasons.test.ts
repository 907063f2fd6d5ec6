import { describe, expect, it } from 'vitest';
import { type Reason, reasonsOf } from '../../src/chart/reasons.js';
import { viewOf } from '../../src/chart/view.js';
import { harbourDinner, orchardSupper } from '../support/sample-plan.js';

const supper = viewOf(orchardSupper().problem, orchardSupper().plan);
const dinner = viewOf(harbourDinner().problem, harbourDinner().plan);

function why(view: typeof supper, dish: string, name: string) {
  const step = view.steps.find((each) => each.row.dish === dish && each.name === name)!;
  const { waitsFor, waitsForIt } = reasonsOf(view, step.index);
  const told = (reasons: readonly Reason[]) => reasons.map((reason) => `${reason.tight ? '!' : ' '} ${reason.say}`);
  return { before: told(waitsFor), after: told(waitsForIt) };
}

describe('a step stands where it does', () => {
  it('because of its predecessor, the heat and the cook', () => {
    const { before, after } = why(supper, 'Brined pork loin', 'roast');
    expect(before).toContain('! right after the grill is at 165 °C, 15 min from 280 °C');
    expect(before).toContain('! 15 min after A sear (0–15 min)');
    expect(after[0]).toBe('! right before A rest (0–2 min)');
  });

  it('because the heat changes after it', () => {
    expect(why(supper, 'Brined pork loin', 'sear').after).toContain('! right before the grill changes to 165 °C');
  });

  it('because its course is served', () => {
    expect(why(supper, 'Brined pork loin', 'carve').after).toEqual(['! right before main is served']);
    expect(why(supper, 'Roast roots', 'dress').after).toEqual(['  4 min before main is served']);
  });

  it('because its dish is held', () => {
    expect(why(dinner, 'Potato rolls', 'bake').after).toContain('  2 min before E hold');
    expect(why(dinner, 'Potato rolls', 'hold').before).toContain('  2 min after E bake');
    expect(why(dinner, 'Potato rolls', 'hold').after).toContain('  2 min before first is served');
  });

  it('because another dish uses what it makes', () => {
    expect(why(supper, 'Roast roots', 'dress').before).toContain('  2 h 42 min after C strain (0–6 h)');
  });
});

it('tells each neighbour once and the tight ones first', () => {
  for (const view of [supper, dinner]) {
    for (const step of view.steps) {
      const { waitsFor, waitsForIt } = reasonsOf(view, step.index);
      for (const reasons of [waitsFor, waitsForIt]) {
        const steps = reasons.map((reason) => reason.step).filter((each) => each !== null);
        expect(new Set(steps).size).toBe(steps.length);
        const tight = reasons.map((reason) => reason.tight);
        expect(tight).toEqual([...tight].sort((a, b) => Number(b) - Number(a)));
      }
    }
  }
});
