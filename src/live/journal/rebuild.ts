/** From the entries to the day, and whether one more can be taken. */
import { clockAt, minuteAt } from '../../problem/hours.js';
import { quote } from '../../units/measure.js';
import { applied } from './apply.js';
import { type Day, type Meal, morningOf } from './day.js';
import type { Body, Entry, Head } from './entries.js';
import { inFull, isRefusal, type Refusal, refuse } from './names.js';
import { bodyWords } from './words.js';

export interface Rebuilt {
  readonly day: Day;
  /** Entries that count, in the order of their numbers. */
  readonly inForce: readonly Entry[];
  /** Entries that say what cannot be, after damage or by another hand; they count for nothing. */
  readonly passedOver: readonly { readonly entry: Entry; readonly say: string }[];
}

/** The day that the entries tell of, from nothing but them and the meal. */
export function rebuilt(meal: Meal, entries: readonly Entry[]): Rebuilt {
  const undone = new Set(entries.flatMap((entry) => (entry.kind === 'undo' ? [entry.of] : [])));
  const inForce: Entry[] = [];
  const passedOver: { entry: Entry; say: string }[] = [];
  let day = morningOf(meal);
  for (const entry of entries) {
    if (undone.has(entry.seq)) continue;
    const next = applied(day, entry);
    if (isRefusal(next)) passedOver.push({ entry, say: next.say });
    else {
      day = next;
      if (entry.kind !== 'undo') inForce.push(entry);
    }
  }
  return { day, inForce, passedOver };
}

/** Why the entries are not of this meal, or null. */
export function strange({ problem }: Meal, entries: readonly Entry[]): Refusal | null {
  const first = entries.find((entry) => entry.kind === 'begin');
  if (first === undefined || first.digest === problem.digest) return null;
  const other = first.title === problem.title ? '' : ` (${quote(first.title)})`;
  return refuse(
    `The meal's file has been changed since this journal was begun${other}: its plan and its entries are of another text.`,
    'put the file back as it was, or begin a new journal: move this one away, or name another with --journal',
  );
}

/** The same with one entry more; or why it cannot be, and what would be right. */
export function withEntry(
  meal: Meal,
  entries: readonly Entry[],
  head: Omit<Head, 'v' | 'seq'>,
  body: Body,
): Entry | Refusal {
  const seq = (entries.at(-1)?.seq ?? 0) + 1;
  const entry: Entry = { v: 1, seq, ...head, ...body };
  if (entry.kind === 'undo') return undoing(meal, entries, entry, entry.of);
  const { day } = rebuilt(meal, entries);
  const next = applied(day, entry);
  return isRefusal(next) ? next : { ...entry, ...inFull(day.problem, body) };
}

function undoing(meal: Meal, entries: readonly Entry[], entry: Entry, of: number): Entry | Refusal {
  const { problem } = meal;
  const target = entries.find(({ seq }) => seq === of);
  const before = rebuilt(meal, entries);
  const last = before.inForce.findLast(({ kind }) => kind !== 'plan' && kind !== 'begin');
  const hint = last ? `undo ${last.seq}: ${bodyWords(problem, last)}` : null;
  if (target === undefined) return refuse(`There is no entry ${of}.`, hint);
  if (target.kind === 'undo')
    return refuse(`Entry ${of} is an undo itself: what it took back is noted anew instead.`, hint);
  if (target.kind === 'begin') return refuse('The beginning of the journal cannot be taken back.', hint);
  const earlier = entries.find((one) => one.kind === 'undo' && one.of === of);
  if (earlier)
    return refuse(
      `Entry ${of} was taken back already, at ${clockAt(problem, Math.floor(minuteAt(problem, earlier.at)))}.`,
      hint,
    );
  if (target.kind === 'plan' && before.inForce.filter(({ kind }) => kind === 'plan').length < 2)
    return refuse('It is the only plan there is.', hint);
  const after = rebuilt(meal, [...entries, entry]);
  const known = new Set(before.passedOver.map((one) => one.entry.seq));
  // A later plan may fall with it: the one before is in force again then.
  const broken = after.passedOver.find((one) => !known.has(one.entry.seq) && one.entry.kind !== 'plan');
  if (!broken) return entry;
  return refuse(
    `Entry ${broken.entry.seq} (${bodyWords(problem, broken.entry)}) rests on it.`,
    `first: undo ${broken.entry.seq}`,
  );
}
