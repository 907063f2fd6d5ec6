/** The day at hand, for a screen: the journal as it stands, what is added to it here or by others, and where things stand. */
import { type FSWatcher, statSync, watch } from 'node:fs';
import { basename, dirname } from 'node:path';
import type { Day } from '../../src/live/journal/day.js';
import type { Body, Entry } from '../../src/live/journal/entries.js';
import { isRefusal, type Refusal, refuse } from '../../src/live/journal/names.js';
import { rebuilt, strange } from '../../src/live/journal/rebuild.js';
import { type State, stateAt } from '../../src/live/state/state.js';
import { minuteAt } from '../../src/problem/hours.js';
import { showIso } from '../../src/units/clock.js';
import { UsageError } from '../exit.js';
import { damageWords, readJournal } from '../journal/journal-file.js';
import { noted, type Opened } from '../journal/open-day.js';
import type { Clock } from './clock.js';

/** Milliseconds after which the file is looked at again, in case nobody told that it changed. */
const PACE = 1000;

export interface Desk {
  readonly clock: Clock;
  readonly day: () => Day;
  readonly entries: () => readonly Entry[];
  readonly inForce: () => readonly Entry[];
  /** The present minute. */
  readonly minute: () => number;
  readonly state: () => State;
  /** Why nothing can be noted; null where it can. */
  readonly closed: () => string | null;
  /** Notes what happened so many minutes ago; all of it or, with a reason, nothing. `by`: who says so, if not who is at the screen. */
  readonly note: (bodies: readonly Body[], ago: number, by?: string | null) => readonly Entry[] | Refusal;
  /** Called when the journal has changed, by whoever's hand. */
  readonly listen: (changed: () => void) => () => void;
  readonly close: () => void;
}

/** Of a journal that has a plan. `who`: who is at the screen. */
export function deskFor(opened: Opened, clock: Clock, who: string | null): Desk {
  const { meal, path } = opened;
  const { problem } = meal;
  const listeners = new Set<() => void>();
  let [read, told] = [opened.read, opened.rebuilt];
  let seen = stampOf(path);
  let known: { readonly day: Day; readonly state: State } | null = null;

  const look = (): void => {
    const stamp = stampOf(path);
    if (stamp === seen) return;
    seen = stamp;
    read = readJournal(path);
    // A journal of another meal is put in this one's place only by hand; what was known stays then.
    if (strange(meal, read.entries) === null) told = rebuilt(meal, read.entries);
    for (const changed of listeners) changed();
  };
  const minute = (): number => Math.floor(minuteAt(problem, showIso(clock.now(), problem.zone)));
  const watcher = watched(path, look);
  const timer = setInterval(look, PACE);
  timer.unref();
  return {
    clock,
    day: () => told.day,
    entries: () => read.entries,
    inForce: () => told.inForce,
    minute,
    state: () => {
      const now = minute();
      if (known === null || known.day !== told.day || known.state.now !== now)
        known = { day: told.day, state: stateAt(told.day, now) };
      return known.state;
    },
    closed: () => damageWords(basename(path), read),
    note: (bodies, ago, by = who) => {
      const at = clock.now();
      try {
        const made = noted({ meal, path }, bodies, { at, when: at - ago * 60_000, who: by }, null);
        look();
        return made;
      } catch (error) {
        // A full disk or another writer is no reason to leave the kitchen without its screen.
        if (error instanceof UsageError) return refuse(error.message.split('\n')[0]!);
        throw error;
      }
    },
    listen: (changed) => {
      listeners.add(changed);
      return () => void listeners.delete(changed);
    },
    close: () => {
      clearInterval(timer);
      watcher?.close();
    },
  };
}

export const wasNoted = (made: readonly Entry[] | Refusal): made is readonly Entry[] => !isRefusal(made);

function stampOf(path: string): string {
  try {
    const { ino, size, mtimeMs } = statSync(path);
    return `${ino} ${size} ${mtimeMs}`;
  } catch {
    return 'none';
  }
}

/** The folder is watched, since the file may be put there anew; where that cannot be, looking now and then must do. */
function watched(path: string, changed: () => void): FSWatcher | null {
  try {
    const watcher = watch(dirname(path), { persistent: false }, (_, name) => {
      if (name === null || name === basename(path)) changed();
    });
    watcher.on('error', () => watcher.close());
    return watcher;
  } catch {
    return null;
  }
}
