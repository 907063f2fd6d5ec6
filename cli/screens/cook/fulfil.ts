/** Does what the screen's keys ask for, and says in a line what came of it. */
import type { Body } from '../../../src/live/journal/entries.js';
import { isRefusal, type Refusal } from '../../../src/live/journal/names.js';
import { entryWords } from '../../../src/live/journal/words.js';
import { type Desk, wasNoted } from '../../cooking/desk.js';
import type { Proposals } from '../../cooking/proposals.js';
import { refusalWords } from '../../journal/open-day.js';
import { bodiesOf } from '../../journal/said.js';
import type { Said, Wish } from './cook-state.js';
import { type Item, marksFor } from './items.js';

export function fulfil(desk: Desk, proposals: Proposals, wish: Wish, items: readonly Item[]): Said | null {
  switch (wish.wish) {
    case 'mark': {
      const item = items.find(({ key }) => key === wish.key);
      if (item === undefined) return null;
      const said = noted(desk, marksFor(desk.day(), item), wish.ago);
      // The key of a call that leaves no other trace says little.
      const isHeeded = item.kind === 'call' && /^(look|heat|out|serve) /.test(item.key.slice('call '.length));
      return isHeeded && !said.bad ? good(`Heeded: ${item.call.row.say}`) : said;
    }
    case 'words':
      return worded(desk, wordsOf(wish.words), wish.ago);
    case 'undo':
      return worded(desk, ['undo'], 0);
    case 'take': {
      const taken = proposals.take();
      return wasNoted(taken) ? good('The new plan is taken.') : bad(taken);
    }
    case 'leave':
      if (proposals.current() === null) return null;
      proposals.leave();
      return good('The plan stays as it was.');
    case 'plan':
      proposals.ask();
      return null;
    case 'at once':
      proposals.setAtOnce(!proposals.atOnce());
      return good(proposals.atOnce() ? 'New plans are taken at once.' : 'New plans are taken when you say so.');
  }
}

function worded(desk: Desk, words: readonly string[], ago: number): Said {
  const bodies = bodiesOf(desk.day(), desk.inForce(), words, desk.clock.now() - ago * 60_000, {});
  return isRefusal(bodies) ? bad(bodies) : noted(desk, bodies, ago);
}

function noted(desk: Desk, bodies: readonly Body[], ago: number): Said {
  const made = desk.note(bodies, ago);
  if (!wasNoted(made)) return bad(made);
  const { problem } = desk.day();
  const told = made.map((entry) => {
    if (entry.kind !== 'undo') return entryWords(problem, entry);
    const target = desk.entries().find(({ seq }) => seq === entry.of);
    return target ? `Taken back: ${entryWords(problem, target)}` : entryWords(problem, entry);
  });
  return good(told.join('; '));
}

const good = (text: string): Said => ({ text, bad: false });
const bad = (why: Refusal): Said => ({ text: refusalWords(why).replaceAll('\n', ' '), bad: true });

/** As a shell would take them apart: quotes keep words together. */
export function wordsOf(line: string): string[] {
  const found = line.matchAll(/"([^"]*)"?|'([^']*)'?|(\S+)/g);
  return [...found].map((match) => match[1] ?? match[2] ?? match[3]!);
}
