/** The sections of the wall's page, each by itself, so that a phone is sent only what has changed. */
import { longDayAt } from '../chart/clock.js';
import { clean, tied } from '../chart/text.js';
import type { Day } from '../live/journal/day.js';
import type { Entry } from '../live/journal/entries.js';
import { showLoss } from '../live/journal/names.js';
import type { State } from '../live/state/state.js';
import { coreWords, heatWords, toServe, underWayWords } from '../live/state/words.js';
import { clockAt, minuteAt } from '../problem/hours.js';
import { ANYONE } from '../share/content.js';
import { type Child, type Markup, tag, together } from '../share/markup.js';
import { cautionSection } from '../share/page/parts.js';
import { NOTHING } from '../share/words.js';
import { showList, showMinutes } from '../units/show.js';
import type { CallItem, Item, Items } from './items.js';
import { covers, mayUndo, type Right } from './rights.js';
import { entryBehind } from './tap.js';

export interface Seen {
  readonly day: Day;
  readonly state: State;
  readonly items: Items;
  readonly inForce: readonly Entry[];
  /** Why nothing can be noted just now; null where it can. */
  readonly closed: string | null;
  /** Whether all this is only rehearsed. */
  readonly rehearsal: boolean;
}

export const SECTIONS = ['top', 'trouble', 'changed', 'now', 'next', 'own', 'all', 'heat', 'cautions'] as const;
export type SectionName = (typeof SECTIONS)[number];

/** Calls to come that are told beside those that are due. */
const NEXT = 4;
/** Steps under way that are told beside what is due, those that end first; more can be opened. */
const UNDER_WAY = 5;
/** Minutes for which the last change of the plan is told. */
const FRESH = 30;

/** What stands in each section for whoever has this right; null where it has nothing. */
export function sectionsFor(seen: Seen, right: Right): Record<SectionName, Markup | null> {
  const { state, items, closed } = seen;
  const mine = (item: Item): boolean => right.kind !== 'cook' || covers(right, item.cooks);
  const open = items.calls.filter((call) => call.open && mine(call));
  const due = open.filter(({ at }) => at <= state.now);
  const next = open.filter(({ at }) => at > state.now).slice(0, NEXT);
  const underWay = [...items.underWay].sort((a, b) => a.at - b.at);
  const others = underWay.filter((item) => !mine(item));
  const own = underWay.filter(mine);
  // Whole lists tell no minutes to come, which would send all of them anew every minute.
  const list = (rows: readonly Item[], none: string, counted = false): Markup =>
    rows.length === 0
      ? tag('p', {}, none)
      : tag('ol', { class: 'calls' }, ...rows.map((item) => rowOf(seen, right, item, counted)));
  const doneOf = (calls: readonly CallItem[]): string =>
    `${calls.filter((call) => !call.open).length} of ${calls.length} done`;
  const all = items.calls.filter(({ cooks }) => right.kind === 'cook' && cooks.includes(right.who));
  const [done, left] = [all.filter((call) => !call.open), all.filter((call) => call.open)];
  const ownList = [
    done.length === 0 ? null : tag('details', {}, tag('summary', {}, doneOf(all)), list(done, NOTHING)),
    list(left, all.length === 0 ? NOTHING : 'All is done.'),
  ];
  return {
    top: topOf(seen, right),
    trouble: closed === null ? null : tag('p', {}, `Nothing can be ticked off: ${closed}`),
    changed: changesOf(seen),
    now: section(
      'Now',
      list([...due, ...own.slice(0, UNDER_WAY)], 'Nothing is due.', true),
      own.length > UNDER_WAY
        ? tag(
            'details',
            {},
            tag('summary', {}, `${own.length - UNDER_WAY} more under way`),
            list(own.slice(UNDER_WAY), NOTHING, true),
          )
        : null,
      othersAtWork(others),
    ),
    next: section('Next', list(next, open.length === 0 ? 'Nothing more.' : 'Nothing after that.', true)),
    own: right.kind === 'cook' ? section(`${clean(right.who)}’s list`, ...ownList) : null,
    all: tag(
      'details',
      { id: 'everybody' },
      tag('summary', {}, `Everybody’s calls: ${doneOf(items.calls)}`),
      list(items.calls, NOTHING),
    ),
    heat: heatOf(seen),
    cautions: cautionSection(items),
  };
}

const section = (name: string, ...children: readonly Child[]): Markup => together(tag('h2', {}, name), ...children);

function topOf({ day, state, rehearsal }: Seen, right: Right): Markup {
  const { problem } = day;
  const who = {
    all: right.who === null ? 'May tick off everything' : `${clean(right.who)}, may tick off everything`,
    cook: right.who === null ? '' : clean(right.who),
    look: 'To look only',
  };
  return together(
    tag('h1', {}, clean(problem.title)),
    tag(
      'p',
      {},
      rehearsal ? tag('strong', { class: 'rehearsal' }, 'Rehearsal ') : null,
      tag('strong', { class: 'clock' }, clockAt(problem, state.now)),
      ` ${longDayAt(problem, state.now)}; ${landingWords(problem, state)}. `,
      tag('span', { class: 'who' }, who[right.kind]),
    ),
  );
}

