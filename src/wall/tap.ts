/** What a tap on the wall means as entries of the journal, and what it is refused for. */
import * as z from 'zod';
import type { Day } from '../live/journal/day.js';
import type { Body, Entry } from '../live/journal/entries.js';
import { type Refusal, refuse } from '../live/journal/names.js';
import { marksOf } from '../live/state/marks.js';
import { stepKey } from '../problem/hours.js';
import type { Item, Items } from './items.js';
import { covers, mayUndo, type Right } from './rights.js';

/** `want`: what is to be, so that a tap that is sent twice does no more than one. */
export const tapShape = z.strictObject({ item: z.string().min(1).max(600), want: z.enum(['done', 'open']) });
export type Tap = z.infer<typeof tapShape>;

export interface Refused extends Refusal {
  /** Whether the link does not cover it: another's call, or a link to look only. */
  readonly forbidden: boolean;
}

const NOT_YOURS = 'This is not on your list.';

/** Entries to note, none where all is as wanted already; or why not. */
export function entriesFor(
  day: Day,
  inForce: readonly Entry[],
  items: Items,
  right: Right,
  { item: key, want }: Tap,
): readonly Body[] | Refused {
  if (right.kind === 'look') return forbidden('This link is to look only.', 'ask for a link of your own');
  const item = [...items.underWay, ...items.calls].find((one) => one.key === key);
  // A step that is no longer under way is as wanted.
  if (item === undefined && key.startsWith('step ') && want === 'done') return [];
  if (item === undefined)
    return { ...refuse('The plan has no such call any more.', 'look again: it has changed'), forbidden: false };
  if (want === 'open') {
    const entry = entryBehind(day, inForce, item);
    if (entry === null) return [];
    return mayUndo(right, entry.who)
      ? [{ kind: 'undo', of: entry.seq }]
      : forbidden('Somebody else noted it.', 'they can take it back');
  }
  if (!covers(right, item.cooks)) return forbidden(NOT_YOURS, null);
  if (item.kind === 'step') return [{ kind: 'done', step: stepKey(day.problem, item.step.id) }];
  return item.open ? marksOf(day, item.call) : [];
}

const forbidden = (say: string, hint: string | null): Refused => ({
  ...refuse(say, ...(hint === null ? [] : [hint])),
  forbidden: true,
});

/** The entry by which a call is over, if one says so; for a step under way, that it began. */
export function entryBehind({ problem }: Day, inForce: readonly Entry[], item: Item): Entry | null {
  const step = item.kind === 'step' ? item.step.id : item.call.step;
  const name = step === null ? null : stepKey(problem, step);
  const about = (kinds: readonly string[]) =>
    inForce.findLast((entry) => kinds.includes(entry.kind) && 'step' in entry && entry.step === name) ?? null;
  if (item.kind === 'step') return about(['started']);
  const { kind, key } = item.call;
  const heeded = inForce.findLast((entry) => entry.kind === 'heeded' && entry.call === key) ?? null;
  if (heeded !== null || name === null) return heeded;
  if (kind === 'end' || kind === 'off') return about(['done']);
  // Of a step that is over, its end would have to be taken back first.
  return kind === 'start' ? (about(['done']) === null ? about(['started']) : null) : null;
}
