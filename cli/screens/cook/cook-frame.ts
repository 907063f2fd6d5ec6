/** One frame of the cook's screen as lines: as many as the window has rows, none wider than its columns. */
import { chartOf } from '../../../src/chart/chart.js';
import { dayAt } from '../../../src/chart/clock.js';
import { type Glyphs, inGlyphs } from '../../../src/chart/glyphs.js';
import { type Line, lineWidth, plainLine, segment } from '../../../src/chart/line.js';
import { cautionLines } from '../../../src/chart/report.js';
import { evenScale } from '../../../src/chart/scale.js';
import { clean, cut, widthOf, wrap } from '../../../src/chart/text.js';
import type { View } from '../../../src/chart/view.js';
import type { Day } from '../../../src/live/journal/day.js';
import type { Entry } from '../../../src/live/journal/entries.js';
import { entryWords } from '../../../src/live/journal/words.js';
import type { State } from '../../../src/live/state/state.js';
import { clockAt } from '../../../src/problem/hours.js';
import { showList, showMinutes } from '../../../src/units/show.js';
import type { Answer } from '../../cooking/new-plan.js';
import { fitted, hint, hintsWithin, keyLines, listed, type Size, spread } from '../parts.js';
import { changeLines } from './change-lines.js';
import { cookKeyTable } from './cook-keys.js';
import type { CookState } from './cook-state.js';
import { type Item, type ListSight, listLines } from './list-lines.js';

/** All that a frame is made of. */
export interface Sight {
  readonly day: Day;
  /** Of the plan in force. */
  readonly view: View;
  readonly state: State;
  readonly items: readonly Item[];
  /** Which of them the cursor is on. */
  readonly at: number;
  /** The present minute, with its fraction. */
  readonly now: number;
  /** How many times as fast as the real clock. */
  readonly speed: number;
  readonly entries: readonly Entry[];
  /** Numbers of the entries that count. */
  readonly counting: ReadonlySet<number>;
  /** Steps under way that are done by the look of them, in a rehearsal. */
  readonly looksDone: ReadonlySet<number>;
  /** A new plan that is offered, or null; whether one is looked for, and whether it would be taken at once. */
  readonly proposal: Answer | null;
  readonly thinking: boolean;
  readonly atOnce: boolean;
  /** Why nothing can be noted, or null. */
  readonly closed: string | null;
}

/** Minutes before now that the chart shows, and those that a column stands for. */
const PAST = 20;
const COLUMN = 2;
/** The chart's window moves on by so many minutes at once. */
const STEP = 15;
/** Rows from which the chart has more than half of them. */
const ROOMY = 24;
const SMALLEST: Size = { columns: 60, rows: 18 };

export function cookFrame(sight: Sight, screen: CookState, size: Size, glyphs: Glyphs): Line[] {
  const { columns, rows } = size;
  const head = headLines(sight, columns, glyphs);
  const foot = footLines(sight, screen, columns, glyphs);
  const room = rows - head.length - foot.length;
  return fitted([...head, ...body(sight, screen, { columns, rows: room }, size, glyphs), ...foot], size);
}

function body(sight: Sight, screen: CookState, size: Size, whole: Size, glyphs: Glyphs): Line[] {
  const { columns, rows } = size;
  if (screen.pane === 'help') return listed(helpLines(glyphs), screen.scroll, rows, glyphs);
  if (screen.pane === 'journal') return listed(journalLines(sight, columns, glyphs), screen.scroll, rows, glyphs);
  if (screen.pane === 'cautions') {
    const cautions = cautionLines(sight.view, columns, glyphs).slice(1);
    const none = [plainLine(' The plan brings no cautions.', 'dim')];
    return listed(cautions.length > 0 ? cautions : none, screen.scroll, rows, glyphs);
  }
  if (screen.pane === 'changes')
    return listed(changeLines(sight.day.problem, sight.proposal, columns, glyphs), screen.scroll, rows, glyphs);
  const list: ListSight = { ...sight, columns, glyphs };
  if (whole.columns < SMALLEST.columns || whole.rows < SMALLEST.rows) return listLines(list, rows);
  const chart = chartPart(sight, screen, columns, rows, glyphs);
  return [...chart, ...listLines(list, rows - chart.length)];
}