/** `served at 19:00 (in 50 min)`; of several courses the next: `supper at 18:45 (in 24 min)`. */
function landingWords(problem: Day['problem'], { now, serve }: State): string {
  const landings = problem.courses.map(({ name, at }) => ({ name, at: Math.round(serve + at) }));
  const byTime = landings.sort((a, b) => a.at - b.at);
  const next = byTime.find(({ at }) => at >= now) ?? byTime.at(-1)!;
  const name = landings.length > 1 ? clean(next.name) : 'served';
  return `${name} at ${clockAt(problem, next.at)}${toServe({ now, serve: next.at })}`;
}

function othersAtWork(items: Items['underWay']): Markup | null {
  if (items.length === 0) return null;
  const told = items.map(
    ({ words, cooks }) => `${words}${cooks.length === 0 ? '' : ` (${showList(cooks.map(clean))})`}`,
  );
  return tag('p', { class: 'others' }, `Others: ${told.join('; ')}.`);
}

/** The plan that was taken last: why, and what it moves. */
function changesOf({ day, state, inForce, items }: Seen): Markup | null {
  const taken = inForce.findLast(({ kind }) => kind === 'plan');
  const plans = inForce.filter(({ kind }) => kind === 'plan').length;
  if (taken === undefined || plans < 2) return null;
  const at = Math.floor(minuteAt(day.problem, taken.when));
  if (state.now - at > FRESH) return null;
  const moved = items.calls.filter(({ open, was }) => open && was !== null).length;
  const count = moved === 0 ? [] : [`${moved} ${moved === 1 ? 'call comes' : 'calls come'} at another time.`];
  return section(
    `New plan at ${clockAt(day.problem, at)}`,
    ...[...day.planSay, ...count].map((say) => tag('p', {}, tied(clean(say)))),
  );
}

function rowOf(seen: Seen, right: Right, item: Item, counted: boolean): Markup {
  const { day, state } = seen;
  const { problem } = day;
  const done = item.kind === 'call' && !item.open;
  const clock = (minute: number): string => clockAt(problem, Math.round(minute));
  const standing = done ? 'done' : item.at < state.now ? 'late' : item.at === state.now ? 'due' : 'open';
  const when =
    item.kind === 'step'
      ? `under way ${underWayWords(item.step, state.now, clock)}`
      : done
        ? 'done'
        : counted
          ? fromNow(item.at - state.now)
          : item.at < state.now
            ? 'late'
            : '';
  const was = item.kind === 'call' && item.was !== null && !done ? `was ${clock(item.was)}` : '';
  const who = item.cooks.length === 0 ? ANYONE : showList(item.cooks.map(clean));
  const named = right.kind !== 'cook' || item.cooks.length !== 1 || item.cooks[0] !== right.who;
  const about = [named ? who : '', when, was].filter((part) => part !== '').join('; ');
  return tag(
    'li',
    { class: standing },
    tag('time', {}, clock(item.at)),
    tag(
      'div',
      {},
      tag('p', { class: 'say' }, tied(clean(item.words))),
      about === '' ? null : tag('p', { class: 'when' }, about),
    ),
    buttonOf(seen, right, item, done),
  );
}

const fromNow = (minutes: number): string =>
  minutes === 0 ? 'now' : minutes > 0 ? `in ${showMinutes(minutes)}` : `${showMinutes(-minutes)} late`;

function buttonOf({ day, inForce, closed }: Seen, right: Right, item: Item, done: boolean): Markup | null {
  if (closed !== null) return null;
  const button = (want: 'done' | 'open', label: string): Markup =>
    tag(
      'button',
      { type: 'button', 'data-item': item.key, 'data-want': want, 'aria-label': `${label}: ${clean(item.words)}` },
      label,
    );
  if (done) {
    const entry = entryBehind(day, inForce, item);
    return entry !== null && mayUndo(right, entry.who) ? button('open', 'Take back') : null;
  }
  if (!covers(right, item.cooks)) return null;
  return button('done', item.kind === 'call' && item.call.kind === 'start' ? 'Begun' : 'Done');
}

/** How hot things are, which pieces are on their way, and what is missing. */
function heatOf({ day, state }: Seen): Markup | null {
  const { problem } = day;
  const clock = (minute: number): string => clockAt(problem, Math.round(minute));
  const rows: [string, string][] = [
    ...state.heats.map((heat): [string, string] => [
      problem.kitchen.appliances[heat.appliance]!.name,
      heatWords(day, heat, clock),
    ]),
    ...state.cores.map((core): [string, string] => [problem.dishes[core.dish]!.name, coreWords(day, core, clock)]),
    ...day.losses.map(({ at, what }): [string, string] => [showLoss(problem, what), `lost since ${clock(at)}`]),
    ...[...day.gone].map(([cook, since]): [string, string] => [
      problem.cooks[cook]!.name,
      `gone since ${clock(since)}`,
    ]),
    ...[...day.dropped].map((dish): [string, string] => [problem.dishes[dish]!.name, 'not served today']),
    ...day.remarks.map(({ at, who, text }): [string, string] => [`${clock(at)} ${who ?? ''}`.trim(), text]),
  ];
  if (rows.length === 0) return null;
  const pairs = rows.flatMap(([name, words]) => [tag('dt', {}, clean(name)), tag('dd', {}, tied(clean(words)))]);
  return section('How things stand', tag('dl', {}, ...pairs));
}
