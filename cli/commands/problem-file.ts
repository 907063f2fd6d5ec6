/** Reading a meal for a command: what the reader has to say goes to stderr. */
import { showMessage } from '../../src/problem/message.js';
import type { Problem } from '../../src/problem/problem.js';
import { readProblemFile } from '../../src/problem/read.js';
import { parseLocalTime, parseTimeOfDay } from '../../src/units/clock.js';
import { UsageError } from '../exit.js';
import type { Io } from '../io.js';

export interface Times {
  readonly serve?: string;
  readonly start?: string;
}

/** The problem, its warnings told; null when the file has mistakes, all of which are told. */
export function openProblem(io: Io, path: string, times: Times = {}): Problem | null {
  for (const [option, text] of Object.entries(times)) checkTime(option, text);
  const result = readProblemFile(path, times);
  const messages = result.ok ? result.warnings : result.messages;
  for (const message of messages) io.stderr.write(`${showMessage(message)}\n`);
  if (result.ok) return result.problem;
  const errors = result.messages.filter((message) => message.severity === 'error').length;
  if (errors > 1) io.stderr.write(`${errors} mistakes in all.\n`);
  return null;
}

function checkTime(option: string, text: string | undefined): void {
  if (text === undefined) return;
  const time = parseTimeOfDay(text);
  if (time.ok) return;
  const local = parseLocalTime(text);
  if (!local.ok) throw new UsageError(`--${option}: ${local.say}\nPerhaps: 18:30 or "2026-10-03 18:30"`);
}
