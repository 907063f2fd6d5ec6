/** A journal that is begun: with a plan. */
import type { Body } from '../../src/live/journal/entries.js';
import { isRefusal } from '../../src/live/journal/names.js';
import { rebuilt } from '../../src/live/journal/rebuild.js';
import { soFar } from '../../src/live/rehearsal/so-far.js';
import { isoAt, minuteAt } from '../../src/problem/hours.js';
import { showIso } from '../../src/units/clock.js';
import { UsageError } from '../exit.js';
import type { Io } from '../io.js';
import { readJournal } from '../journal/journal-file.js';
import { firstPlanFor, noted, type Opened, refusalWords } from '../journal/open-day.js';
import type { Clock } from './clock.js';

/**
 * The journal with the plan that it begins with; a damaged one as far as it was read. `asPlanned`: one that is new also has what should have
 * happened by now.
 */
export async function begun(io: Io, opened: Opened, clock: Clock, asPlanned = false): Promise<Opened> {
  const plan = await firstPlanFor(io, opened);
  if (plan === null) return opened;
  const { problem } = opened.meal;
  const now = clock.now();
  const note = (bodies: readonly Body[], when: number, who: string | null): void => {
    const made = noted(opened, bodies, { at: now, when, who }, plan);
    if (isRefusal(made)) throw new UsageError(refusalWords(made));
  };
  note([], now, null);
  const past = asPlanned ? soFar({ problem, plan }, minuteAt(problem, showIso(now, problem.zone))) : [];
  for (const { minute, who, body } of past) note([body], Date.parse(isoAt(problem, minute)), who);
  const read = readJournal(opened.path);
  const told = rebuilt(opened.meal, read.entries);
  return { ...opened, read, rebuilt: told.day.plan === null ? { ...told, day: { ...told.day, plan } } : told };
}
