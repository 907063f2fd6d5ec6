/** Who does a step at a time at which the plan did not have it. */
import { type ActivityMode, stretchesOf } from '../../kernel/model.js';
import type { State } from '../../kernel/state.js';
import type { Doing } from './doing.js';

/** Those who were to do it, for each stretch in turn; where one of them is busy or gone, somebody else who is not; null where nobody is. */
export function handsAsPlanned(
  state: State,
  { attention, able }: ActivityMode,
  { start, minutes }: { readonly start: number; readonly minutes: number },
  planned: Doing,
): number[] | null {
  const flat = stretchesOf(attention, minutes);
  const usual = planned.hands.map((hand) => hand.cook);
  const steady = usual.length === (flat.length / 2) * attention.crew;
  const everybody = state.model.workers.map((_, w) => w);
  const out: number[] = [];
  for (let k = 0; k < flat.length; k += 2) {
    const from = start + flat[k]!;
    const own = steady ? usual.slice((k / 2) * attention.crew, (k / 2 + 1) * attention.crew) : usual;
    const free = [...new Set([...own, ...usual, ...everybody])].filter(
      (w) => w >= 0 && (able >> w) % 2 === 1 && !state.busy[w]!.subarray(from, from + flat[k + 1]!).includes(1),
    );
    if (free.length < attention.crew) return null;
    out.push(...free.slice(0, attention.crew));
  }
  return out;
}
