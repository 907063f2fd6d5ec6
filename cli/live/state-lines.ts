/** Where things stand, as lines to print. */
import { dayAt } from '../../src/chart/clock.js';
import { type Glyphs, inGlyphs } from '../../src/chart/glyphs.js';
import { type Line, plainLine, type Role, segment } from '../../src/chart/line.js';
import { clean, cut, pad, widthOf, wrap } from '../../src/chart/text.js';
import type { Day } from '../../src/live/journal/day.js';
import { showLoss } from '../../src/live/journal/names.js';
import type { CoreNow } from '../../src/live/readings/core-now.js';
import type { ApplianceHeat } from '../../src/live/state/heat-now.js';
import type { State, StepState } from '../../src/live/state/state.js';
import { showCoreHeat, showHeat } from '../../src/problem/degrees.js';
import { clockAt, stepKey } from '../../src/problem/hours.js';
import { showMinutes } from '../../src/units/show.js';

/** Calls told at most. */
const CALLS = 8;

export function stateLines(day: Day, state: State, width: number, glyphs: Glyphs): Line[] {
  const { problem } = day;
  const clock = (minute: number): string => clockAt(problem, Math.round(minute));
  const count = (standing: StepState['standing']): number =>
    state.steps.filter((one) => one.standing === standing).length;
  const head: Line[] = [
    plainLine(cut(clean(problem.title), width, glyphs.ellipsis), 'title'),
    plainLine(`${dayAt(problem, state.now)}, ${clock(state.now)}; serve ${clock(state.serve)}${toServe(state)}`),
    plainLine(`${count('done')} of ${state.steps.length} steps done, ${count('under way')} under way`),
  ];
  const list = (title: string, rows: readonly (readonly [string, string, Role?])[]): Line[] => {
    if (rows.length === 0) return [];
    const column = Math.min(34, Math.max(...rows.map(([name]) => widthOf(name))));
    const lines = rows.flatMap(([name, words, role]) => {
      const told = wrap(inGlyphs(words, glyphs), Math.max(16, width - column - 4));
      return told.map(
        (text, at): Line => [
          segment(`  ${pad(at === 0 ? name : '', column, glyphs.ellipsis)}  `),
          segment(text, role ?? 'plain'),
        ],
      );
    });
    return [[], plainLine(title, 'strong'), ...lines];
  };
  const named = ({ id }: StepState): string => clean(stepKey(problem, id));
  const underWay = state.steps.filter(({ standing }) => standing === 'under way');
  const late = state.steps.filter(({ standing, late: by }) => by > 0 && (standing === 'ready' || standing === 'later'));
  return [
    ...head,
    ...list(
      'Under way',
      underWay.map((step) => [named(step), underWayWords(step, state.now, clock), step.late > 0 ? 'warn' : 'plain']),
    ),
    ...list(
      'Late to begin',
      late.map((step) => [named(step), `${showMinutes(step.late)} late (planned ${clock(step.start!)})`, 'warn']),
    ),
    ...list(
      'Heat',
      state.heats.map((heat) => [
        clean(problem.kitchen.appliances[heat.appliance]!.name),
        heatWords(day, heat, clock),
        'plain',
      ]),
    ),
    ...list(
      'Pieces',
      state.cores.map((core) => [clean(problem.dishes[core.dish]!.name), coreWords(day, core, clock), 'plain']),
    ),
    ...list(
      'Next calls',
      state.calls
        .slice(0, CALLS)
        .map(({ at, row }) => [
          `${clock(at)} ${clean(row.cook ?? 'anyone')}`,
          clean(row.say),
          at < state.now ? 'warn' : 'plain',
        ]),
    ),
    ...list(
      'Lost',
      day.losses.map(({ at, what }) => [
        clean(showLoss(problem, what)),
        `since ${clock(at)}${'count' in what && what.count > 1 ? `, ${what.count} of them` : ''}`,
      ]),
    ),
    ...list(
      'Gone',
      [...day.gone].map(([cook, since]) => [clean(problem.cooks[cook]!.name), `since ${clock(since)}`]),
    ),
    ...list(
      'Dropped',
      [...day.dropped].map((dish) => [clean(problem.dishes[dish]!.name), 'not served today']),
    ),
    ...list(
      'Notes',
      day.remarks.map(({ at, who, text }) => [`${clock(at)} ${clean(who ?? '')}`, clean(text)]),
    ),
  ];
}

function toServe({ now, serve }: State): string {
  const left = serve - now;
  return left >= 0 ? ` (in ${showMinutes(left)})` : ` (${showMinutes(-left)} ago)`;
}

function underWayWords(step: StepState, now: number, clock: (minute: number) => string): string {
  const since = `since ${clock(step.start!)}`;
  if (step.late > 0) return `${since}; should have ended ${showMinutes(step.late)} ago`;
  return `${since}; until ${clock(step.end!)} (${showMinutes(step.end! - now)} more)`;
}

function heatWords({ problem }: Day, heat: ApplianceHeat, clock: (minute: number) => string): string {
  const { unit } = problem.kitchen.appliances[heat.appliance]!.dial;
  const shown = (celsius: number): string => showHeat(problem, Math.round(celsius), unit);
  if (heat.lost) return `lost (about ${shown(heat.celsius)})`;
  if (heat.set === null)
    return heat.celsius > problem.kitchen.room + 5 ? `off, still about ${shown(heat.celsius)}` : 'off';
  if (heat.there === null) return `${shown(heat.set)}${heat.mode === null ? '' : `, ${heat.mode}`}`;
  return `about ${shown(heat.celsius)}, set to ${shown(heat.set)}: there at ${clock(heat.there)}`;
}

/** `about 41 °C (39 to 43); pull at 55 °C about 18:14 (18:08 to 18:21), rises to 63 °C; by 2 readings, …`. */
export function coreWords({ problem }: Day, core: CoreNow, clock: (minute: number) => string): string {
  const { now, pull, atServe, readings } = core;
  const heat = (celsius: number): string => shownCore(problem, core.step, celsius);
  const at = (minute: number): string => (Number.isFinite(minute) ? clock(minute) : 'perhaps never');
  const goal =
    pull === null
      ? atServe && `${heat(atServe.likely)} when it is cut`
      : `pull at ${heat(pull.celsius)} about ${at(pull.at.likely)} (${at(pull.at.low)} to ${at(pull.at.high)})${pull.peak > pull.celsius + 0.5 ? `, rises to ${heat(pull.peak)}` : ''}`;
  const pace =
    readings === 0
      ? 'nothing read yet'
      : `by ${readings} ${readings === 1 ? 'reading' : 'readings'} ${paceWords(core.pace)}`.trim();
  return [`about ${heat(now.likely)} now`, ...(goal ? [goal] : []), pace].join('; ');
}

export function shownCore(problem: Day['problem'], step: number, celsius: number): string {
  const heated = problem.steps[step]!.options.find(({ place }) => place.kind === 'heated')?.place;
  const dial = heated?.kind === 'heated' ? problem.kitchen.appliances[heated.appliance]!.dial.unit : undefined;
  return showCoreHeat(problem, celsius, dial);
}

/** How sure it is that a piece heats faster or more slowly than was thought. */
function paceWords(pace: CoreNow['pace']): string {
  if (pace === null) return '';
  const { low, likely, high } = pace;
  const times = `${likely.toFixed(2)} times as fast as was thought (${low.toFixed(2)} to ${high.toFixed(2)})`;
  if (low > 1) return `very likely it heats faster: ${times}`;
  if (high < 1) return `very likely it heats more slowly: ${times}`;
  return `it heats about as was thought: ${times}`;
}
