import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { actionFor, keyTable } from '../../cli/screens/keys.js';
import { planFrame } from '../../cli/screens/plan-frame.js';
import { type Action, firstState, type PlanState, reduce } from '../../cli/screens/plan-state.js';
import { ASCII, UNICODE } from '../../src/chart/glyphs.js';
import { textOf } from '../../src/chart/line.js';
import { viewOf } from '../../src/chart/view.js';
import { text, widest } from '../support/frames.js';
import { harbourDinner, lateSupper, orchardSupper } from '../support/sample-plan.js';

const supper = viewOf(orchardSupper().problem, orchardSupper().plan);
const dinner = viewOf(harbourDinner().problem, harbourDinner().plan);
const late = viewOf(lateSupper().problem, lateSupper().plan);
const unsure = viewOf(orchardSupper().problem, {
  ...orchardSupper().plan,
  chances: { draws: 10_000, within5: 0.83, within10: 0.95, unspoilt: 0.7, threats: [], waits: [] },
});
const moved = (view: typeof supper, ...actions: Action[]): PlanState =>
  actions.reduce((state, action) => reduce(view, state, action), firstState(view));
const size = (columns: number, rows: number) => ({ columns, rows });

describe('the screen, as seen', () => {
  const roast: Action[] = Array.from({ length: 4 }, () => ({ do: 'step', by: 1 }));
  for (const [columns, rows] of [
    [80, 24],
    [120, 40],
    [200, 50],
  ] as const) {
    it(`at ${columns}x${rows}`, async () => {
      const frame = planFrame(supper, moved(supper, ...roast), size(columns, rows), UNICODE);
      await expect(text(frame)).toMatchFileSnapshot(`golden/supper-${columns}x${rows}.txt`);
    });
  }

  it('by dish, in 7-bit characters', async () => {
    const state = moved(supper, { do: 'look', look: 'dish' }, ...roast);
    await expect(text(planFrame(supper, state, size(80, 24), ASCII))).toMatchFileSnapshot(
      'golden/dishes-80x24-ascii.txt',
    );
  });

  it('whole, over two days', async () => {
    const state = moved(dinner, { do: 'whole' });
    await expect(text(planFrame(dinner, state, size(100, 30), UNICODE))).toMatchFileSnapshot(
      'golden/dinner-100x30.txt',
    );
  });

  it('with the list of calls, and the help', async () => {
    const calls = moved(supper, { do: 'calls' }, { do: 'lane', by: 8 });
    await expect(text(planFrame(supper, calls, size(80, 24), UNICODE))).toMatchFileSnapshot('golden/calls-80x24.txt');
    const help = moved(supper, { do: 'help' });
    await expect(text(planFrame(supper, help, size(80, 34), UNICODE))).toMatchFileSnapshot('golden/help-80x34.txt');
  });
});

describe('the chances of a plan', () => {
  const say = 'lands within 5 min on 83 of 100 days';
  const shown = (state: PlanState, columns: number, rows: number) =>
    text(planFrame(unsure, state, size(columns, rows), UNICODE));

  it('stand under the title where there is room, and whole with the calls', () => {
    expect(shown(moved(unsure), 80, 30).split('\n')[2]).toBe(` ${say}`);
    expect(shown(moved(unsure), 80, 24)).not.toContain(say);
    expect(shown(moved(unsure, { do: 'calls' }, { do: 'edge', end: 'last' }), 100, 24)).toContain(
      'All lands within 5 min of 18:30 on 83 of 100 such days, within 10 min on 95 of 100.',
    );
  });
});

const actions: fc.Arbitrary<Action> = fc.oneof(
  fc.record({ do: fc.constant('step' as const), by: fc.constantFrom(1 as const, -1 as const) }),
  fc.record({ do: fc.constant('lane' as const), by: fc.constantFrom(-8, -1, 1, 8) }),
  fc.record({ do: fc.constant('edge' as const), end: fc.constantFrom('first' as const, 'last' as const) }),
  fc.record({ do: fc.constant('dish' as const), letter: fc.constantFrom('A', 'B', 'C', 'Z') }),
  fc.record({
    do: fc.constant('look' as const),
    look: fc.constantFrom('place', 'dish', 'cook', 'next'),
  }) as fc.Arbitrary<Action>,
  fc.record({ do: fc.constant('zoom' as const), by: fc.constantFrom(1 as const, -1 as const) }),
  fc.record({ do: fc.constant('shift' as const), by: fc.constantFrom(1 as const, -1 as const) }),
  fc.record({ do: fc.constantFrom('fit', 'whole', 'calls', 'help', 'close') }) as fc.Arbitrary<Action>,
);

