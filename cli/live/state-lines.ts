/** Where things stand, as lines to print. */
import { dayAt } from '../../src/chart/clock.js';
import { type Glyphs, inGlyphs } from '../../src/chart/glyphs.js';
import { type Line, plainLine, type Role, segment } from '../../src/chart/line.js';
import { clean, cut, pad, widthOf, wrap } from '../../src/chart/text.js';
import type { Day } from '../../src/live/journal/day.js';
import { showLoss } from '../../src/live/journal/names.js';
import type { State, StepState } from '../../src/live/state/state.js';
import { coreWords, heatWords, toServe, underWayWords } from '../../src/live/state/words.js';
import { clockAt, stepKey } from '../../src/problem/hours.js';
import { showMinutes } from '../../src/units/show.js';

export { shownCore } from '../../src/live/state/words.js';

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
    ...list(
      'Cautions',
      (day.plan?.cautions ?? []).map(({ dish, say, source }) => [
        `${glyphs.caution} ${clean(dish ?? 'all')}`,
        `${clean(say)} (${clean(source)})`,
      ]),
    ),
  ];
}
