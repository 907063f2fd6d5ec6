/** What the cook's screen shows and how keys change it, and what they ask to be done: pure, so that every move can be tested without a terminal. */
import { LOOKS, type Look } from '../../../src/chart/lanes.js';

export type Pane = 'day' | 'journal' | 'help' | 'changes' | 'cautions';

export interface CookState {
  readonly pane: Pane;
  readonly look: Look;
  /** Key of the item that the cursor is on; null: the next call. */
  readonly cursor: string | null;
  /** How long ago what is ticked off happened, in minutes; null: now. */
  readonly ago: number | null;
  /** A line that is being written; null where none is. */
  readonly line: string | null;
  /** What was last done or refused. */
  readonly said: Said | null;
  readonly scroll: number;
}

export interface Said {
  readonly text: string;
  readonly bad: boolean;
}

export type Action =
  | { readonly do: 'move'; readonly by: number }
  | { readonly do: 'digit'; readonly digit: number }
  | { readonly do: 'mark' | 'undo' | 'look' | 'close' | 'take' | 'leave' | 'plan' | 'at once' }
  | { readonly do: 'open'; readonly pane: Pane }
  | { readonly do: 'write'; readonly line: string }
  | { readonly do: 'char'; readonly char: string }
  | { readonly do: 'erase' | 'enter' }
  | { readonly do: 'said'; readonly said: Said | null };

/** What is to be done outside: ticking an item off, an entry in words, an undo, taking or refusing a new plan. */
export type Wish =
  | { readonly wish: 'mark'; readonly key: string | null; readonly ago: number }
  | { readonly wish: 'words'; readonly words: string; readonly ago: number }
  | { readonly wish: 'undo' | 'take' | 'leave' | 'plan' | 'at once' };

export interface Moved {
  readonly state: CookState;
  readonly wish: Wish | null;
}

/** Longest time ago that two digits say, and longest line. */
const LONGEST_AGO = 600;
const LONGEST_LINE = 300;

export const firstState: CookState = {
  pane: 'day',
  look: 'place',
  cursor: null,
  ago: null,
  line: null,
  said: null,
  scroll: 0,
};

/** `keys`: those of the items that are shown, from top to bottom; `at`: which of them the cursor is on. */
export function moved(state: CookState, action: Action, keys: readonly string[], at: number): Moved {
  const to = (next: Partial<CookState>, wish: Wish | null = null): Moved => ({ state: { ...state, ...next }, wish });
  switch (action.do) {
    case 'move':
      if (state.pane !== 'day') return to({ scroll: Math.max(0, state.scroll + action.by) });
      return to({ cursor: keys[Math.max(0, Math.min(keys.length - 1, at + action.by))] ?? null, said: null });
    case 'digit': {
      const ago = (state.ago ?? 0) * 10 + action.digit;
      return to({ ago: ago > LONGEST_AGO ? action.digit : ago, said: null });
    }
    case 'mark':
      return to({ ago: null, cursor: null }, { wish: 'mark', key: keys[at] ?? null, ago: state.ago ?? 0 });
    case 'undo':
    case 'take':
    case 'leave':
    case 'plan':
    case 'at once':
      return to({ pane: state.pane === 'changes' ? 'day' : state.pane }, { wish: action.do });
    case 'look':
      return to({ look: LOOKS[(LOOKS.indexOf(state.look) + 1) % LOOKS.length]! });
    case 'open':
      return to({ pane: state.pane === action.pane ? 'day' : action.pane, scroll: 0 });
    case 'close':
      if (state.line !== null) return to({ line: null });
      if (state.pane !== 'day') return to({ pane: 'day', scroll: 0 });
      return to({ ago: null, said: null, cursor: null });
    case 'write':
      return to({ line: action.line, pane: 'day', said: null });
    case 'char':
      return to({ line: ((state.line ?? '') + action.char).slice(0, LONGEST_LINE) });
    case 'erase':
      return to({ line: [...(state.line ?? '')].slice(0, -1).join('') });
    case 'enter': {
      const words = state.line?.trim() ?? '';
      return to({ line: null, ago: null }, words === '' ? null : { wish: 'words', words, ago: state.ago ?? 0 });
    }
    case 'said':
      return to({ said: action.said });
  }
}
