/** Questions to the heat model that were answered before: meals are read and planned anew, and most of their pieces go the same way again. */
import { type Answer, answersTo, type Question } from './roast.js';

/** The oldest are forgotten beyond so many. */
const MOST = 500;

const known = new Map<string, readonly Answer[]>();

/** As `answersTo`, which hangs on nothing but the question. */
export function answersKept(question: Question): readonly Answer[] {
  const { joint, before, heat, celsius, goal, moving, rest } = question;
  const { food, ...sizes } = joint;
  const key = JSON.stringify([food.name, sizes, before, celsius, celsius.map(heat), goal, moving, rest]);
  const found = known.get(key);
  if (found !== undefined) return found;
  const answers = answersTo(question);
  if (known.size >= MOST) known.delete(known.keys().next().value!);
  known.set(key, answers);
  return answers;
}
