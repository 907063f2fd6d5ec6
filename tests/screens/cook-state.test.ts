import { describe, expect, it } from 'vitest';
import { type CookPressed, cookActionFor } from '../../cli/screens/cook/cook-keys.js';
import { type CookState, firstState, moved, type Wish } from '../../cli/screens/cook/cook-state.js';
import { wordsOf } from '../../cli/screens/cook/fulfil.js';

const KEYS = ['step 1', 'call a', 'call b', 'call c'];

/** Keys one after the other, the cursor on an item at first; what comes of them. */
function pressed(keys: readonly (string | CookPressed)[], at = 1): { state: CookState; wishes: Wish[] } {
  let state = firstState;
  const wishes: Wish[] = [];
  for (const key of keys) {
    const action = typeof key === 'string' ? cookActionFor(key, {}, state) : cookActionFor('', key, state);
    if (action === null || action === 'quit') continue;
    const here = state.cursor === null ? at : KEYS.indexOf(state.cursor);
    const next = moved(state, action, KEYS, here);
    state = next.state;
    if (next.wish) wishes.push(next.wish);
  }
  return { state, wishes };
}

describe('the cook’s screen, moved by keys', () => {
  it('ticks off what the cursor is on, now or some minutes ago', () => {
    expect(pressed([' ']).wishes).toEqual([{ wish: 'mark', key: 'call a', ago: 0 }]);
    expect(pressed(['3', ' ']).wishes).toEqual([{ wish: 'mark', key: 'call a', ago: 3 }]);
    expect(pressed(['1', '2', { return: true }]).wishes).toEqual([{ wish: 'mark', key: 'call a', ago: 12 }]);
    expect(pressed([{ downArrow: true }, ' ']).wishes).toEqual([{ wish: 'mark', key: 'call b', ago: 0 }]);
    expect(pressed([{ upArrow: true }, { upArrow: true }, ' ']).wishes).toEqual([
      { wish: 'mark', key: 'step 1', ago: 0 },
    ]);
    expect(pressed([{ pageDown: true }]).state.cursor).toBe('call c');
  });

  it('forgets the minutes on Esc and after they were used, and does not count beyond a day’s work', () => {
    expect(pressed(['3', { escape: true }, ' ']).wishes).toEqual([{ wish: 'mark', key: 'call a', ago: 0 }]);
    expect(pressed(['3', ' ', ' ']).wishes.map((wish) => 'ago' in wish && wish.ago)).toEqual([3, 0]);
    expect(pressed(['9', '9', '9']).state.ago).toBe(9);
  });

  it('takes what is typed into a line, in which letters and digits are no keys', () => {
    const line = ['r', '5', '4', 'q', { backspace: true }, 'C', ' '];
    expect(pressed(line).state.line).toBe('reading 54C ');
    expect(pressed([...line, { return: true }]).wishes).toEqual([{ wish: 'words', words: 'reading 54C', ago: 0 }]);
    expect(pressed(['4', ...line, { return: true }]).wishes).toEqual([{ wish: 'words', words: 'reading 54C', ago: 4 }]);
    expect(pressed([...line, { escape: true }]).state.line).toBeNull();
    expect(pressed([':', { return: true }])).toMatchObject({ state: { line: null }, wishes: [] });
    expect(pressed([':', '\u0007', 'a']).state.line).toBe('a');
    expect(pressed([':', { backspace: true }]).state.line).toBe('');
  });

  it('opens and closes its panes', () => {
    expect(pressed(['j']).state.pane).toBe('journal');
    expect(pressed(['j', 'j']).state.pane).toBe('day');
    expect(pressed(['?', { downArrow: true }, { escape: true }]).state).toMatchObject({ pane: 'day', scroll: 0 });
    expect(pressed([{ tab: true }]).state.look).toBe('dish');
    expect(pressed(['u']).wishes).toEqual([{ wish: 'undo' }]);
  });

  it('takes words apart as a shell would', () => {
    expect(wordsOf('reading "Roast loin/roast" 54C')).toEqual(['reading', 'Roast loin/roast', '54C']);
    expect(wordsOf("lost 'half sheet' 2")).toEqual(['lost', 'half sheet', '2']);
    expect(wordsOf('text "not closed')).toEqual(['text', 'not closed']);
    expect(wordsOf('  ')).toEqual([]);
  });
});
