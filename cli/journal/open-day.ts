/** A meal with its journal, for a command: what is amiss goes to stderr. */
import type { Grown, Meal } from '../../src/live/journal/day.js';
import type { Body, Entry } from '../../src/live/journal/entries.js';
import type { ReadLines } from '../../src/live/journal/lines.js';
import { isRefusal, type Refusal } from '../../src/live/journal/names.js';
import { type Rebuilt, rebuilt, strange, withEntry } from '../../src/live/journal/rebuild.js';
import { instantSaid } from '../../src/live/journal/when.js';
import { bodyWords } from '../../src/live/journal/words.js';
import type { PlanDocument } from '../../src/plan/document.js';
import type { Problem } from '../../src/problem/problem.js';
import { readProblemFile } from '../../src/problem/read.js';
import { showIso } from '../../src/units/clock.js';
import { openProblem, refused } from '../commands/problem-file.js';
import { UsageError } from '../exit.js';
import type { Io } from '../io.js';
import { appended, damageWords, journalBeside, readJournal } from './journal-file.js';

export interface Opened {
  readonly meal: Meal;
  readonly path: string;
  readonly read: ReadLines;
  readonly rebuilt: Rebuilt;
}

/** Null where the meal's file has mistakes, which are told. Throws a UsageError where the journal is of another meal. */
export async function openDay(io: Io, file: string, journal?: string): Promise<Opened | null> {
  const meal = await openMeal(io, file);
  if (meal === null) return null;
  const path = journal ?? journalBeside(file);
  const read = readJournal(path);
  const damaged = damageWords(path, read);
  if (damaged !== null) io.stderr.write(`${damaged}\n`);
  if (read.torn)
    io.stderr.write(
      `${path}: the last line was not written to its end and is left out; nothing that was noted is lost.\n`,
    );
  const other = strange(meal, read.entries);
  if (other) throw new UsageError(refusalWords(other));
  const day = rebuilt(meal, read.entries);
  for (const { entry, say } of day.passedOver)
    io.stderr.write(`${path}: entry ${entry.seq} (${bodyWords(meal.problem, entry)}) is passed over: ${say}\n`);
  return { meal, path, read, rebuilt: day };
}

async function openMeal(io: Io, file: string): Promise<Meal | null> {
  const opened = await openProblem(io, file);
  if (opened === null) return null;
  const { withHeat, expectedCurves } = await import('../../src/heat/meal.js');
  const known = new Map<string, Grown>();
  const grow = (texts: readonly string[]): Grown => {
    const more = texts.map((text, at) => ({ name: `added dish ${at + 1}`, text }));
    const result = withHeat(readProblemFile(file, { more }));
    if (!result.ok) return result;
    const messages = refused(result, () => expectedCurves(result.problem));
    return messages.length > 0 ? { ok: false, messages } : { ok: true, problem: result.problem };
  };
  const withDishes = (texts: readonly string[]): Grown => {
    const key = JSON.stringify(texts);
    const grown = known.get(key) ?? grow(texts);
    known.set(key, grown);
    return grown;
  };
  return { problem: opened.problem, withDishes };
}

export const refusalWords = ({ say, hint }: Refusal): string => (hint === null ? say : `${say}\nPerhaps: ${hint}`);

/** The present, by the machine's clock or what `--clock` says it is. */
export function presentOf(io: Io, problem: Problem, clock: string | undefined): number {
  const now = io.now?.() ?? Date.now();
  return clock === undefined ? now : saidBy('clock', clock, problem.origin + problem.serve * 60_000, problem);
}

/** The instant that an option says. Throws a UsageError where it says none. */
export function saidBy(option: string, text: string, near: number, problem: Problem): number {
  const said = instantSaid(text, near, problem.zone);
  if (isRefusal(said)) throw new UsageError(`--${option}: ${refusalWords(said)}`);
  return said;
}

export interface Stamp {
  /** Instants: when it is written, and when it happened. */
  readonly at: number;
  readonly when: number;
  readonly who: string | null;
}

/**
 * Writes entries down, each checked against all before it; before the first of a journal, the meal and the plan it begins with. A
 * Refusal writes nothing.
 */
export function noted(
  { meal, path }: Pick<Opened, 'meal' | 'path'>,
  bodies: readonly Body[],
  stamp: Stamp,
  firstPlan: PlanDocument | null,
): readonly Entry[] | Refusal {
  const { problem } = meal;
  const iso = (instant: number): string => showIso(instant, problem.zone);
  const head = { at: iso(stamp.at), when: iso(stamp.when), who: stamp.who };
  return appended(path, (before) => {
    const other = strange(meal, before);
    if (other) return other;
    const made: Entry[] = [];
    const beginning: Body[] =
      before.length > 0 || firstPlan === null
        ? []
        : [beginOf(problem), { kind: 'plan', plan: kept(firstPlan), say: [] }];
    for (const body of beginning)
      made.push({ v: 1, seq: made.length + 1, at: head.at, when: head.at, who: null, ...body });
    for (const body of bodies) {
      const entry = withEntry(meal, [...before, ...made], head, body);
      if (isRefusal(entry)) return entry;
      made.push(entry);
    }
    return made;
  });
}

const beginOf = ({ title, digest }: Problem): Body => ({ kind: 'begin', title, digest });

/** A plan as the journal keeps it: without what only helps to choose one. */
export function kept({
  why: _why,
  waysOut: _ways,
  because: _because,
  chances: _chances,
  sure: _sure,
  ...plan
}: PlanDocument): PlanDocument {
  return plan;
}

/** The plan that a journal begins with, when it has none yet. Throws a UsageError where none fits. */
export async function firstPlanFor(io: Io, { meal, rebuilt: { day } }: Opened): Promise<PlanDocument | null> {
  if (day.plan !== null) return null;
  const { workOut } = await import('../solving/aside.js');
  const { problem } = meal;
  const { plan, reasons } = await workOut(io, io.stderr.isTTY === true, {
    problem,
    effort: 'normal',
    seed: 1,
    why: false,
    waysOut: false,
  });
  if (plan !== null && plan.status !== 'none') return plan;
  const why = reasons.filter(({ kind }) => kind === 'why').map(({ say }) => `  ${say}`);
  throw new UsageError(['No plan fits this meal, so there is nothing to keep a journal of.', ...why].join('\n'));
}
