/** Does what the screen's keys ask for, and says in a line what came of it. */
import type { Body } from '../../../src/live/journal/entries.js';
import { isRefusal } from '../../../src/live/journal/names.js';
import { entryWords } from '../../../src/live/journal/words.js';
import { type Desk, wasNoted } from '../../cooking/desk.js';
import { refusalWords } from '../../journal/open-day.js';
import { bodiesOf } from '../../journal/said.js';
import type { Said, Wish } from './cook-state.js';
import { type Item, marksFor } from './items.js';

export function fulfil(desk: Desk, wish: Wish, items: readonly Item[]): Said | null {
  switch (wish.wish) {
    case 'mark': {
      const item = items.find(({ key }) => key === wish.key);
      if (item === undefined) return null;
      const said = noted(desk, marksFor(desk.day(), item), wish.ago);
      // The key of a call that leaves no other trace says little.
      const isHeeded = item.kind === 'call' && /^(look|heat|out|serve) /.test(item.key.slice('call '.length));
      return isHeeded && !said.bad ? { text: `Heeded: ${item.call.row.say}`, bad: false } : said;
    }
    case 'words':
      return worded(desk, wordsOf(wish.words), wish.ago);
    case 'undo':
      return worded(desk, ['undo'], 0);
    default:
      return null;
  }
}

function worded(desk: Desk, words: readonly string[], ago: number): Said {
  const bodies = bodiesOf(desk.day(), desk.inForce(), words, desk.clock.now() - ago * 60_000, {});
  return isRefusal(bodies) ? { text: oneLine(refusalWords(bodies)), bad: true } : noted(desk, bodies, ago);
}

function noted(desk: Desk, bodies: readonly Body[], ago: number): Said {
  const made = desk.note(bodies, ago);
  if (!wasNoted(made)) return { text: oneLine(refusalWords(made)), bad: true };
  const { problem } = desk.day();
  const told = made.map((entry) => {
    if (entry.kind !== 'undo') return entryWords(problem, entry);
    const target = desk.entries().find(({ seq }) => seq === entry.of);
    return target ? `Taken back: ${entryWords(problem, target)}` : entryWords(problem, entry);
  });
  return { text: told.join('; '), bad: false };
}

const oneLine = (text: string): string => text.replaceAll('\n', ' ');

/** As a shell would take them apart: quotes keep words together. */
export function wordsOf(line: string): string[] {
  const found = line.matchAll(/"([^"]*)"?|'([^']*)'?|(\S+)/g);
  return [...found].map((match) => match[1] ?? match[2] ?? match[3]!);
}
