/** A wall on a port of this machine, over a journal in a folder of its own, with a clock that stands where it is put. */
import { appendFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { deskFor } from '../../cli/cooking/desk.js';
import { readJournal } from '../../cli/journal/journal-file.js';
import { type Link, linksFor } from '../../cli/wall/links.js';
import { serveWall, type Wall } from '../../cli/wall/serve.js';
import type { Entry } from '../../src/live/journal/entries.js';
import { lineOf } from '../../src/live/journal/lines.js';
import { rebuilt } from '../../src/live/journal/rebuild.js';
import type { WallDocument } from '../../src/wall/document.js';
import { Teller } from '../live/day-of.js';

export interface AWall {
  readonly wall: Wall;
  readonly links: readonly Link[];
  readonly journal: string;
  readonly teller: Teller;
  readonly noted: string[];
  readonly refused: string[];
  /** Puts the clock there. */
  readonly at: (clock: string) => void;
  /** The address of whoever's link: `all`, `look` or a cook's. */
  readonly url: (who: string, rest?: string) => string;
  readonly state: (who: string) => Promise<WallDocument>;
  readonly tap: (who: string, item: string, want?: 'done' | 'open') => Promise<Response>;
  /** As another program would add it. */
  readonly append: (entry: Entry) => void;
  readonly entries: () => readonly Entry[];
  readonly close: () => Promise<void>;
}

export async function aWall(clock: string, teller = new Teller()): Promise<AWall> {
  const folder = mkdtempSync(join(tmpdir(), 'wall-'));
  const journal = join(folder, 'supper.journal.jsonl');
  writeFileSync(journal, teller.entries.map((entry) => `${lineOf(entry)}\n`).join(''));
  let now = Date.parse(teller.iso(clock));
  const { meal } = teller;
  const read = readJournal(journal);
  const opened = { meal, path: journal, read, rebuilt: rebuilt(meal, read.entries) };
  const desk = deskFor(opened, { now: () => now, speed: 1 }, null);
  const links = linksFor(meal.problem, 'a key of the tests', null);
  const [noted, refused]: [string[], string[]] = [[], []];
  const wall = await serveWall(desk, {
    links,
    bind: '127.0.0.1',
    hosts: ['127.0.0.1'],
    port: 0,
    patience: 400,
    noted: (line) => noted.push(line),
    refused: (line) => refused.push(line),
  });
  const url = (who: string, rest = ''): string => {
    const link = links.find(({ right }) => right.kind === who || (right.kind === 'cook' && right.who === who));
    return `http://127.0.0.1:${wall.port}/${link!.token}/${rest}`;
  };
  return {
    wall,
    links,
    journal,
    teller,
    noted,
    refused,
    at: (time) => {
      now = Date.parse(teller.iso(time));
    },
    url,
    state: async (who) => (await (await fetch(url(who, 'state'))).json()) as WallDocument,
    tap: (who, item, want = 'done') =>
      fetch(url(who, 'mark'), {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ item, want }),
      }),
    append: (entry) => appendFileSync(journal, `${lineOf(entry)}\n`),
    entries: () => readJournal(journal).entries,
    close: async () => {
      await wall.close();
      desk.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** What comes from a wall's stream: what stands in each section after each piece of news. */
export async function* newsFrom(url: string, stop: AbortSignal): AsyncGenerator<Record<string, string>> {
  const reply = await fetch(url, { signal: stop });
  let text = '';
  let known: Record<string, string> = {};
  const decoder = new TextDecoder();
  for await (const bytes of reply.body as unknown as AsyncIterable<Uint8Array>) {
    text += decoder.decode(bytes, { stream: true });
    for (let end = text.indexOf('\n\n'); end >= 0; end = text.indexOf('\n\n')) {
      const event = text.slice(0, end);
      text = text.slice(end + 2);
      const data = /^event: news\ndata: (.*)$/.exec(event);
      if (!data) continue;
      known = { ...known, ...(JSON.parse(data[1]!) as Record<string, string>) };
      yield known;
    }
  }
}
