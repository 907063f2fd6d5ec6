/** Reading a meal for a command: what the reader has to say goes to stderr. */
import { type Message, showMessage } from '../../src/problem/message.js';
import { isSettled, type Problem } from '../../src/problem/problem.js';
import { type ReadResult, readProblemFile } from '../../src/problem/read.js';
import type { Curves } from '../../src/safety/curve.js';
import { refusals } from '../../src/safety/refuse.js';
import { parseLocalTime, parseTimeOfDay } from '../../src/units/clock.js';
import { UsageError } from '../exit.js';
import type { Io } from '../io.js';

export interface Times {
  readonly serve?: string;
  readonly start?: string;
}

/** A meal that can be planned. */
export interface Meal {
  readonly problem: Problem;
  /** What its pieces are predicted to do, as far as the heat model was asked. */
  readonly curves: () => Curves;
}

/** The meal, its warnings told; null when the file has mistakes or asks for what is refused, all of which is told. */
export async function openProblem(io: Io, path: string, times: Times = {}): Promise<Meal | null> {
  for (const [option, text] of Object.entries(times)) checkTime(option, text);
  const { result, curves } = await withMinutes(readProblemFile(path, times));
  const messages = result.ok ? [...result.warnings, ...refused(result, curves)] : result.messages;
  for (const message of messages) io.stderr.write(`${showMessage(message)}\n`);
  const errors = messages.filter((message) => message.severity === 'error').length;
  if (result.ok && errors === 0) return { problem: result.problem, curves };
  if (errors > 1) io.stderr.write(`${errors} mistakes in all.\n`);
  return null;
}

interface Settled {
  readonly result: ReadResult<Problem>;
  readonly curves: Meal['curves'];
}

/** Asks the heat model, which takes a while to load, only where the file leaves something to it. */
async function withMinutes(read: ReadResult): Promise<Settled> {
  const none = () => new Map();
  if (!read.ok) return { result: read, curves: none };
  if (isSettled(read.problem)) return { result: { ...read, problem: read.problem }, curves: none };
  const { withHeat, expectedCurves } = await import('../../src/heat/meal.js');
  const result = withHeat(read);
  return { result, curves: () => (result.ok ? expectedCurves(result.problem) : none()) };
}

/** What could hurt whoever eats it, and is not accepted, each at the temperature that it is about. */
export function refused({ problem, spots }: ReadResult<Problem> & { ok: true }, curves: Meal['curves']): Message[] {
  // Curves only let pass what is refused without them.
  if (refusals(problem).length === 0) return [];
  return refusals(problem, curves()).map(({ rule, step, entry, say, hint }) => {
    const { step: name, cores } = spots[step]!;
    return { code: rule, severity: 'error', ...(cores[entry] ?? name), say, hint };
  });
}

function checkTime(option: string, text: string | undefined): void {
  if (text === undefined) return;
  const time = parseTimeOfDay(text);
  if (time.ok) return;
  const local = parseLocalTime(text);
  if (!local.ok) throw new UsageError(`--${option}: ${local.say}\nPerhaps: 18:30 or "2026-10-03 18:30"`);
}
