/** The plan that is shared: worked out as `plan` does, or one that was printed before. */
import { readFileSync } from 'node:fs';
import { clean } from '../../src/chart/text.js';
import { type PlanDocument, planDocument } from '../../src/plan/document.js';
import type { Problem } from '../../src/problem/problem.js';
import { readProblemFile } from '../../src/problem/read.js';
import { type EffortOptions, timesIn } from '../commands/effort-options.js';
import { openProblem } from '../commands/problem-file.js';
import { EXIT, type ExitCode, UsageError } from '../exit.js';
import type { Io } from '../io.js';
import { workOut } from '../solving/aside.js';
import { checked, noPlan, violationsIn } from '../solving/checked.js';

interface Planned {
  readonly problem: Problem;
  readonly plan: PlanDocument;
}

type Wanted = EffortOptions & { readonly plan?: string };

/** `code`: it ends here, and why has been said. */
export async function planToShare(
  io: Io,
  file: string,
  options: Wanted,
  watched: boolean,
): Promise<Planned | { readonly code: ExitCode }> {
  if (options.plan !== undefined) return planAsPrinted(io, file, options.plan, options);
  const meal = await openProblem(io, file, timesIn(options));
  if (!meal) return { code: EXIT.usage };
  const { problem } = meal;
  const { effort, seed } = options;
  const { plan, reasons } = await workOut(io, watched, { problem, effort, seed, why: false, waysOut: false });
  if (plan === null || plan.status === 'none') {
    io.stderr.write(noPlan(reasons));
    return { code: EXIT.none };
  }
  await checked(problem, plan);
  return { problem, plan };
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
