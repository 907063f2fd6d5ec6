/** Which key does what on the plan's screen; the help is made from the same table. */
import type { Glyphs } from '../../src/chart/glyphs.js';
import type { Action } from './plan-state.js';

/** The parts of a pressed key that matter here. */
export interface Pressed {
  readonly upArrow?: boolean;
  readonly downArrow?: boolean;
  readonly leftArrow?: boolean;
  readonly rightArrow?: boolean;
  readonly pageUp?: boolean;
  readonly pageDown?: boolean;
  readonly home?: boolean;
  readonly end?: boolean;
  readonly tab?: boolean;
  readonly escape?: boolean;
  readonly ctrl?: boolean;
  readonly meta?: boolean;
}

/** Lanes that a page key moves over. */
const PAGE = 8;

const LETTERS: Readonly<Record<string, Action>> = {
  p: { do: 'look', look: 'place' },
  d: { do: 'look', look: 'dish' },
  c: { do: 'look', look: 'cook' },
  '+': { do: 'zoom', by: 1 },
  '=': { do: 'zoom', by: 1 },
  '-': { do: 'zoom', by: -1 },
  '[': { do: 'shift', by: -1 },
  ']': { do: 'shift', by: 1 },
  f: { do: 'fit' },
  w: { do: 'whole' },
  l: { do: 'calls' },
  '?': { do: 'help' },
};

/** The action of a key, `quit`, or null. Several characters that came at once are given one by one. */
export function actionFor(input: string, key: Pressed): Action | 'quit' | null {
  if (key.leftArrow) return { do: 'step', by: -1 };
  if (key.rightArrow) return { do: 'step', by: 1 };
  if (key.upArrow) return { do: 'lane', by: -1 };
  if (key.downArrow) return { do: 'lane', by: 1 };
  if (key.pageUp) return { do: 'lane', by: -PAGE };
  if (key.pageDown) return { do: 'lane', by: PAGE };
  if (key.home) return { do: 'edge', end: 'first' };
  if (key.end) return { do: 'edge', end: 'last' };
  if (key.tab) return { do: 'look', look: 'next' };
  if (key.escape) return { do: 'close' };
  if (key.ctrl || key.meta) return null;
  if (input === 'q') return 'quit';
  if (/^[A-Z]$/.test(input)) return { do: 'dish', letter: input };
  return Object.hasOwn(LETTERS, input) ? LETTERS[input]! : null;
}

/** Key and what it does, for the help. */
export function keyTable(glyphs: Glyphs): readonly (readonly [string, string])[] {
  return [
    [`${glyphs.left} ${glyphs.right}`, 'the step before, the next step by the clock'],
    [`${glyphs.up} ${glyphs.down}`, 'the lane above, the lane below'],
    ['Page Up, Page Down', 'eight lanes at once'],
    ['Home, End', 'the first step, the last step'],
    ['A to Z', "the next step of that letter's dish"],
    ['p d c', 'lanes by place, by dish, by cook'],
    ['Tab', 'the next way to look'],
    ['+ -', 'closer, wider'],
    ['[ ]', 'earlier, later'],
    ['f', 'the busy hours'],
    ['w', 'the whole plan, empty hours folded'],
    ['l', 'the list of calls'],
    ['?', 'this help'],
    ['Esc', 'back to the chart'],
    ['q, Ctrl-C', 'leave'],
  ];
}
