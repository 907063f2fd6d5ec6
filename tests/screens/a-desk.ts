/** A desk over a small supper's journal in a folder of its own, with a clock that the test sets. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Desk, deskFor } from '../../cli/cooking/desk.js';
import { readJournal } from '../../cli/journal/journal-file.js';
import { noted } from '../../cli/journal/open-day.js';
import { isRefusal } from '../../src/live/journal/names.js';
import { rebuilt } from '../../src/live/journal/rebuild.js';
import { instantSaid } from '../../src/live/journal/when.js';
import { supper, supperPlan } from '../live/day-of.js';

export interface ADesk {
  readonly desk: Desk;
  readonly path: string;
  readonly set: (clock: string) => void;
  readonly again: () => Desk;
  readonly close: () => void;
}

export function aDesk(clock: string, who: string | null = null): ADesk {
  const folder = mkdtempSync(join(tmpdir(), 'hearthtable-desk-'));
  const path = join(folder, 'supper.journal.jsonl');
  const meal = supper();
  const { origin, serve, zone } = meal.problem;
  const said = (text: string): number => {
    const instant = instantSaid(text, origin + serve * 60_000, zone);
    if (isRefusal(instant)) throw new Error(instant.say);
    return instant;
  };
  let now = said(clock);
  const desks: Desk[] = [];
  const open = (): Desk => {
    const read = readJournal(path);
    const desk = deskFor({ meal, path, read, rebuilt: rebuilt(meal, read.entries) }, { now: () => now, speed: 1 }, who);
    desks.push(desk);
    return desk;
  };
  noted({ meal, path }, [], { at: now, when: now, who: null }, supperPlan(meal));
  return {
    desk: open(),
    path,
    set: (text) => {
      now = said(text);
    },
    again: open,
    close: () => {
      for (const desk of desks) desk.close();
      rmSync(folder, { recursive: true });
    },
  };
}
