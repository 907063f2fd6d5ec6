/** Why dishes cannot be planned together, in a cook's words. */
import { stepKey } from '../../problem/hours.js';
import type { Problem } from '../../problem/problem.js';
import { showList, showMinutes } from '../../units/show.js';
import { earliestStarts } from '../paths.js';
import type { Clash } from './clash.js';
import type { Needs } from './needs.js';
import { boardSentence, burnerSentence, heatSentence, panSentences, spaceSentence } from './say-needs.js';
import { handsSentences } from './say-people.js';
import { clockWords, gapWords } from './words.js';

export function whySentences(clash: Clash, clashes: readonly Needs[]): string[] {
  const [first, ...others] = clashes;
  const said = [headline(clash, first!), ...whatClashes(first!)];
  for (const other of others) {
    const fresh = whatClashes(other).filter((say) => !said.includes(say));
    if (fresh.length > 0) said.push(`Even if that were solved: ${fresh[0]!}`, ...fresh.slice(1));
  }
  return said;
}

/** Which dishes it is, and whether that is proven. */
function headline({ part: { problem }, certain }: Clash, { families, compiled }: Needs): string {
  const names = problem.dishes.map((dish) => dish.name);
  const alone = names.length === 1 ? ', even with the kitchen to itself' : ' together';
  if (!certain) {
    return `No way was found to do ${showList(names)}${alone}; it is not proven that there is none.`;
  }
  const late = families.includes('clock')
    ? `, even served as late as ${clockWords(problem, compiled.model.horizon)}`
    : '';
  return `${showList(names)} cannot be done${alone}${late}.`;
}

const lastMinute = (problem: Problem): number =>
  problem.serve + Math.max(0, ...problem.courses.map((course) => course.at));

function whatClashes(needs: Needs): string[] {
  const said = [
    ...heatSentence(needs),
    ...spaceSentence(needs),
    ...panSentences(needs),
    ...burnerSentence(needs),
    ...boardSentence(needs),
    ...handsSentences(needs),
    ...gapSentences(needs),
    ...clockSentence(needs),
  ];
  return said.length > 0 ? said : ['What it is that clashes could not be narrowed down further.'];
}

/** `Duck/plate must begin at most 10 min after Duck/roast and at most 4 min after Popovers/bake.` */
function gapSentences({ compiled: { problem, model }, needs }: Needs): string[] {
  const lags = needs.filter((need) => need.family === 'gap').map((need) => model.lags[need.index]!);
  const steps = [...new Set(lags.map((lag) => lag.to))];
  return steps.map((to) => {
    const told = lags
      .filter((lag) => lag.to === to)
      .map((lag) => `${gapWords(lag.low, lag.high)} ${stepKey(problem, lag.from)}`);
    return `${stepKey(problem, to)} must begin ${showList(told)}.`;
  });
}

/** How soon everything could be ready if nothing but order, gaps and lengths counted. */
function clockSentence({ compiled: { problem, model }, families }: Needs): string[] {
  if (!families.includes('clock')) return [];
  const from = clockWords(problem, 0);
  const to = clockWords(problem, lastMinute(problem));
  const starts = earliestStarts({ ...model, horizon: Number.MAX_SAFE_INTEGER });
  if (starts === null) return [];
  let last = 0;
  for (const { id, shortest } of model.activities)
    if (starts[id]! + shortest > starts[last]! + model.activities[last]!.shortest) last = id;
  const needed = starts[last]! + model.activities[last]!.shortest;
  if (needed <= lastMinute(problem))
    return [`The day begins at ${from} and serving is asked for ${to}; that is not enough.`];
  return [
    `From the start at ${from} to the end of ${stepKey(problem, last)} it takes at least ${showMinutes(needed)}, and serving is asked for ${to}.`,
  ];
}
