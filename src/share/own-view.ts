/** The part of a plan that some cooks have their hands in, as a view of its own: for a chart of theirs alone. */
import type { View, ViewStep } from '../chart/view.js';
import type { Shared, Who } from './content.js';

/** What a chart of this timeline shows: for all, and for a cook who is alone, everything; else what is theirs. */
export const chartedView = ({ view, who }: Shared): View =>
  who === null || view.problem.cooks.length === 1 ? view : ownView(view, who);

/** Their steps with their own hands, the heats around those, and for `anyone` the steps that want nobody's and
 * all heats, which anyone sets. */
function ownView(view: View, { cooks, anyone }: Who): View {
  const { problem } = view;
  const chosen = problem.cooks.flatMap(({ name }, index) => (cooks.includes(name) ? [index] : []));
  const own = view.steps.flatMap((step): Omit<ViewStep, 'index'>[] => {
    const hands = step.hands.flatMap((hand) => {
      const cook = chosen.indexOf(hand.cook);
      return cook < 0 ? [] : [{ ...hand, cook }];
    });
    return hands.length > 0 || (anyone && step.hands.length === 0) ? [{ ...step, hands }] : [];
  });
  const steps = own.map((step, index): ViewStep => ({ ...step, index }));
  const runs = view.runs.filter(
    ({ appliance, from, to }) =>
      anyone || steps.some((step) => step.appliance === appliance && step.from < to && step.to > from),
  );
  const starts = [...steps.map(({ from }) => from), ...runs.map(({ ready }) => ready)];
  return {
    ...view,
    steps,
    runs,
    byClock: steps.map(({ index }) => index).sort((a, b) => steps[a]!.from - steps[b]!.from || a - b),
    cookNames: chosen.map((cook) => view.cookNames[cook]!),
    first: starts.length === 0 ? problem.serve : Math.min(...starts),
  };
}