function headLines({ day, view, state, now, speed, thinking, atOnce }: Sight, columns: number, glyphs: Glyphs): Line[] {
  const { problem } = day;
  const minute = Math.floor(now);
  const clock = ` ${dayAt(problem, minute)}, ${clockAt(problem, minute)} `;
  const title = cut(clean(problem.title), columns - widthOf(clock) - 3, glyphs.ellipsis);
  const left = state.serve - minute;
  const serve = `serve ${clockAt(problem, state.serve)}, ${left >= 0 ? `in ${showMinutes(left)}` : `${showMinutes(-left)} ago`}`;
  const { length } = view.plan.cautions;
  const cautions = length === 0 ? '' : `  ${glyphs.caution} ${length} ${length === 1 ? 'caution' : 'cautions'} (c)`;
  const done = state.steps.filter(({ standing }) => standing === 'done').length;
  const planning = thinking ? 'planning; ' : atOnce ? 'new plans at once; ' : '';
  const rehearsed = speed === 1 ? '' : `rehearsal ${speed}${glyphs.times}; `;
  const start: Line = [segment(` ${inGlyphs(serve, glyphs)}`, 'strong'), segment(cautions, 'warn')];
  const count = `${done} of ${state.steps.length}`;
  const ends = [
    `${rehearsed}${planning}${count} steps done `,
    `${planning}${count} steps done `,
    `${planning}${count} `,
  ];
  const end = ends.find((text) => lineWidth(start) + widthOf(text) + 2 <= columns) ?? '';
  return [
    spread([segment(` ${title}`, 'title')], [segment(clock, 'landing')], columns),
    spread(start, [segment(end, 'dim')], columns),
  ];
}

/** The line that is written, or what was said last; then the keys. */
function footLines({ closed, proposal }: Sight, screen: CookState, columns: number, glyphs: Glyphs): Line[] {
  const { line, said, ago, pane } = screen;
  const back = hint('Esc', 'back');
  const leave = hint('q', 'leave');
  if (line !== null) {
    const room = columns - 4;
    const shown = widthOf(line) > room ? line.slice(-room) : line;
    return [
      [segment(' : ', 'key'), segment(clean(shown)), segment(' ', 'cursor')],
      [...hint('Enter', 'note it'), ...hint('Esc', 'forget it')],
    ];
  }
  if (pane === 'changes' && proposal?.plan)
    return [[...hint('y', 'take it'), ...hint('n', 'keep the old plan'), ...back]];
  if (pane !== 'day') return [[...hint(`${glyphs.up}${glyphs.down}`, 'scroll'), ...back, ...leave]];
  const message = said ?? (closed === null ? null : { text: closed, bad: true });
  const told: Line[] =
    ago !== null
      ? [
          plainLine(
            ` ${ago === 0 ? 'Now' : `${showMinutes(ago)} ago`}: Space ticks it off, Esc forgets the minutes`,
            'strong',
          ),
        ]
      : message === null
        ? []
        : messageLines(message.text, columns, glyphs).map((text) =>
            plainLine(` ${text}`, message.bad ? 'warn' : 'good'),
          );
  const hints = [
    hint('j', 'journal'),
    hint('m', 'note'),
    hint('s', 'serve'),
    hint('x', 'lost'),
    hint(`${glyphs.up}${glyphs.down}`, 'choose'),
    hint('3 Space', '3 min ago'),
    hint('r', 'reading'),
    hint('u', 'undo'),
    hint('Space', 'tick off'),
    hint('?', 'help'),
    leave,
  ];
  return [...offerLines(proposal, columns, glyphs), ...told, hintsWithin(hints, columns)];
}

