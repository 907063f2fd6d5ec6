/** Headings and the few words around the calls, the same in every format. The sentences themselves are those of the plan. */
import { dayAt, longDayAt, sameDay } from '../chart/clock.js';
import { coreWords } from '../chart/cores.js';
import { clean } from '../chart/text.js';
import type { View } from '../chart/view.js';
import type { PlanDocument } from '../plan/document.js';
import { clockAt } from '../problem/hours.js';
import { showList } from '../units/show.js';
import { ANYONE, type CardRun, type CardStep, type Entry, type List, type Shared } from './content.js';

/** Stands at the end of what has no other place for it, and tells our files from others. */
export const SIGNATURE = 'Planned with Hearthtable.';

/** `Orchard supper: Ines and Tomas`, or the title alone. */
export function titleWords({ view, who }: Shared): string {
  const title = clean(view.problem.title);
  if (who === null) return title;
  return `${title}: ${showList([...who.cooks.map(clean), ...(who.anyone ? [ANYONE.toLowerCase()] : [])])}`;
}

/** `Saturday 3 October 2026: main 18:30, sweet 19:10 (Europe/Lisbon)`. */
export function servingWords(view: View): string {
  const { problem, landings } = view;
  const late = (minutes: number) => (minutes > 0 ? ` (${minutes} min late)` : '');
  const told = landings.map(({ name, at, late: by }) => {
    const lead = landings.length > 1 ? `${name} ` : 'served at ';
    return `${lead}${dayClock(view, at)}${late(by)}`;
  });
  return `${longDayAt(problem, problem.serve)}: ${told.join(', ')} (${problem.zone})`;
}

/** Entries under their days; no name of a day where all are on the day of the serving. */
export function byDay(view: View, list: List): { day: string | null; entries: readonly Entry[] }[] {
  const { problem } = view;
  const days = new Map<string, Entry[]>();
  for (const entry of list.entries) {
    const day = longDayAt(problem, entry.told.minute);
    days.set(day, [...(days.get(day) ?? []), entry]);
  }
  const plain = days.size === 1 && days.has(longDayAt(problem, problem.serve));
  return [...days].map(([day, entries]) => ({ day: plain ? null : day, entries }));
}

/** The call, with what a look's sentence leaves out: `… see to it on the grill, left (roast). 165 °C, lid closed; roasting pan.` */
export function entryWords({ told, say, heat, pan }: Entry): string {
  const more = told.kind === 'look' || told.kind === 'end' ? [heat, pan].filter((part) => part !== null) : [];
  if (more.length === 0) return say;
  const detail = more.join('; ');
  return `${say} ${detail.charAt(0).toUpperCase()}${detail.slice(1)}.`;
}

/** `begin 17:05, hot by 17:20`: when its heat is to be set. */
export function changeWords(view: View, { run, lit }: CardRun): string {
  const begin = run.ready < run.from ? `set it at ${dayClock(view, run.ready)}` : '';
  const fire = lit.length === 0 ? '' : `fire under ${showList(lit)} only`;
  return [begin, fire].filter((part) => part !== '').join(', ');
}

/** `Roast roots, roast (rack 1, half sheet)`, and where a piece is to be pulled. */
export function insideWords(view: View, { step, place, pan, flame }: CardStep): string {
  const where = [place, pan, flame].filter((part) => part !== null && part !== '').join(', ');
  const core = coreWords(view, step);
  return `${view.dishes[step.dish]!.name}, ${step.name} (${where})${core === '' ? '' : `; ${core}`}`;
}

/** `17:20`, or on another day than the serving's `Fri 2 Oct 17:20`. */
export const dayClock = ({ problem }: View, minute: number): string =>
  `${sameDay(problem, minute, problem.serve) ? '' : `${dayAt(problem, minute)} `}${clockAt(problem, minute)}`;

/** `17:20 to 18:10`. */
export const spanWords = (view: View, from: number, to: number): string =>
  `${dayClock(view, from)} to ${dayClock(view, to)}`;

/** `Brined pork loin: Set to 58 °C; … (source)`. */
export function cautionWords({ dish, say, source }: PlanDocument['cautions'][number]): string {
  const about = dish === null ? '' : `${clean(dish)}: `;
  return `${about}${clean(say)} (${clean(source)})`;
}

export const NOTHING = 'Nothing to do.';
