/** The plan that is shared: that of the day's journal, one that was printed before, or one worked out as `plan` does. */
import { existsSync, readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { clean } from '../../src/chart/text.js';
import { type PlanDocument, planDocument } from '../../src/plan/document.js';
import { clockAt, minuteAt } from '../../src/problem/hours.js';
import type { Problem } from '../../src/problem/problem.js';
import { readProblemFile } from '../../src/problem/read.js';
import { type EffortOptions, timesIn } from '../commands/effort-options.js';
import { openProblem } from '../commands/problem-file.js';
import { EXIT, type ExitCode, UsageError } from '../exit.js';
import type { Io } from '../io.js';
import { journalBeside } from '../journal/journal-file.js';
import { openDay } from '../journal/open-day.js';
import { workOut } from '../solving/aside.js';
import { checked, noPlan, violationsIn } from '../solving/checked.js';

interface Planned {
  readonly problem: Problem;
  readonly plan: PlanDocument;
}

type Wanted = EffortOptions & { readonly plan?: string; readonly journal?: string | false };

/** `code`: it ends here, and why has been said. */
export async function planToShare(
  io: Io,
  file: string,
  options: Wanted,
  watched: boolean,
): Promise<Planned | { readonly code: ExitCode }> {
  if (options.plan !== undefined) return planAsPrinted(io, file, options.plan, options);
  const journal = options.journal ?? journalBeside(file);
  if (journal !== false && (options.journal !== undefined || existsSync(journal))) {
    const inForce = await planInForce(io, file, journal, options);
    if (inForce !== null) return inForce;
  }
  const meal = await openProblem(io, file, timesIn(options));
  if (!meal) return { code: EXIT.usage };
  const { problem } = meal;
  const { effort, seed } = options;
  const { plan, reasons } = await workOut(io, watched, { problem, effort, seed, why: false, waysOut: false });
  if (plan === null || plan.status === 'none') {
    io.stderr.write(noPlan(reasons, io.stderr.columns));
    return { code: EXIT.none };
  }
  await checked(problem, plan);
  return { problem, plan };
}

/** That of the journal, which is told; null where it has none. */
async function planInForce(
  io: Io,
  file: string,
  journal: string,
  { serve, start }: Wanted,
): Promise<Planned | { readonly code: ExitCode } | null> {
  if (!existsSync(journal)) throw new UsageError(`${journal}: there is no such file.\nPerhaps: --no-journal`);
  const opened = await openDay(io, file, journal);
  if (opened === null) return { code: EXIT.usage };
  const { day, inForce } = opened.rebuilt;
  const taken = inForce.findLast(({ kind }) => kind === 'plan');
  if (day.plan === null || taken === undefined) return null;
  const said = serve !== undefined ? '--serve' : start !== undefined ? '--start' : null;
  if (said !== null)
    throw new UsageError(
      `${journal} has the plan of the day, with its times: ${said} does not go with it.\nPerhaps: --no-journal works out another`,
    );
  const at = clockAt(day.problem, Math.floor(minuteAt(day.problem, taken.when)));
  io.stderr.write(`This is the plan in ${basename(journal)}, taken at ${at}. --no-journal works out another.\n`);
  return { problem: day.problem, plan: day.plan };
}

async function planAsPrinted(
  io: Io,
  file: string,
  path: string,
  options: Wanted,
): Promise<Planned | { readonly code: ExitCode }> {
  const plan = readPlan(path);
  const again = `plan it anew: hearthtable plan ${file} --json > ${path}`;
  const read = readProblemFile(file);
  if (read.ok && read.problem.digest !== plan.problem.digest)
    throw new UsageError(`${path} is the plan of another meal, or ${file} has changed since.\nPerhaps: ${again}`);
  // It may have been asked for at another time than the file's.
  const serve = `${plan.serve.slice(0, 10)} ${plan.serve.slice(11, 16)}`;
  const meal = await openProblem(io, file, { ...timesIn(options), serve });
  if (!meal) return { code: EXIT.usage };
  const { problem } = meal;
  if (plan.status === 'none') throw new UsageError(`${path} says that no plan fits, so there is nothing to share.`);
  const broken = await violationsIn(problem, plan);
  if (broken.length === 0) return { problem, plan };
  const told = broken.map(clean).map((line) => `  ${line}\n`);
  throw new UsageError(
    `${path} does not go with ${file}:\n${told.join('')}Perhaps: say --start here too, if it was planned with it, or ${again}`,
  );
}

function readPlan(path: string): PlanDocument {
  const perhaps = 'Perhaps: hearthtable plan supper.yaml --json > plan.json';
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch (problem) {
    const missing = (problem as NodeJS.ErrnoException).code === 'ENOENT';
    throw new UsageError(`${path}: ${missing ? 'there is no such file' : 'it cannot be read'}.\n${perhaps}`);
  }
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    throw new UsageError(`${path} is no JSON.\n${perhaps}`);
  }
  const read = planDocument.safeParse(data);
  if (read.success) return read.data;
  const { path: where, message } = read.error.issues[0]!;
  throw new UsageError(
    `${path} is no plan of this program: ${where.join('.') || 'the whole'}: ${message}.\n${perhaps}`,
  );
}
