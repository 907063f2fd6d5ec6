/** What of the kitchen is lost, and what is found again. */
import { clockAt } from '../../problem/hours.js';
import type { Problem } from '../../problem/problem.js';
import type { Loss } from '../happened.js';
import type { Day } from './day.js';
import type { BodyOf, Head } from './entries.js';
import { isRefusal, type Refusal, refuse, showThing, thingOf } from './names.js';

type What = Loss['what'];

const same = (a: What, b: What): boolean => {
  if (a.kind === 'pan') return b.kind === 'pan' && a.pan === b.pan;
  if (a.kind === 'burner') return b.kind === 'burner' && a.appliance === b.appliance && a.burner === b.burner;
  return a.kind === 'appliance' ? b.kind === 'appliance' && a.appliance === b.appliance : b.kind === 'board';
};

const countOf = (what: What): number => ('count' in what ? what.count : 1);

const ownCount = ({ kitchen }: Problem, what: What): number =>
  what.kind === 'pan' ? kitchen.pans[what.pan]!.count : what.kind === 'board' ? kitchen.boards : 1;

export function lost(day: Day, entry: Head & BodyOf<'lost'>, when: number): Day | Refusal {
  const what = thingOf(day.problem, entry.what);
  if (isRefusal(what)) return what;
  const name = showThing(entry.what);
  const before = day.losses.filter((loss) => same(loss.what, what));
  const left = ownCount(day.problem, what) - before.reduce((sum, loss) => sum + countOf(loss.what), 0);
  if (left <= 0) return refuse(`${name}: lost already, since ${clockAt(day.problem, before.at(-1)?.at ?? when)}.`);
  if (countOf(what) > left) return refuse(`There ${left === 1 ? 'is' : 'are'} only ${left} of ${name}.`, String(left));
  return { ...day, losses: [...day.losses, { at: when, what }] };
}

export function found(day: Day, entry: Head & BodyOf<'found'>): Day | Refusal {
  const what = thingOf(day.problem, entry.what);
  if (isRefusal(what)) return what;
  let rest = countOf(what);
  const losses: Loss[] = [];
  // The last that was lost is the first that is found.
  for (const loss of [...day.losses].reverse()) {
    if (rest === 0 || !same(loss.what, what)) {
      losses.unshift(loss);
      continue;
    }
    const back = Math.min(rest, countOf(loss.what));
    rest -= back;
    if ('count' in loss.what && loss.what.count > back)
      losses.unshift({ ...loss, what: { ...loss.what, count: loss.what.count - back } });
  }
  if (rest > 0)
    return refuse(
      `${showThing(entry.what)}: ${rest === countOf(what) ? 'it was not lost' : `only ${countOf(what) - rest} were lost`}.`,
    );
  return { ...day, losses };
}
