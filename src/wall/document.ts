/** The wall as data: what `state` below a link answers. Times are ISO 8601 with offset, temperatures °C. */
import * as z from 'zod';
import { documentOf, stateDocument } from '../live/state/document.js';
import { isoAt } from '../problem/hours.js';
import type { Item } from './items.js';
import { covers, type Right } from './rights.js';
import type { Seen } from './sections.js';

const time = z.iso.datetime({ offset: true });

export const wallShape = z.strictObject({
  format: z.literal('hearthtable-wall/1'),
  you: z.strictObject({ may: z.enum(['all', 'cook', 'look']), who: z.string().nullable() }),
  /** Why nothing can be noted; null where it can. */
  closed: z.string().nullable(),
  items: z.array(
    z.strictObject({
      /** What a tap names. */
      item: z.string(),
      kind: z.enum(['call', 'under way']),
      at: time,
      /** When the plan before had it. */
      was: time.nullable(),
      /** Empty: anyone's. */
      cooks: z.array(z.string()),
      say: z.string(),
      done: z.boolean(),
      /** Whether this link may tick it off. */
      yours: z.boolean(),
    }),
  ),
  /** What the plan in force changed, and why. */
  changed: z.array(z.string()),
  state: stateDocument,
});

export type WallDocument = z.infer<typeof wallShape>;

export function wallDocument({ day, state, items, closed }: Seen, right: Right): WallDocument {
  const iso = (minute: number): string => isoAt(day.problem, Math.round(minute));
  const told = (item: Item) => ({
    item: item.key,
    kind: item.kind === 'call' ? ('call' as const) : ('under way' as const),
    at: iso(item.at),
    was: item.kind === 'call' && item.was !== null ? iso(item.was) : null,
    cooks: [...item.cooks],
    say: item.words,
    done: item.kind === 'call' && !item.open,
    yours: covers(right, item.cooks),
  });
  return {
    format: 'hearthtable-wall/1',
    you: { may: right.kind, who: right.who },
    closed,
    items: [...items.underWay, ...items.calls].map(told),
    changed: [...day.planSay],
    state: documentOf(day, state),
  };
}