it('always fills the window exactly, whatever is done in whatever window', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(supper, dinner, late, unsure),
      fc.array(actions, { maxLength: 25 }),
      fc.integer({ min: 20, max: 230 }),
      fc.integer({ min: 5, max: 70 }),
      fc.constantFrom(UNICODE, ASCII),
      (view, moves, columns, rows, glyphs) => {
        const state = moved(view, ...moves);
        const frame = planFrame(view, state, size(columns, rows), glyphs);
        expect(frame).toHaveLength(rows);
        expect(widest(frame)).toBeLessThanOrEqual(columns);
        const chart = columns >= 60 && rows >= 16 && state.pane === 'chart' && state.look !== 'cook';
        // A step under the cursor has a pointer on its lane and its name in the detail.
        if (chart)
          expect(frame.some((line) => line[0]?.text === glyphs.pointer || line[1]?.text === glyphs.pointer)).toBe(true);
      },
    ),
    { seed: 31, numRuns: 250 },
  );
});

describe('moving', () => {
  const at = (state: PlanState) => {
    const step = supper.steps[state.cursor!]!;
    return `${supper.dishes[step.dish]!.letter} ${step.name}`;
  };

  it('begins with the first step of the busy hours', () => expect(at(firstState(supper))).toBe('C warm'));

  it('goes through the steps by the clock and stops at the ends', () => {
    const next: Action = { do: 'step', by: 1 };
    expect(at(moved(supper, next))).toBe('C strain');
    expect(at(moved(supper, { do: 'edge', end: 'last' }, next))).toBe('A carve');
    expect(at(moved(supper, { do: 'edge', end: 'first' }, { do: 'step', by: -1 }))).toBe('A brine');
  });

  it('brings a step into the window that lies outside of it', () => {
    const state = moved(supper, { do: 'edge', end: 'first' });
    expect(state.window).not.toBe('whole');
    if (state.window === 'whole') return;
    expect(state.window.from).toBeLessThan(70);
    expect(state.window.to - state.window.from).toBeCloseTo(198, 6);
  });

  it('goes to the lane below, to the step nearest in time, over lanes without steps', () => {
    const state = moved(supper, { do: 'dish', letter: 'A' });
    expect(at(state)).toBe('A brine');
    const roast = moved(supper, ...Array.from({ length: 5 }, (): Action => ({ do: 'dish', letter: 'A' })));
    expect(at(roast)).toBe('A rest');
    expect(at(reduce(supper, roast, { do: 'lane', by: -1 }))).toBe('A dry');
    expect(at(reduce(supper, roast, { do: 'lane', by: -100 }))).toBe('A roast');
  });

  it('goes through one dish by its letter, and around', () => {
    const moves = (count: number) => Array.from({ length: count }, (): Action => ({ do: 'dish', letter: 'B' }));
    expect([1, 2, 3, 4].map((count) => at(moved(supper, ...moves(count))))).toEqual([
      'B cut',
      'B roast',
      'B dress',
      'B cut',
    ]);
  });

  it('keeps the step when the look changes', () => {
    const state = moved(supper, { do: 'dish', letter: 'B' }, { do: 'look', look: 'next' });
    expect([at(state), state.look]).toEqual(['B cut', 'dish']);
  });

  it('comes closer around the cursor and never beyond the plan', () => {
    const closer = moved(supper, { do: 'dish', letter: 'B' }, { do: 'zoom', by: 1 });
    if (closer.window === 'whole') throw new Error('a window was wanted');
    expect(closer.window.to - closer.window.from).toBeCloseTo(132, 6);
    expect(closer.window.from).toBeLessThanOrEqual(290);
    const far = Array.from({ length: 30 }, (): Action => ({ do: 'shift', by: 1 }));
    const shifted = moved(supper, ...far);
    if (shifted.window === 'whole') throw new Error('a window was wanted');
    expect(shifted.window.to).toBeLessThanOrEqual(455 + 1e-9);
  });
});

describe('keys', () => {
  it('do what the help says', () => {
    const told = keyTable(UNICODE).map(([key]) => key);
    for (const letter of ['p', 'd', 'c', '+', '-', '[', ']', 'f', 'w', 'l', '?', 'q']) {
      expect(actionFor(letter, {})).not.toBeNull();
      expect(told.some((key) => key.split(/[ ,]+/).includes(letter))).toBe(true);
    }
  });

  it('leave other keys alone', () => {
    expect(actionFor('x', {})).toBeNull();
    expect(actionFor('p', { ctrl: true })).toBeNull();
    expect(actionFor('toString', {})).toBeNull();
  });
});

it('tells why the step is where it is', () => {
  const frame = planFrame(
    supper,
    moved(supper, { do: 'dish', letter: 'B' }, { do: 'dish', letter: 'B' }),
    size(180, 40),
    UNICODE,
  );
  const shown = frame.map(textOf).join('\n');
  expect(shown).toContain('B roast · Roast roots');
  expect(shown).toContain('17:38–18:23, 45 min');
  expect(shown).toContain('grill, left + middle, 165 °C, roast, lid closed');
  expect(shown).toContain('half sheet, 22 cm from the left, 0 cm from the front');
  expect(shown).toContain('Tomas 17:38–17:40, 17:53–17:55, 18:08–18:10');
  expect(shown).toContain('● right before B dress (0–5 min)');
});