/** A new plan in a few words, and the keys for it. */
function offerLines(proposal: Answer | null, columns: number, glyphs: Glyphs): Line[] {
  if (proposal === null) return [];
  const { plan, say, leftOut } = proposal;
  const without = leftOut.length === 0 ? '' : ` without ${showList(leftOut)}`;
  const role = leftOut.length > 0 ? 'warn' : 'plain';
  const lines = messageLines(`${plan ? `New plan${without}: ` : ''}${say.join(' ')}`, columns - 2, glyphs);
  const told = lines.map(
    (text, row): Line => [segment(row === 0 ? ` ${glyphs.caution} ` : '   ', 'warn'), segment(text, role)],
  );
  const keys = plan ? [...hint('y', 'take it'), ...hint('n', 'keep the old plan')] : hint('n', 'I have read it');
  return [...told, [segment('  '), ...keys, ...hint('v', 'what changes')]];
}

/** Two rows at most. */
function messageLines(text: string, columns: number, glyphs: Glyphs): string[] {
  const lines = wrap(inGlyphs(clean(text), glyphs), columns - 2);
  return lines.length <= 2 ? lines : [lines[0]!, cut(lines.slice(1).join(' '), columns - 2, glyphs.ellipsis)];
}

/** What is on around now: lanes with nothing in sight are left out, and those with what is nearest to now stay longest. */
function chartPart({ view, now }: Sight, screen: CookState, columns: number, rows: number, glyphs: Glyphs): Line[] {
  const from = Math.floor((now - PAST) / STEP) * STEP;
  let stretch = { from, to: from };
  const chart = chartOf(view, {
    look: screen.look,
    width: columns,
    glyphs,
    cursor: null,
    now,
    scale: (width) => {
      stretch = { from, to: from + width * COLUMN };
      return evenScale(view.problem, stretch, width);
    },
  });
  const away = (bar: { from: number; to: number }): number => Math.max(0, bar.from - now, now - bar.to);
  const seen = chart.lanes.flatMap((lane, at) => {
    const runs = lane.heat === null ? [] : view.runs.filter(({ appliance }) => appliance === lane.heat);
    const bars = [...lane.bars.filter(({ texture }) => texture !== 'lit'), ...runs].filter(
      (bar) => bar.to > stretch.from && bar.from < stretch.to,
    );
    return bars.length === 0 ? [] : [{ lane, at, away: Math.min(...bars.map(away)) }];
  });
  const most = Math.max(3, Math.floor(rows * (rows < ROOMY ? 0.45 : 0.55)) - chart.axis.length);
  const kept = [...seen].sort((a, b) => a.away - b.away || a.at - b.at).slice(0, most);
  return [...chart.axis, ...kept.sort((a, b) => a.at - b.at).map(({ lane }) => chart.draw(lane))];
}

function journalLines({ day, entries, counting }: Sight, columns: number, glyphs: Glyphs): Line[] {
  return entries.toReversed().flatMap((entry): Line[] => {
    const back = counting.has(entry.seq) || entry.kind === 'undo' ? '' : ' (taken back)';
    const told = wrap(inGlyphs(`${clean(entryWords(day.problem, entry))}${back}`, glyphs), columns - 8);
    return told.map(
      (text, row): Line => [
        segment(row === 0 ? `${String(entry.seq).padStart(5)}  ` : '       ', 'dim'),
        segment(text, back === '' ? 'plain' : 'dim'),
      ],
    );
  });
}

function helpLines(glyphs: Glyphs): Line[] {
  return keyLines(cookKeyTable(glyphs), [
    [glyphs.now, 'now'],
    [glyphs.fill.heat.repeat(2), 'on the heat'],
    [glyphs.fill.hold.repeat(2), 'held warm'],
    [glyphs.fill.rest.repeat(2), 'rest'],
    [glyphs.fill.chill.repeat(2), 'chill'],
    [glyphs.fill.hands.repeat(2), 'work of the hands alone'],
    [glyphs.landed, 'a course is served'],
  ]);
}
