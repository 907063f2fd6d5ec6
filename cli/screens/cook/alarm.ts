/** When to ring: once for each call that becomes due, and not for what was late before the screen was opened. */
import { clean } from '../../../src/chart/text.js';
import type { Desk } from '../../cooking/desk.js';

export interface Alarm {
  /** What is due, the latest first; null where nothing is. */
  readonly due: string | null;
  readonly bell: boolean;
}

export function alarmFor(first: Desk): (desk: Desk) => Alarm {
  const rung = new Set(
    first
      .state()
      .calls.filter(({ at }) => at < first.minute())
      .map(({ key }) => key),
  );
  return (desk) => {
    const now = desk.minute();
    const due = desk.state().calls.filter(({ at }) => at <= now);
    const fresh = due.filter(({ key }) => !rung.has(key));
    for (const { key } of fresh) rung.add(key);
    const last = due.at(-1);
    const who = last?.row.cook ?? null;
    return {
      due: last ? `${who === null ? '' : `${clean(who)}: `}${clean(last.row.say)}` : null,
      bell: fresh.length > 0,
    };
  };
}
