/** Pans that more dishes of one course want than there are: the commonest reason why a meal does not fit. */
import type { Problem, Step } from '../../src/problem/problem.js';

export interface PanClash {
  /** Index of the pan. */
  readonly pan: number;
  /** Index of the course. */
  readonly course: number;
  /** Indices of the dishes that cannot do without it. */
  readonly dishes: readonly number[];
  /** How many of the pan they want together. */
  readonly wanted: number;
  /** True: they keep it until they are served, all at once, so that no plan fits; false: they can take turns. */
  readonly certain: boolean;
}

/** A dish counts where every way to do one of its steps takes the pan. */
export function panClashes(problem: Problem): PanClash[] {
  return problem.courses.flatMap((_, course) =>
    problem.kitchen.pans.flatMap((pan, index): PanClash[] => {
      const dishes = problem.dishes.flatMap((dish, number) => (dish.course === course ? [number] : []));
      const wants = dishes
        .map((dish) => ({ dish, pans: mostWanted(problem, dish, index) }))
        .filter((want) => want.pans > 0);
      const wanted = wants.reduce((sum, want) => sum + want.pans, 0);
      if (wants.length < 2 || wanted <= pan.count) return [];
      const kept = wants.filter((want) => keptToTheEnd(problem, want.dish, index));
      const atOnce = kept.reduce((sum, want) => sum + want.pans, 0);
      const clash = { pan: index, course, dishes: wants.map((want) => want.dish), wanted, certain: atOnce > pan.count };
      return [clash];
    }),
  );
}

/** One or two sentences in a cook's words, with the ways out. */
export function clashWords(problem: Problem, clash: PanClash): string {
  const pan = problem.kitchen.pans[clash.pan]!;
  const names = clash.dishes.map((dish) => problem.dishes[dish]!.name);
  const listed = `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
  const there = pan.count === 1 ? 'there is one' : `there are ${pan.count}`;
  const wants = `${listed} want ${clash.wanted} of the pan "${pan.name}" and ${there}`;
  const out = 'Say `empties: yes` on the step after which the pan is free, or have another';
  return clash.certain
    ? `${wants}; all of them keep it until they are served. ${out}.`
    : `${wants}; they have to take turns. ${out}, if that is too tight.`;
}

const panOf = (step: Step, pan: number): boolean => step.options.every((option) => option.pan === pan);

function mostWanted(problem: Problem, dish: number, pan: number): number {
  const steps = problem.dishes[dish]!.steps.map((id) => problem.steps[id]!).filter((step) => panOf(step, pan));
  return Math.max(0, ...steps.map((step) => Math.min(...step.options.map((option) => option.pans))));
}

/** Some step has the pan in every way, does not empty it, and is followed by none that would take the food out of it. */
function keptToTheEnd(problem: Problem, dish: number, pan: number): boolean {
  const { steps, hold } = problem.dishes[dish]!;
  if (hold !== null) return false;
  const takesRoom = (step: Step) => step.options.some(({ pan: own, place }) => own !== null || place.kind !== 'none');
  const follows = (id: number): Step[] => {
    const next = steps
      .map((each) => problem.steps[each]!)
      .filter((step) => step.after.some((link) => link.step === id));
    return next.flatMap((step) => [step, ...follows(step.id)]);
  };
  return steps
    .map((id) => problem.steps[id]!)
    .some((step) => panOf(step, pan) && !step.empties && !follows(step.id).some(takesRoom));
}
