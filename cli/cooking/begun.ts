/** A journal that is begun: with a plan. */
import { isRefusal } from '../../src/live/journal/names.js';
import { rebuilt } from '../../src/live/journal/rebuild.js';
import { UsageError } from '../exit.js';
import type { Io } from '../io.js';
import { readJournal } from '../journal/journal-file.js';
import { firstPlanFor, noted, type Opened, refusalWords } from '../journal/open-day.js';
import type { Clock } from './clock.js';

/** The journal with the plan that it begins with; a damaged one as far as it was read. */
export async function begun(io: Io, opened: Opened, clock: Clock): Promise<Opened> {
  const plan = await firstPlanFor(io, opened);
  if (plan === null) return opened;
  const now = clock.now();
  const made = noted(opened, [], { at: now, when: now, who: null }, plan);
  if (isRefusal(made)) throw new UsageError(refusalWords(made));
  const read = readJournal(opened.path);
  const told = rebuilt(opened.meal, read.entries);
  return { ...opened, read, rebuilt: told.day.plan === null ? { ...told, day: { ...told.day, plan } } : told };
}
