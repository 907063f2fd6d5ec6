/**
 * From the meal as it was read to one that can be planned: where a step is done when the core is there, the heat model says how many
 * minutes that takes at each temperature. °C, minutes.
 */
import { Notes, type Spot, type StepSpots } from '../problem/message.js';
import { isSettled, type Option, type Problem, type ProblemAsRead, type StepAsRead } from '../problem/problem.js';
import { frozen, type ReadResult } from '../problem/read.js';
import { answeredOption } from './asking.js';
import { withCushions } from './cushion.js';
import { jointOf } from './piece-joint.js';
import { wayTo } from './way.js';

export { expectedCurves } from './curves.js';

/**
 * The same with a table, or on a burner a fixed time, wherever the file leaves the minutes to the heat model; what it cannot tell is
 * among the messages. Where nothing is left to it, what was read comes back as it is.
 */
export function withHeat(read: ReadResult): ReadResult<Problem> {
  if (!read.ok) return read;
  const { problem, texts, spots } = read;
  if (isSettled(problem)) return { ...read, problem };
  const notes = new Notes();
  for (const { severity, code, say, hint, ...spot } of read.warnings) notes.add(severity, code, spot, say, hint);
  const steps = [...problem.steps];
  const done = new Set<number>();
  const settle = (id: number): void => {
    if (done.has(id)) return;
    done.add(id);
    for (const before of wayTo(steps, id)) settle(before);
    steps[id] = answeredStep({ ...problem, steps }, steps[id]!, spots[id]!, notes);
  };
  for (const { id } of problem.steps) settle(id);
  const messages = notes.sorted([...texts.keys()][0] ?? '');
  const answered = { ...problem, steps };
  if (notes.errors > 0 || !isSettled(answered)) return { ok: false, messages, texts };
  const whole = frozen<Problem>({ ...answered, steps: withCushions(answered.steps) });
  return { ok: true, problem: whole, warnings: messages, texts, spots };
}

/** The step with all that the heat model can tell of it; a way of which it cannot falls away, and with the last of them it is an error. */
function answeredStep(problem: ProblemAsRead, step: StepAsRead, spots: StepSpots, notes: Notes): StepAsRead {
  const asked = step.options.filter(({ duration }) => duration.kind === 'asked');
  if (asked.length === 0) return step;
  const spotOf = ({ entry }: { entry: number }): Spot => spots.cores[entry] ?? spots.step;
  const joint = jointOf(problem.dishes[step.dish]!);
  if ('say' in joint) {
    notes.add('error', 'piece', spots.food ?? spotOf(asked[0]!), joint.say, joint.hint);
    return step;
  }
  const answers = step.options.map((option) =>
    option.duration.kind === 'asked' ? answeredOption(problem, step, option, joint) : (option as Option),
  );
  const options = answers.filter((answer): answer is Option => !('say' in answer));
  for (const [at, answer] of answers.entries()) {
    if (!('say' in answer)) continue;
    const spot = spotOf(step.options[at]!);
    if (options.length === 0) notes.add('error', 'core', spot, answer.say, answer.hint);
    else notes.add('warning', 'core', spot, `${answer.say} The other ways remain.`, answer.hint);
  }
  return options.length === 0 ? step : { ...step, options };
}
