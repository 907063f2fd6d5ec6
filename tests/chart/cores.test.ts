/** What is told of cores, from the rows of a plan. */
import { describe, expect, it } from 'vitest';
import { detailLines } from '../../cli/screens/step-detail.js';
import { coreWords, latestWords } from '../../src/chart/cores.js';
import { UNICODE } from '../../src/chart/glyphs.js';
import { type View, viewOf } from '../../src/chart/view.js';
import type { DishRow, StepRow } from '../../src/plan/document.js';
import { text } from '../support/frames.js';
import { orchardSupper } from '../support/sample-plan.js';

/** The supper with other claims about its loin. */
function viewWith(change: { row?: Partial<StepRow>; core?: Partial<NonNullable<DishRow['core']>> } = {}): View {
  const { problem, plan } = orchardSupper();
  const steps = plan.steps.map((row) => (row.pull === undefined ? row : { ...row, ...change.row }));
  const dishes = plan.dishes.map((row) => (row.core ? { ...row, core: { ...row.core, ...change.core } } : row));
  return viewOf(problem, { ...plan, steps, dishes });
}

const roastOf = (view: View) =>
  view.steps.find((step) => step.row.window !== undefined || step.row.pull !== undefined)!;
const words = (view: View): string => coreWords(view, roastOf(view));

describe('a core', () => {
  it('is told with where it is pulled, when, how far it rises, and where it is when it is cut', () => {
    expect(words(viewWith())).toBe('pull at 58 °C, between 17:53 and 18:14; rises to 61 °C by 18:21, 61 °C when cut');
    expect(words(viewWith({ core: { peak: 58.3, atServe: 54 } }))).toBe(
      'pull at 58 °C, between 17:53 and 18:14, 54 °C when cut',
    );
    expect(words(viewWith({ core: { atServe: null } }))).toBe(
      'pull at 58 °C, between 17:53 and 18:14; rises to 61 °C by 18:21',
    );
  });

  it('is told without what the plan does not know', () => {
    const view = viewWith({ core: { pull: 50 } });
    const { window: _, ...row } = roastOf(view).row;
    const plain = { ...roastOf(view), row };
    expect([coreWords(view, plain), latestWords(view, plain)]).toEqual(['pull at 58 °C', '']);
    const rest = view.steps.find((step) => step.name === 'rest')!;
    expect([coreWords(view, rest), latestWords(view, rest)]).toEqual(['', '']);
  });

  it('says what a late one means', () => {
    const view = viewWith();
    expect(latestWords(view, roastOf(view))).toBe(
      'at 18:14 it would land 4 min late: there is not enough rest to shorten',
    );
    const easy = viewWith({ row: { window: { ...roastOf(view).row.window!, late: 0 } } });
    expect(latestWords(easy, roastOf(easy))).toBe('even at 18:14 it lands in time, with less rest or waiting');
  });

  it('stands beside its step on the screen', () => {
    const view = viewWith();
    const shown = text(detailLines(view, roastOf(view).index, 100, 12, UNICODE));
    expect(shown).toMatch(/ core +pull at 58 °C, between 17:53 and 18:14; rises to 61 °C by 18:21/);
    expect(shown).toContain('4 min late');
  });
});
