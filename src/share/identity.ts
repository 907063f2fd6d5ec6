/**
 * Names for calls that outlast a new plan: made of the meal's title, what the call is about and whose it is, never of its time or its
 * words. A call that goes to another cook is another call: it vanishes from one calendar and comes up in another.
 */
import { createHash } from 'node:crypto';
import type { ToldCall } from '../plan/calls.js';

/** One for each call, all different. */
export function idsOf(title: string, calls: readonly ToldCall[]): string[] {
  const seen = new Map<string, number>();
  return calls.map(({ kind, subject, call }) => {
    const about = JSON.stringify([title, kind, subject, call.cook]);
    const before = seen.get(about) ?? 0;
    seen.set(about, before + 1);
    return createHash('sha256').update(`${about} ${before}`).digest('hex').slice(0, 24);
  });
}
