/** The list of the cook's screen: what is under way, with its core, then what comes next, with the time until then. */
import { type Glyphs, inGlyphs } from '../../../src/chart/glyphs.js';
import { type Line, lineWidth, type Role, segment } from '../../../src/chart/line.js';
import { clean, cut, pad, widthOf, wrap } from '../../../src/chart/text.js';
import type { Day } from '../../../src/live/journal/day.js';
import type { State } from '../../../src/live/state/state.js';
import { clockAt, stepKey } from '../../../src/problem/hours.js';
import { showMinutes } from '../../../src/units/show.js';
import { shownCore } from '../../live/state-lines.js';
import type { Item } from './items.js';

export type { Item } from './items.js';

export interface ListSight {
  readonly day: Day;
  readonly state: State;
  readonly items: readonly Item[];
  readonly at: number;
  readonly now: number;
  /** Steps under way that are done by the look of them, in a rehearsal. */
  readonly looksDone: ReadonlySet<number>;
  readonly columns: number;
  readonly glyphs: Glyphs;
}

/** Minutes below which seconds count, and above which only hours do. */
const CLOSE = 10;
const FAR = 100;
/** Columns of a countdown behind its clock time: ` 99 min late`. */
const COUNT = 12;
/** Rows that the line under the cursor may take. */
const ROOMY = 3;

/** Exactly so many rows, the cursor among them. */
export function listLines(sight: ListSight, rows: number): Line[] {
  if (rows <= 0) return [];
  const { items, at, columns, glyphs } = sight;
  const lines: Line[] = [];
  let [top, bottom] = [0, 0];
  for (const [index, item] of items.entries()) {
    if (index === 0 || items[index - 1]!.kind !== item.kind)
      lines.push(ruleLine(item.kind === 'step' ? 'Under way' : 'Next', columns, glyphs));
    const own = itemLines(sight, item, index === at);
    if (index === at) [top, bottom] = [lines.length - 1, lines.length + own.length];
    lines.push(...own);
  }
  if (items.length === 0) lines.push([segment(' Nothing is left to do.', 'good')]);
  const from = Math.max(0, Math.min(top, bottom - rows, lines.length - rows), bottom - rows);
  const shown = lines.slice(from, from + rows);
  if (from + rows < lines.length && rows > 3 && bottom < from + rows)
    shown[rows - 1] = [segment(` ${glyphs.below} ${lines.length - from - rows + 1} more`, 'dim')];
  return [...shown, ...Array.from({ length: rows - shown.length }, (): Line => [])];
}

function ruleLine(title: string, columns: number, glyphs: Glyphs): Line {
  const left: Line = [segment(`${glyphs.rule.repeat(2)} `, 'grid'), segment(`${title} `, 'strong')];
  return [...left, segment(glyphs.rule.repeat(Math.max(0, columns - lineWidth(left))), 'grid')];
}

interface Told {
  readonly when: string;
  readonly role: Role;
  readonly who: string;
  readonly text: string;
}

function itemLines(sight: ListSight, item: Item, chosen: boolean): Line[] {
  const { day, now, columns, glyphs } = sight;
  const { when, role, who, text } = item.kind === 'step' ? stepTold(sight, item.step) : callTold(sight, item.call);
  // A clock of 12 hours takes more room than one of 24.
  const column = widthOf(clockAt(day.problem, Math.floor(now))) < 6 ? COUNT + 5 : COUNT + 8;
  const room = Math.max(16, columns - column - 2);
  const all = wrap(`${who === '' ? '' : `${who}: `}${inGlyphs(text, glyphs)}`, room);
  const most = chosen ? ROOMY : 1;
  const rows =
    all.length <= most ? all : [...all.slice(0, most - 1), cut(all.slice(most - 1).join(' '), room, glyphs.ellipsis)];
  const lead = `${chosen ? glyphs.pointer : ' '}${pad(when, column, glyphs.ellipsis)}`;
  return rows.map(
    (words, row): Line => [
      segment(row === 0 ? lead : ' '.repeat(column + 1), chosen && row === 0 ? 'cursor' : role),
      segment(' '),
      segment(words, chosen ? 'strong' : 'plain'),
    ],
  );
}

/** `17:05 in 4:10`, `17:05 now`, `17:05 6 min late`. */
function countdown(sight: ListSight, minute: number): { when: string; role: Role } {
  const clock = clockAt(sight.day.problem, Math.round(minute));
  const left = minute - sight.now;
  if (left < -1) return { when: `${clock} ${shortMinutes(Math.floor(-left))} late`, role: 'warn' };
  if (left <= 0) return { when: `${clock} now`, role: 'warn' };
  if (left >= CLOSE) return { when: `${clock} in ${shortMinutes(Math.ceil(left))}`, role: 'dim' };
  const seconds = Math.ceil(left * 60);
  return { when: `${clock} in ${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`, role: 'strong' };
}

const shortMinutes = (minutes: number): string =>
  minutes < FAR ? `${minutes} min` : showMinutes(Math.round(minutes / 60) * 60);

function callTold(sight: ListSight, { at, row }: Extract<Item, { kind: 'call' }>['call']): Told {
  return { ...countdown(sight, at), who: clean(row.cook ?? ''), text: clean(row.say) };
}

/** With the thermometer's word before the plan's. */
function stepTold(sight: ListSight, { id, end, late }: Extract<Item, { kind: 'step' }>['step']): Told {
  const { day, state, now } = sight;
  const core = state.cores.find(({ step }) => step === id);
  const name = clean(stepKey(day.problem, id));
  const clock = (minute: number): string =>
    Number.isFinite(minute) ? clockAt(day.problem, Math.round(minute)) : 'perhaps never';
  const pull = core?.pull ?? null;
  const due =
    pull !== null && Number.isFinite(pull.at.likely) ? Math.max(pull.at.likely, now) : late > 0 ? now - late : end!;
  const shown = (celsius: number): string => shownCore(day.problem, id, celsius);
  const looksDone = sight.looksDone.has(id);
  const parts = [
    ...(looksDone ? ['done, by the look of it'] : []),
    ...(core ? [`about ${shown(core.now.likely)} now`] : []),
    ...(pull
      ? [
          `pull at ${shown(pull.celsius)} about ${clock(pull.at.likely)} (${clock(pull.at.low)} to ${clock(pull.at.high)})`,
        ]
      : []),
    ...(core?.atServe ? [`${shown(core.atServe.likely)} when it is cut`] : []),
  ];
  return { ...countdown(sight, due), who: '', text: [name, ...parts].join('; ') };
}
