/** What is told about the step under the cursor: where, in what, whose hands, and why there. */

import { coreWords, latestWords } from '../../src/chart/cores.js';
import { type Glyphs, inGlyphs } from '../../src/chart/glyphs.js';
import { type Line, lineWidth, type Role, segment } from '../../src/chart/line.js';
import { heldOf, type Reason, reasonsOf } from '../../src/chart/reasons.js';
import { clean, cut, pad, wrap } from '../../src/chart/text.js';
import type { View, ViewStep } from '../../src/chart/view.js';
import { showHeat } from '../../src/problem/degrees.js';
import { clockAt } from '../../src/problem/hours.js';
import { showLength, showMinutes } from '../../src/units/show.js';

const LABEL = 12;
/** Rows from which a fact may take two. */
const ROOMY = 9;

/** A rule that carries the step's name and its times: `── A roast · Brined pork loin ── 16:47–18:02 ──`. */
export function detailTitle(view: View, index: number, width: number, glyphs: Glyphs): Line {
  const step = view.steps[index]!;
  const dish = view.dishes[step.dish]!;
  const { problem } = view;
  const times = `${clockAt(problem, step.from)}${glyphs.range}${clockAt(problem, step.to)}, ${showMinutes(step.to - step.from)}`;
  const right = ` ${times} ${glyphs.rule.repeat(2)}`;
  const room = width - 3 - right.length - 3;
  const name = cut(`${dish.letter} ${step.name} ${glyphs.dot} ${dish.name}`, room, glyphs.ellipsis);
  const left: Line = [segment(`${glyphs.rule.repeat(2)} `, 'grid'), segment(name, 'strong'), segment(' ')];
  const fill = width - lineWidth(left) - right.length;
  return [
    ...left,
    segment(glyphs.rule.repeat(Math.max(0, fill)), 'grid'),
    segment(right.slice(0, -2), 'strong'),
    segment(right.slice(-2), 'grid'),
  ];
}

/** At most so many rows; the first say where and who, the rest why there, the tightest reasons first. */
export function detailLines(view: View, index: number, width: number, rows: number, glyphs: Glyphs): Line[] {
  const step = view.steps[index]!;
  const held = heldOf(view, index);
  const { waitsFor, waitsForIt } = reasonsOf(view, index);
  const [before, behind] = held === null ? [waitsFor, waitsForIt] : [held.sooner, held.later];
  const [first, second] = held === null ? ['waits for', 'awaited by'] : ['not sooner', 'not later'];
  const each = rows >= ROOMY ? 2 : 1;
  const facts = [
    ...entry('where', whereWords(view, step), width, each, glyphs, 'heat'),
    ...entry('in', panWords(step), width, each, glyphs),
    ...entry('core', coreEntry(view, step), width, rows >= ROOMY ? 3 : 1, glyphs, 'heat'),
    ...entry('hands', handWords(view, step, glyphs), width, each, glyphs),
  ];
  const left = Math.max(2, rows - facts.length);
  const after = Math.max(left - Math.max(1, behind.length), Math.min(before.length, Math.ceil(left / 2)));
  return [
    ...facts,
    ...reasonLines(first!, before, after, width, glyphs),
    ...reasonLines(second!, behind, left - Math.min(after, Math.max(1, before.length)), width, glyphs),
  ].slice(0, rows);
}

/** A label and its text on at most so many lines. */
function entry(label: string, text: string, width: number, most: number, glyphs: Glyphs, role: Role = 'plain'): Line[] {
  if (text === '') return [];
  const room = width - LABEL;
  const lines = wrap(inGlyphs(text, glyphs), room);
  const kept =
    lines.length > most
      ? [...lines.slice(0, most - 1), cut(lines.slice(most - 1).join(' '), room, glyphs.ellipsis)]
      : lines;
  return kept.map((line, index) => [
    segment(` ${pad(index === 0 ? label : '', LABEL - 1, '')}`, 'dim'),
    segment(line, role),
  ]);
}

function reasonLines(label: string, reasons: readonly Reason[], rows: number, width: number, glyphs: Glyphs): Line[] {
  if (reasons.length === 0) return rows > 0 ? entry(label, 'nothing', width, 1, glyphs) : [];
  return reasons.slice(0, rows).map((reason, index) => {
    const more = index === rows - 1 && reasons.length > rows ? ` (${reasons.length - rows} more)` : '';
    const mark = reason.tight ? glyphs.tight : glyphs.loose;
    const told = cut(inGlyphs(`${reason.say}${more}`, glyphs), width - LABEL - 2, glyphs.ellipsis);
    return [
      segment(` ${pad(index === 0 ? label : '', LABEL - 1, '')}`, 'dim'),
      segment(`${mark} `, reason.tight ? 'warn' : 'dim'),
      segment(told),
    ];
  });
}

function whereWords(view: View, step: ViewStep): string {
  const appliance = step.appliance === null ? undefined : view.problem.kitchen.appliances[step.appliance];
  const places = step.places.map(clean).join(' + ');
  if (!appliance) return places === '' ? 'aside, it takes no place' : places;
  const mode = appliance.modes.find((each) => each.name === step.row.mode);
  const heat = step.row.celsius === null ? [] : [showHeat(view.problem, step.row.celsius, appliance.dial.unit)];
  const manner = mode ? [mode.name, ...(mode.lid ? [`lid ${mode.lid}`] : [])] : [];
  return [`${clean(appliance.name)}, ${places}`, ...heat, ...manner].join(', ');
}

function coreEntry(view: View, step: ViewStep): string {
  return [coreWords(view, step), latestWords(view, step)].filter((part) => part !== '').join('; ');
}

function panWords(step: ViewStep): string {
  const spots = step.row.spot === null ? [] : [step.row.spot].flat();
  const pan = step.row.pan === null ? '' : clean(step.row.pan);
  const count = Array.isArray(step.row.place) ? step.row.place.length : 1;
  const where = spots.map(
    (spot) =>
      `${showLength(spot.x)} from the left, ${showLength(spot.y)} from the front${spot.turned ? ', turned' : ''}`,
  );
  const name = pan === '' ? (where.length > 0 ? 'no pan' : '') : count > 1 ? `${pan} × ${count}` : pan;
  return [name, where.join('; ')].filter((part) => part !== '').join(', ');
}

function handWords(view: View, step: ViewStep, glyphs: Glyphs): string {
  if (step.hands.length === 0) return 'none';
  const cooks = [...new Set(step.hands.map((hand) => hand.cook))];
  return cooks
    .map((cook) => {
      const own = step.hands.filter((hand) => hand.cook === cook);
      const times = own.map((hand) => {
        const from = clockAt(view.problem, hand.from);
        return hand.to - hand.from <= 1 ? from : `${from}${glyphs.range}${clockAt(view.problem, hand.to)}`;
      });
      return `${view.cookNames[cook]} ${times.join(', ')}`;
    })
    .join('; ');
}
