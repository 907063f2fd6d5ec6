/** `hearthtable check FILE`: read, fit and caution, without solving. */
import type { Command } from 'commander';
import { ASCII, UNICODE } from '../../src/chart/glyphs.js';
import { checkLines } from '../check/check-lines.js';
import { EXIT, type ExitCode } from '../exit.js';
import { helpText } from '../help-text.js';
import type { Finish, Io } from '../io.js';
import { capabilityOf } from '../terminal/capability.js';
import { printed } from '../terminal/paint.js';
import { addLooks, type LookOptions, wishesOf } from './looks.js';
import { openProblem } from './problem-file.js';

export function addCheck(program: Command, io: Io, finish: Finish): void {
  const command = program
    .command('check')
    .description('read a meal and say what is wrong, what fits and what to mind')
    .argument('<file>', 'the meal, as YAML or JSON');
  addLooks(command)
    .addHelpText(
      'after',
      helpText(
        io,
        `
Nothing is planned: this tells mistakes, what stands beside what on each rack and grate, pans that clash, and
cautions. Those that hang on clock times and boards come with the plan.

Examples:
  hearthtable check supper.yaml
  hearthtable check supper.yaml --ascii --width 60`,
      ),
    )
    .action(async (file: string, options: LookOptions) => finish(await runCheck(io, file, options)));
}

async function runCheck(io: Io, file: string, options: LookOptions): Promise<ExitCode> {
  const meal = await openProblem(io, file);
  if (!meal) return EXIT.usage;
  const able = capabilityOf(io, wishesOf(options));
  const { lines, fits } = checkLines(meal, able.width, able.unicode ? UNICODE : ASCII);
  io.stdout.write(printed(lines, able.colors));
  return fits ? EXIT.plan : EXIT.none;
}
