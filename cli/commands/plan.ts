/** `hearthtable plan FILE`: solve and show. */
import type { Command } from 'commander';
import { ASCII, UNICODE } from '../../src/chart/glyphs.js';
import { reportLines } from '../../src/chart/report.js';
import { viewOf } from '../../src/chart/view.js';
import type { PlanDocument } from '../../src/plan/document.js';
import { planOfNone } from '../../src/plan/none.js';
import type { Problem } from '../../src/problem/problem.js';
import { EXIT, type ExitCode } from '../exit.js';
import { helpText } from '../help-text.js';
import type { Finish, Io } from '../io.js';
import { workOut } from '../solving/aside.js';
import { checked, noPlan } from '../solving/checked.js';
import { type Capability, capabilityOf } from '../terminal/capability.js';
import { printed } from '../terminal/paint.js';
import { addEffort, addTimes, type EffortOptions, timesIn } from './effort-options.js';
import { addLooks, type LookOptions, wishesOf } from './looks.js';
import { openProblem } from './problem-file.js';
import { sureOption } from './sure-option.js';

interface PlanOptions extends LookOptions, EffortOptions {
  readonly json?: true;
  readonly text?: true;
  readonly why?: true;
  readonly waysOut?: true;
  readonly sure?: number;
}

export function addPlan(program: Command, io: Io, finish: Finish): void {
  const command = program
    .command('plan')
    .description('work out a plan and show it')
    .argument('<file>', 'the meal, as YAML or JSON')
    .option('--json', 'print the plan document')
    .option('--text', 'print text, even on a terminal');
  addTimes(command)
    .option('--why', 'also say what holds each step where it is, and what more of each thing would be worth')
    .option('--ways-out', 'also say which changes of the meal or kitchen would better the plan, each one planned');
  addEffort(command).addOption(sureOption());
  addLooks(command)
    .addHelpText(
      'after',
      helpText(
        io,
        `
On a terminal the plan opens as a chart to move in (? for its keys); elsewhere it is printed.

Examples:
  hearthtable plan supper.yaml
  hearthtable plan supper.yaml --serve 19:15 --text
  hearthtable plan supper.yaml --why --ways-out --text
  hearthtable plan supper.yaml --sure 90%
  hearthtable plan supper.yaml --effort deep --json > supper-plan.json
  hearthtable plan supper.yaml --ascii --width 120 | lpr`,
      ),
    )
    .action(async (file: string, options: PlanOptions) => finish(await runPlan(io, file, options)));
}

async function runPlan(io: Io, file: string, options: PlanOptions): Promise<ExitCode> {
  const meal = await openProblem(io, file, timesIn(options));
  if (!meal) return EXIT.usage;
  const { problem } = meal;
  const able = capabilityOf(io, { ...wishesOf(options), ...(options.text && { text: true }) });
  const { plan, reasons } = await workOut(io, able.progress, {
    problem,
    effort: options.effort,
    seed: options.seed,
    // On the screen each step tells why it is there.
    why: options.why === true || (able.screen && !options.json),
    waysOut: options.waysOut === true,
    ...(options.sure !== undefined && { sure: options.sure }),
  });
  if (plan === null || plan.status === 'none') {
    if (options.json) {
      const { effort: level, seed } = options;
      const none = plan ?? planOfNone(problem, { level, seed, rounds: 0, stopped: false });
      const because = reasons.filter(({ kind }) => kind === 'why').map(({ say }) => say);
      printJson(io, { ...none, because, waysOut: reasons.flatMap(({ way }) => (way === undefined ? [] : [way])) });
    }
    io.stderr.write(noPlan(reasons, io.stderr.columns));
    return EXIT.none;
  }
  await checked(problem, plan);
  if (options.json) printJson(io, plan);
  else await show(io, problem, plan, able);
  return EXIT.plan;
}

const printJson = (io: Io, plan: PlanDocument) => io.stdout.write(`${JSON.stringify(plan, null, 2)}\n`);

async function show(io: Io, problem: Problem, plan: PlanDocument, able: Capability): Promise<void> {
  const view = viewOf(problem, plan);
  const glyphs = able.unicode ? UNICODE : ASCII;
  if (!able.screen) {
    io.stdout.write(printed(reportLines(view, able.width, glyphs), able.colors));
    return;
  }
  // Ink and React take a while to load, and text needs neither.
  const { showPlan } = await import('../screens/show-plan.js');
  await showPlan(view, glyphs, { colors: able.colors, weights: true });
}
