/** Who the timelines are for, what their files are called, and where they go. */
import { clean } from '../../src/chart/text.js';
import type { View } from '../../src/chart/view.js';
import { nearest } from '../../src/problem/nearest.js';
import { ANYONE, type Shared, sharedOf, type Who } from '../../src/share/content.js';
import { CARD_FORMATS, FORMATS, type Format, rendered, renderedCards } from '../../src/share/formats.js';
import { UsageError } from '../exit.js';
import type { Io } from '../io.js';
import { type Draft, writeAll } from './folder.js';
import { apart, slug } from './names.js';

const ENDINGS: Readonly<Record<Format, string>> = { ics: 'ics', html: 'html', svg: 'svg', md: 'md', text: 'txt' };

export interface Wishes {
  readonly as?: readonly Format[];
  readonly each?: true;
  readonly card?: true;
  readonly output?: string;
  readonly overwrite?: true;
  readonly alarm: number;
}

/** The cooks of these names, however they are capitalised; null for no names. A cook who is called `anyone` comes first. */
export function whoIn({ problem }: View, names: readonly string[]): Who | null {
  if (names.length === 0) return null;
  const anyone = ANYONE.toLowerCase();
  const known = problem.cooks.map(({ name }) => name);
  const cooks = new Set<string>();
  let others = false;
  for (const name of names) {
    const same = (one: string) => one.toLowerCase() === name.trim().toLowerCase();
    const cook = known.find((one) => one === name) ?? known.find(same);
    if (cook !== undefined) cooks.add(cook);
    else if (same(anyone)) others = true;
    else {
      const all = [...known.map(clean), anyone];
      throw new UsageError(
        `--for: the meal has no cook \`${clean(name)}\`.\nPerhaps: ${nearest(name, all) ?? all.join(', ')}`,
      );
    }
  }
  return { cooks: known.filter((name) => cooks.has(name)), anyone: others };
}

export function share(io: Io, view: View, who: Who | null, wishes: Wishes): void {
  const { output, each, card } = wishes;
  const formats = formatsOf(wishes);
  const shared = sharedOf(view, who);
  for (const list of shared.lists) {
    if (list.entries.length === 0 && who) io.stderr.write(`${list.name} has nothing to do in this plan.\n`);
  }
  const written = Date.now();
  const make = (what: Shared, format: Format, previous: string | null): string =>
    card ? renderedCards(what, format) : rendered(what, format, { written, ahead: wishes.alarm, previous });
  if (output === undefined) {
    io.stdout.write(make(shared, formats[0]!, null));
    return;
  }
  const own =
    each && !card ? view.problem.cooks.map(({ name }) => sharedOf(view, { cooks: [name], anyone: false })) : [];
  const all = [shared, ...own];
  const names = apart(
    all.map((what) => slug([view.problem.title, ...whoWords(what), ...(card ? ['card'] : [])].join(' '))),
  );
  const drafts = all.flatMap((what, index) =>
    formats.map(
      (format): Draft => ({
        name: `${names[index]}.${ENDINGS[format]}`,
        make: (previous) => make(what, format, previous),
      }),
    ),
  );
  for (const path of writeAll(output, drafts, wishes.overwrite === true)) io.stdout.write(`${path}\n`);
}

const whoWords = ({ who }: Shared): readonly string[] =>
  who === null ? [] : [...who.cooks, ...(who.anyone ? [ANYONE] : [])];

function formatsOf({ as, card }: Wishes): Format[] {
  const possible = card ? CARD_FORMATS : FORMATS;
  if (!as) return [...possible];
  const without = as.find((format) => !possible.includes(format));
  if (without !== undefined)
    throw new UsageError(`A card does not come as ${without}.\nPerhaps: --as ${possible.join(', --as ')}`);
  return [...new Set(as)];
}
