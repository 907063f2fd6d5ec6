/** Which key does what on the cook's screen; the help is made from the same table. */
import type { Glyphs } from '../../../src/chart/glyphs.js';
import type { Pressed } from '../keys.js';
import type { Action, CookState } from './cook-state.js';

export interface CookPressed extends Pressed {
  readonly return?: boolean;
  readonly backspace?: boolean;
  readonly delete?: boolean;
}

/** Rows that a page key moves over. */
const PAGE = 8;

const LETTERS: Readonly<Record<string, Action>> = {
  ' ': { do: 'mark' },
  r: { do: 'write', line: 'reading ' },
  s: { do: 'write', line: 'serve ' },
  x: { do: 'write', line: 'lost ' },
  m: { do: 'write', line: 'text ' },
  ':': { do: 'write', line: '' },
  u: { do: 'undo' },
  y: { do: 'take' },
  n: { do: 'leave' },
  p: { do: 'plan' },
  o: { do: 'at once' },
  v: { do: 'open', pane: 'changes' },
  j: { do: 'open', pane: 'journal' },
  c: { do: 'open', pane: 'cautions' },
  '?': { do: 'open', pane: 'help' },
};

/** The action of a key, `quit`, or null. While a line is written, what is printed goes into it. */
export function cookActionFor(input: string, key: CookPressed, { line }: CookState): Action | 'quit' | null {
  if (key.escape) return { do: 'close' };
  if (line !== null) {
    if (key.return) return { do: 'enter' };
    if (key.backspace || key.delete) return { do: 'erase' };
    return key.ctrl || key.meta || !isPrinted(input) ? null : { do: 'char', char: input };
  }
  if (key.return) return { do: 'mark' };
  if (key.upArrow) return { do: 'move', by: -1 };
  if (key.downArrow) return { do: 'move', by: 1 };
  if (key.pageUp) return { do: 'move', by: -PAGE };
  if (key.pageDown) return { do: 'move', by: PAGE };
  if (key.tab) return { do: 'look' };
  if (key.ctrl || key.meta) return null;
  if (input === 'q') return 'quit';
  if (/^[0-9]$/.test(input)) return { do: 'digit', digit: Number(input) };
  return Object.hasOwn(LETTERS, input) ? LETTERS[input]! : null;
}

const isPrinted = (text: string): boolean => text !== '' && !/\p{Cc}/u.test(text);

/** Key and what it does, for the help. */
export function cookKeyTable(glyphs: Glyphs): readonly (readonly [string, string])[] {
  return [
    ['Space, Enter', 'tick off what the cursor is on: begun, done, or heeded'],
    ['3 Space', 'the same, three minutes ago'],
    [`${glyphs.up} ${glyphs.down}`, 'another line of the list'],
    ['r', 'a reading: reading 54C, or reading "Roast loin" 54C'],
    ['s', 'another serving time: serve 19:15'],
    ['x', 'something lost: lost "half sheet"'],
    ['m', 'a note: text the oven smokes'],
    [':', 'any entry, as after `hearthtable note`: gone Ines, guests all 8 instead of 6'],
    ['u', 'take the last entry back'],
    ['y n v', 'a new plan: take it, keep the old one, see what it changes'],
    ['o', 'take new plans at once, or be asked'],
    ['p', 'look for a new plan now'],
    ['j', 'the journal'],
    ['c', 'what could hurt somebody, and what to do about it'],
    ['Tab', 'lanes by place, by dish, by cook'],
    ['?', 'this help'],
    ['Esc', 'back; forget the minutes or the line'],
    ['q, Ctrl-C', 'leave; the same command goes on where it was'],
  ];
}
