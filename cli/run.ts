/** Builds the command line and runs one command of it. */
import { Command, CommanderError } from 'commander';
import { addCheck } from './commands/check.js';
import { addCompletion } from './commands/completion.js';
import { addCook } from './commands/cook.js';
import { addEstimate } from './commands/estimate.js';
import { addNote } from './commands/note.js';
import { addPlan } from './commands/plan.js';
import { addSchema } from './commands/schema.js';
import { addShare } from './commands/share.js';
import { addState } from './commands/state.js';
import { addWall } from './commands/wall.js';
import { EXIT, type ExitCode, FaultError, UsageError } from './exit.js';
import { helpText } from './help-text.js';
import type { Finish, Io } from './io.js';
import { USUAL_WIDTH } from './terminal/capability.js';
import { version } from './version.js';

export function programFor(io: Io, finish: Finish): Command {
  const program = new Command('hearthtable')
    .description('A timetable for the hearth: what goes where, at which heat, when, and in whose hands.')
    .version(version(), '-V, --version', 'print the version')
    .helpOption('-h, --help', 'print help')
    .helpCommand('help [command]', 'print help for a command')
    .configureHelp({ sortSubcommands: false })
    .showHelpAfterError('(hearthtable --help lists what there is)')
    .exitOverride()
    .configureOutput({
      writeOut: (text) => io.stdout.write(text),
      writeErr: (text) => io.stderr.write(text),
      getOutHelpWidth: () => io.stdout.columns ?? USUAL_WIDTH,
      getErrHelpWidth: () => io.stdout.columns ?? USUAL_WIDTH,
      getOutHasColors: () => false,
      getErrHasColors: () => false,
    })
    .addHelpText(
      'after',
      helpText(
        io,
        `
Examples:
  hearthtable plan supper.yaml               plan it and show the chart
  hearthtable plan supper.yaml --serve 19:15 the same, served at another time
  hearthtable check supper.yaml              what it says, and what fits
  hearthtable estimate --help                one piece: minutes, pull, curve

Exit codes: 0 a plan, 1 no plan fits, 2 bad usage or input, 70 a fault of ours.`,
      ),
    );
  addPlan(program, io, finish);
  addCheck(program, io, finish);
  addShare(program, io, finish);
  addCook(program, io, finish);
  addNote(program, io, finish);
  addState(program, io, finish);
  addWall(program, io, finish);
  addEstimate(program, io, finish);
  addSchema(program, io, finish);
  addCompletion(program, io, finish);
  return program;
}

/** Never rejects: every end is an exit code, with what there is to say on stderr. */
export async function run(args: readonly string[], io: Io): Promise<ExitCode> {
  let code: ExitCode = EXIT.plan;
  const program = programFor(io, (ended) => {
    code = ended;
  });
  try {
    if (args.length === 0) {
      program.outputHelp({ error: true });
      return EXIT.usage;
    }
    await program.parseAsync(args, { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? EXIT.plan : EXIT.usage;
    if (error instanceof UsageError) {
      io.stderr.write(`${error.message}\n`);
      return EXIT.usage;
    }
    const words = error instanceof FaultError ? error.message : `something went wrong inside: ${oneLine(error)}`;
    io.stderr.write(
      `hearthtable: ${words}\nThis is a fault of ours, not of your file. The file would help us to find it.\n`,
    );
    return EXIT.fault;
  }
}

const oneLine = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).split('\n')[0]!.slice(0, 200);
